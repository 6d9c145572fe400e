// The plan: one site's combiner boxes as submitted for approval (boxproof-design/1).
//
// An absent optional value means "not stated". Nothing here is a guess: whoever needs a value that is not
// stated asks for it. Everything that a plan can name (modules, inverters, conductors, box types) lives once
// in a Library and is referred to by address, so that sixty thousand boxes share what they have in common.
#pragma once

#include <array>
#include <cstdint>
#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "boxproof/conductor_size.hpp"
#include "boxproof/edition.hpp"
#include "boxproof/quantity.hpp"

namespace boxproof {

enum class Cell : std::uint8_t { mono_si, poly_si, thin_film };
enum class Grounding : std::uint8_t { solid, functional, ungrounded };
enum class Stranding : std::uint8_t { solid, coarse, fine };
enum class Method : std::uint8_t { raceway, free_air };
enum class Place : std::uint8_t { roof, wall, ground, indoor };
enum class Cover : std::uint8_t { up, side };
enum class Poles : std::uint8_t { one, both };

struct Permit {  // the approved totals
  std::string number;
  std::optional<double> modules, strings, combiners, dc_kilowatts;
  bool stated = false;
};

// What the temperatures of a site may be, in degrees Celsius: beyond it is a unit or typing mistake.
struct TemperatureRange {
  double least, most;
};
inline constexpr TemperatureRange low_range{-70, 30}, high_range{-70, 100};

struct Site {
  std::string name;
  Use use = Use::building;
  std::optional<Celsius> low, high;
  std::string temperature_source;
  Permit permit;
};

struct Module {
  std::string id;
  Volts voc;  // at STC, one module, as all below
  Amps isc;
  std::optional<Volts> vmp;
  std::optional<Amps> imp;
  std::optional<Watts> pmax;
  std::optional<PercentPerKelvin> voc_coefficient;
  std::optional<VoltsPerKelvin> voc_coefficient_absolute;  // never both
  std::optional<PercentPerKelvin> vmp_coefficient, isc_coefficient;
  std::optional<Cell> cell;
  std::optional<Amps> isc_front_and_rear;
  std::optional<Amps> max_fuse;
  std::optional<Volts> max_system;
  std::optional<bool> listed;

  // The short-circuit current that circuits are sized for.
  Amps isc_for_circuits() const { return isc_front_and_rear.value_or(isc); }
};

struct Inverter {
  std::string id;
  std::optional<Volts> max_dc;
  std::optional<Amps> max_dc_isc;
  std::optional<Volts> tracking_min, tracking_max;
  std::optional<Grounding> grounding;
  std::optional<bool> ground_fault_protection, arc_fault_protection, rapid_shutdown;
  Amps backfeed;
};

// Whether the grounding is stated by a word that the edition does not know.
inline bool is_unknown_word(std::optional<Grounding> grounding, const Edition& edition) {
  return grounding == Grounding::functional && !edition.knows_functional_grounding;
}

struct Conductor {
  std::string id;
  std::optional<Size> size;
  std::optional<Material> material;
  std::string insulation;                        // empty: not stated
  std::optional<double> insulation_temperature;  // °C rating
  std::optional<Volts> rated;
  std::optional<Stranding> stranding;
  const Conductor* planned = nullptr;  // only as built: what the plan has in its place
};

struct Run {  // how a conductor is laid
  const Conductor* conductor = nullptr;
  std::optional<Method> method;
  std::uint32_t current_carrying = 2;
  std::uint32_t parallel = 1;
  std::optional<Millimetres> above_roof;
  std::optional<Celsius> ambient;
  std::optional<Metres> length;
  std::uint8_t terminal = 0;  // °C, 0: not stated
};

struct GroundingConductor {
  std::optional<Size> size;
  std::optional<Material> material;
};

struct Circuit {  // a group of like source circuits on a box
  std::string id;
  const Module* module = nullptr;
  std::uint32_t series = 0;
  std::uint32_t strings = 1;
  std::uint32_t strings_per_fuse = 1;
  std::optional<Run> run;
  std::optional<GroundingConductor> bond;
  std::optional<std::uint32_t> part_of;        // only as built: the planned group that it was split off
  std::optional<std::uint32_t> shared_inputs;  // only as built, where a group's strings differ in length

  // Inputs of the box that the group takes.
  std::uint32_t inputs() const { return shared_inputs.value_or(inputs_of(strings)); }
  // That so many strings of the group take; a remainder (only as built) takes one of its own.
  std::uint32_t inputs_of(std::uint32_t some) const {
    return (some + strings_per_fuse - 1) / strings_per_fuse;
  }
};

struct Mounting {
  std::optional<Place> place;
  std::optional<Cover> cover;
  std::optional<Millimetres> air_gap;
  std::optional<bool> wet;
};

struct Enclosure {
  std::string type;
  std::optional<Volts> rated_voltage;
  std::optional<Amps> rated_current;
  std::optional<std::uint32_t> inputs;
  std::optional<bool> listed, metal;
  bool rated_100_pct = false;  // not stated counts as not: the stricter reading
  std::optional<Celsius> inside;
};

struct Fuse {
  std::optional<Amps> rating;
  std::optional<Volts> voltage;
  std::optional<bool> dc, pv_listed;
  std::optional<Poles> poles;
  std::optional<double> interrupt_kiloamps;
  std::optional<double> ambient_factor;
};

struct Output {
  std::optional<Run> run;
  std::optional<Amps> ocpd;  // the overcurrent device at the far end; nothing: there is none
  std::optional<bool> ocpd_rated_100_pct;
};

struct Disconnect {
  std::optional<Volts> rated_voltage;
  std::optional<Amps> rated_current;
  std::optional<bool> load_break;
  std::optional<Metres> distance;  // 0: in the box
  std::optional<bool> external_handle, lockable;
};

struct Label {
  std::string kind;
  std::vector<std::pair<std::string, double>> values;      // the numeric ones
  std::vector<std::pair<std::string, std::string>> texts;  // the others
  bool legible = true;                                     // false only as built
  std::optional<std::uint32_t> planned;  // only as built: the plan's label whose contents it keeps
};

struct BoxType;

// One combiner box. Parts that come unchanged from the box type are shared with it.
struct Combiner {
  std::string id, sheet, location;
  const Inverter* inverter = nullptr;
  const BoxType* type = nullptr;
  std::shared_ptr<const Mounting> mounting;
  std::shared_ptr<const Enclosure> enclosure;
  std::shared_ptr<const Fuse> fuse;
  std::shared_ptr<const Output> output;
  std::shared_ptr<const Disconnect> disconnect;
  std::shared_ptr<const std::vector<Label>> labels;
  std::optional<GroundingConductor> egc, bond;
  std::vector<Circuit> circuits;
  std::vector<Amps> odd_fuses;  // ratings found in the box that are not the common one; only as built
};

// What like boxes have in common; a box is a merge patch onto it.
struct BoxType {
  std::string id;
  Combiner parts;
};

// Named parts with stable addresses.
template <class T>
class Library {
 public:
  T& add(std::string_view id) {
    T& part = parts_.emplace_back();
    part.id = std::string(id);
    index_.emplace(part.id, &part);
    return part;
  }
  const T* find(std::string_view id) const {
    const auto found = index_.find(id);
    return found == index_.end() ? nullptr : found->second;
  }
  const std::deque<T>& entries() const { return parts_; }

 private:
  std::deque<T> parts_;
  std::unordered_map<std::string_view, const T*> index_;
};

struct Design {
  Site site;
  std::string edition;
  std::string amendments_path;                     // empty: none, or in the design file itself
  std::optional<std::uint32_t> amendments_offset;  // where they stand in the design file itself
  Library<Module> modules;
  Library<Inverter> inverters;
  Library<Conductor> conductors;
  Library<BoxType> box_types;
  std::vector<Combiner> combiners;
};

// Words of the file formats, in the order of their enumerators.
inline constexpr std::array<std::string_view, 3> cell_names{"mono-si", "poly-si", "thin-film"};
inline constexpr std::array<std::string_view, 3> grounding_names{"solid", "functional", "ungrounded"};
inline constexpr std::array<std::string_view, 3> stranding_names{"solid", "coarse", "fine"};
inline constexpr std::array<std::string_view, 2> method_names{"raceway", "free-air"};
inline constexpr std::array<std::string_view, 4> place_names{"roof", "wall", "ground", "indoor"};
inline constexpr std::array<std::string_view, 2> cover_names{"up", "side"};
inline constexpr std::array<std::string_view, 2> poles_names{"one", "both"};
inline constexpr std::array<std::string_view, 10> label_kinds{
    "box-identification", "max-voltage",       "dc-power-source", "shock-both-sides", "raceway-power-source",
    "ground-fault",       "ungrounded-system", "rapid-shutdown",  "disconnect",       "directory"};

}  // namespace boxproof
