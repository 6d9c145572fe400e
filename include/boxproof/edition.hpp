// One edition of the code, as values: limits, factors, tables, section numbers. What differs between editions
// is data (data/editions: a base and a merge patch an edition), never an `if` on a year.
//
// Every group carries the section it comes from. An empty section means that the edition has no such
// requirement.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/conductor_size.hpp"
#include "boxproof/quantity.hpp"

namespace boxproof {

// Where the array stands.
enum class Use : std::uint8_t { dwelling, building, ground };
inline constexpr std::array<std::string_view, 3> use_names{"dwelling", "building", "ground"};

// Words that editions use differently; messages take them from here.
struct Terms {
  std::string string_circuit;  // one string of modules up to the box
  std::string output_circuit;  // from the box to the inverter or recombiner
};

struct VoltageLimit {
  Volts max;
  bool ban = true;  // false: a threshold, above which the articles on higher voltages apply
  std::string section;
};

// Factors on the rated open-circuit voltage of crystalline silicon, from warm to cold.
struct ColdTable {
  struct Band {
    Celsius down_to;
    double factor;
  };
  std::string section;
  Celsius reference;  // at and above it the factor is 1
  std::vector<Band> bands;
};

// Ampacities by size, material and insulation column (the column's temperature in °C, rising).
struct AmpacityTable {
  std::string section;
  std::vector<int> columns;
  // [material][size] -> one value a column; empty where the table has no such conductor
  std::array<std::array<std::vector<double>, Size::count>, 2> rows;
};

// Factors on ampacity by ambient, band by band from cold to hot; a missing factor ends that column.
struct CorrectionTable {
  struct Band {
    Celsius up_to;
    std::vector<std::optional<double>> factors;  // one a column
  };
  std::string section;
  std::vector<int> columns;
  std::vector<Band> bands;
};

enum class CorrectionMethod { table, formula };

struct AdjustmentTable {
  struct Band {
    std::optional<unsigned> up_to;  // conductors that carry current; nothing: any number
    double factor;
  };
  std::string section;
  std::vector<Band> bands;
};

// Kelvin added to the ambient of raceways and cables over a sunlit roof, by height.
struct RoofAdder {
  struct Band {
    Millimetres up_to;
    Kelvin adder;
  };
  std::string section;
  bool limit_included = true;  // whether a height exactly at the limit still gets the adder
  std::vector<Band> bands;
  std::vector<std::string> exempt;  // insulations without the adder
};

struct TerminalDefault {  // where the terminals are not marked
  std::string section;
  int small = 60;  // °C column for circuits up to up_to, or conductors up to up_to_size
  int large = 75;
  Amps up_to;
  Size up_to_size{0};
};

struct GroundingTable {
  struct Row {
    Amps up_to;
    Size copper, aluminum;
  };
  std::string section;        // the PV rule
  std::string table_section;  // the table
  std::vector<Row> rows;
  Size least_copper{0};
  Size least_aluminum{0};
  double assumed_factor = 1;  // times Isc: the rating to assume where there is no overcurrent device
  std::string assumed_section;
};

struct ResistanceTable {  // DC, uncoated
  std::string section;
  Celsius at;
  // [material][size]; solid is empty where the table has stranded only
  std::array<std::array<std::optional<double>, Size::count>, 2> stranded_ohm_per_km, solid_ohm_per_km;
};

struct InsulationFitness {
  bool sunlight = false;                 // may be exposed outdoors in the array's wiring
  bool sunlight_only_if_marked = false;  // may be, if marked sunlight resistant
  bool wet = false;                      // may be in a wet location, inside raceways outdoors included
};

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

// Insulations that exposed single conductors of ungrounded arrays must have.
struct UngroundedExposed {
  std::string section;
  std::vector<std::string> insulations;
};

struct Edition {
  std::string name;   // "2017"
  std::string title;  // "NFPA 70 (National Electrical Code), 2017 edition"
  Terms terms;

  std::array<VoltageLimit, 3> limits;  // by Use
  const VoltageLimit& limit(Use use) const { return limits[static_cast<std::size_t>(use)]; }
  std::string voltage_section;
  Celsius design_low_at_most;  // strings are judged at this temperature where the plan's is warmer
  ColdTable cold;
  double unequal_vmp_pct = 0;  // strings in parallel may differ by so much in Vmp
  Kelvin cell_rise;            // of a cell over ambient in full sun, for the hot end of the tracking window

  double maximum_current_factor = 0;  // on Isc
  std::string maximum_current_section, output_current_section;
  double overcurrent_factor = 0;  // on the maximum current, for the rating of an overcurrent device
  std::string overcurrent_section;
  double before_factor = 0;  // on the maximum current, against the ampacity before conditions of use
  double after_factor = 0;   // likewise, after conditions of use
  std::string before_section, after_section;
  // A second, stricter reading of the same text: a conductor that passes after_factor and fails this gets a
  // query.
  std::optional<double> strict_after_factor;
  std::string rated_100_section;

  std::vector<double> standard_ratings, additional_fuse_ratings, customary_fuse_ratings;
  std::string standard_section;
  Amps next_size_up_to;
  std::string next_size_section;
  std::array<std::array<std::optional<double>, Size::count>, 2> small_conductor_limit;  // [material][size], A
  std::string small_conductor_section;
  std::string omission_section;  // when no overcurrent protection is needed
  bool both_poles_if_ungrounded = false;
  bool pv_listed = false;
  bool knows_functional_grounding = false;
  Celsius fuse_heat_above;

  AmpacityTable raceway, free_air;
  std::optional<AmpacityTable> pv_wire_raceway;
  CorrectionMethod correction_method = CorrectionMethod::table;
  Celsius correction_reference;
  CorrectionTable correction;
  std::optional<CorrectionTable> pv_wire_correction;
  AdjustmentTable adjustment;
  RoofAdder roof_adder;
  TerminalDefault terminal_default;
  GroundingTable grounding;
  ResistanceTable resistance;
  double voltage_drop_max_pct = 0;
  std::map<std::string, InsulationFitness, std::less<>> insulations;
  std::optional<UngroundedExposed> ungrounded_exposed;
  Size smallest_aluminum{0};

  DisconnectRules disconnect;
  LabelRules labels;
};

EnclosureRules enclosure;
GroundFaultRules ground_fault;
ArcFaultRules arc_fault;
RapidShutdownRules rapid_shutdown;
double dc_power_tolerance_pct = 0;
MeasuredRules measured;

struct RuleSection {
  std::string section;
  bool unverified = false;  // known, or a part of it, from memory only
};
std::map<std::string, RuleSection, std::less<>> rules;  // rule id -> where it stands; absent: it does not run

// Keys that a local amendment changed, as dotted paths ("voltage.limits.building.max_v").
std::vector<std::string> amended;
};

// The editions that the program carries, oldest first.
inline constexpr std::array<std::string_view, 6> edition_names{"2008", "2011", "2014",
                                                               "2017", "2020", "2023"};

}  // namespace boxproof
