// What an edition of the code asks of disconnects, labels, enclosures and protection, and what measurements
// are held against: the part of boxproof::Edition that is not about voltage, current and conductors.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/quantity.hpp"

namespace boxproof {

enum class DisconnectKind { none, isolating, load_break };

// What is asked at the output of a box in one case.
struct DisconnectCase {
  DisconnectKind kind = DisconnectKind::none;
  bool only_if_fused = false;
  std::optional<Metres> within;  // nothing: no distance is set
  Metres unless_output_up_to;    // nothing is asked of a box whose output is no longer; 0: no such exception
  bool or_lockable = false;      // lockable, or in sight and readily accessible, in place of a distance
  bool external_handle = false;
  bool lockable = false;
  std::string section;
};

struct DisconnectRules {
  std::optional<DisconnectCase> roof;  // boxes on a roof, where the edition singles them out
  Amps large_above;                    // output current above which `large` applies
  DisconnectCase large, small;
  double current_factor = 1.25;  // on the output's maximum current, for the rated current
  std::string current_section;
};

// Which boxes or sites need a label, and where it goes.
enum class LabelWhen : std::uint8_t {
  always,
  disconnect,      // the box has one
  raceway,         // on or in a building, with a run in raceway
  grounded,        // an inverter with a solidly grounded array
  ungrounded,      // the array of the box's inverter is ungrounded
  building,        // the site is a building or a dwelling
  far_disconnect,  // fuses in the box, and its disconnect farther away than over
};
enum class LabelAt : std::uint8_t { box, disconnect, raceway, inverter, service, system };
enum class LabelValue : std::uint8_t { max_v, max_a, isc_a, vmp_v, imp_a };
inline constexpr std::array<std::string_view, 7> label_when_names{
    "always", "disconnect", "raceway", "grounded", "ungrounded", "building", "far disconnect"};
inline constexpr std::array<std::string_view, 6> label_at_names{"box",      "disconnect", "raceway",
                                                                "inverter", "service",    "system"};
inline constexpr std::array<std::string_view, 5> label_value_names{"max_v", "max_a", "isc_a", "vmp_v",
                                                                   "imp_a"};

struct LabelRule {
  std::string kind;
  LabelAt at = LabelAt::box;
  LabelWhen when = LabelWhen::always;
  std::vector<LabelValue> values;      // what it must state
  std::vector<std::string> served_by;  // other kinds that do as well, with these values
  std::optional<Metres> over;          // of LabelWhen::far_disconnect
  std::optional<Metres> every;         // repeated at this distance
  std::optional<Millimetres> letter;   // height of its capitals
  std::string look;                    // colours, where the edition asks for them
  std::string words;                   // prescribed by the edition; empty: ours
  std::string section;
  bool unverified = false;

  // Whether a label of that kind does what is asked for: it is of the kind, or of one that serves as well.
  bool served_with(std::string_view other) const {
    return other == kind || std::find(served_by.begin(), served_by.end(), other) != served_by.end();
  }
  // Whether it belongs on the box or what is part of it, and not once on the site.
  bool on_box() const { return at <= LabelAt::raceway; }
};

struct LabelRules {
  std::vector<LabelRule> kinds;              // in the order of label_kinds
  double over_pct = 0;                       // a value that is higher by so much describes another circuit
  std::string solid_section, other_section;  // identification of conductors, by grounding

  const LabelRule* find(std::string_view kind) const {
    for (const LabelRule& rule : kinds)
      if (rule.kind == kind) return &rule;
    return nullptr;
  }
};

struct MeasuredRules {                            // what measurements of strings are held against
  double irradiance_min = 0, irradiance_max = 0;  // W/m2, between which readings are judged
  // Change of Voc with the natural logarithm of the irradiance, as a share, and how far it may be off.
  double log_factor = 0, log_uncertainty = 0;
  double mismatch = 0;  // modules by which an inferred count differs from the expected one
  double spread_max_pct = 0;
  double current_min_pct = 0;                               // of the neighbours' median
  double insulation_megohm = 0, insulation_low_megohm = 0;  // above `insulation_above`, and up to it
  Volts insulation_above;
  double system_voltage_factor = 0;  // on the strings' open-circuit voltage at 25 °C
  std::string voltage_section, spread_section, current_section, insulation_section;
};

struct EnclosureType {
  std::string name;      // "3R"
  bool outdoor = false;  // may stand in the weather
  bool lid_up = false;   // outdoors: holds water off with its lid to the sky too
  enum class Wet : std::uint8_t {
    no,
    ask,
    yes
  } wet_indoors = Wet::no;  // ask: it depends on how the wet comes
};

struct EnclosureRules {
  std::vector<EnclosureType> types;  // in the order of the table
  std::string types_section;
  Millimetres least_air_gap;  // behind a metal box in a wet location
  std::string air_gap_section;
  bool or_field_labelled = false;  // a field label does in place of a listing
  std::string listing_section;
};

struct GroundFaultRules {
  std::string section;
  unsigned exempt_up_to_strings = 0;  // in parallel, off buildings, on a solidly grounded inverter
  std::string
      ungrounded_section;  // where ungrounded arrays have a section of their own; empty: they have not
  // Other than on dwellings: equipment grounding conductors of so many times the circuit's ampacity instead.
  std::optional<double> larger_grounding_factor;
  std::string larger_grounding_section;
};

struct ArcFaultRules {
  std::string section;
  Volts from;
  bool on_buildings_only = false;
  bool outputs_off_buildings_exempt =
      false;  // output circuits in metal raceway or underground; strings never
};

struct RapidShutdownRules {
  std::string section;
  Metres beyond;                             // of the array: from there on conductors are outside
  std::optional<Metres> beyond_in_building;  // inside a building, where that differs
  struct Limit {
    Volts max;
    std::optional<double> max_voltamperes;
    double within_seconds = 0;
    std::string instead;  // what serves in its place; empty: nothing
  };
  Limit outside;
  std::optional<Limit> inside;
  std::optional<double> proposed_seconds;  // what a proposed amendment of the edition says in their place
  std::string exempt_structures;           // empty: none
};

}  // namespace boxproof
