// The field record: what somebody saw on site (boxproof-asbuilt/1). An absent value was not looked at; it
// never means "as designed".
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/design.hpp"

namespace boxproof {

struct PostedLabel {  // what the label on the box says
  std::optional<std::string> id;
  std::optional<std::uint32_t> strings, series;
  std::optional<Volts> max_voltage;
  std::optional<Amps> max_current, fuse;
  bool operator==(const PostedLabel&) const = default;
};

struct Count {
  std::optional<std::uint32_t> positive, negative, fuses, modules;
  std::vector<std::uint32_t>
      series;  // of each string, in the order of the groups; one entry speaks for all strings
  bool series_of_each = false;
  bool operator==(const Count&) const = default;
};

struct FoundFuse {
  std::optional<Amps> rating;
  std::optional<Volts> voltage;
  std::optional<bool> dc, pv_listed;
  std::optional<Poles> poles;
  bool operator==(const FoundFuse&) const = default;
};

struct OddFuse {
  std::optional<std::uint32_t> position;
  std::optional<Amps> rating;  // nothing: not read; it is told, and not judged
};

struct FoundEnclosure {
  std::optional<std::string> type;
  std::optional<Millimetres> air_gap;
  std::optional<Cover> cover;
  std::optional<bool> listed, secured, gasket_seated;
  bool operator==(const FoundEnclosure&) const = default;
};

struct FoundDisconnect {
  std::optional<bool> present;
  std::optional<Volts> rated_voltage;
  std::optional<Amps> rated_current;
  std::optional<bool> load_break, works;
  std::optional<Metres> distance;
  bool operator==(const FoundDisconnect&) const = default;
};

struct FoundConductor {
  std::optional<Size> size;
  std::optional<Material> material;
  std::optional<Stranding> stranding;
  std::optional<std::string> insulation;
  std::optional<bool> antioxidant, lug_for_fine_strand;  // output only
  bool operator==(const FoundConductor&) const = default;
};

struct FoundLabel {
  std::string kind;
  std::optional<bool> legible;
  std::vector<std::pair<std::string, double>> values;
  std::vector<std::pair<std::string, std::string>> texts;

  bool states_anything() const { return !values.empty() || !texts.empty(); }
};

enum class Origin : std::uint8_t { installation, manufacture, unknown };
inline constexpr std::array<std::string_view, 3> origin_names{"installation", "manufacture", "unknown"};

struct Observation {
  std::string what;  // a condition word
  std::string where, photo, note;
  std::optional<Origin> origin;
};

struct MeasuredString {
  std::optional<std::uint32_t> position;
  std::optional<Volts> voc;
  std::optional<Amps> isc;
  std::optional<double> insulation_megohm;
  std::optional<bool> reversed;
};

struct Measured {
  std::optional<double> irradiance_w_m2;
  std::optional<Celsius> cell;
  double tolerance_pct = 2;  // of a voltage reading, either way
  std::vector<MeasuredString> strings;
};

struct VisitedBox {
  std::string id;
  PostedLabel posted;
  Count count;
  FoundFuse fuse;
  std::vector<OddFuse> mixed_fuses;
  bool mixed_fuses_listed = false;  // an empty list says that all are alike
  FoundEnclosure enclosure;
  FoundDisconnect disconnect;
  FoundConductor output, source;
  GroundingConductor egc;
  std::vector<FoundLabel> labels;
  bool labels_listed = false;  // the record lists the labels found: what is not in it was not there
  std::vector<Observation> seen;
  bool seen_listed = false;  // an empty list says that nothing bad was seen
  std::optional<Measured> measured;

  // Whether there is nothing in the entry but the id: it does not show that anybody opened the box. An empty
  // list says that somebody looked: no labels, no odd fuses, nothing bad seen.
  bool says_nothing() const {
    const bool nothing_measured =
        !measured || (measured->strings.empty() && !measured->irradiance_w_m2 && !measured->cell);
    return posted == PostedLabel() && count == Count() && fuse == FoundFuse() && mixed_fuses.empty() &&
           !mixed_fuses_listed && enclosure == FoundEnclosure() && disconnect == FoundDisconnect() &&
           output == FoundConductor() && source == FoundConductor() && !egc.size && !egc.material &&
           !labels_listed && seen.empty() && !seen_listed && nothing_measured;
  }
};

// The keys of the record that say something of the box, as "count/series", "labels" or, of a measured string,
// "measured/9/voc_v": what somebody looked at. `strings`: how many the box has; where the list of modules in
// series has fewer, its strings are told one by one ("count/series/1").
std::vector<std::string> looked_at(const VisitedBox& box, double strings);

enum class VisitKind : std::uint8_t { first, again };
inline constexpr std::array<std::string_view, 2> visit_kind_names{"first", "again"};

struct FieldRecord {
  std::string date, by, weather;
  std::optional<VisitKind> kind;
  std::vector<VisitedBox> boxes;
};

// The words of seen[].what.
inline constexpr std::array<std::string_view, 28> condition_words{
    "burned-terminal",  "burned-bus",        "arc-marks",        "melted-part",       "water-inside",
    "handle-leak",      "chafed-conductor",  "nicked-conductor", "pinched-conductor", "loose-terminal",
    "missing-barrier",  "corroded-terminal", "cracked-bushing",  "missing-bushing",   "conductor-off-center",
    "sharp-bend",       "gasket-damaged",    "latch-open",       "unsealed-opening",  "missing-inhibitor",
    "no-strain-relief", "debris-inside",     "loose-mounting",   "standing-water",    "label-illegible",
    "label-missing",    "wrong-torque-mark", "counterfeit-mark"};

}  // namespace boxproof
