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
#include "boxproof/edition_equipment.hpp"
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
  std::map<std::string, RuleSection, std::less<>>
      rules;  // rule id -> where it stands; absent: it does not run

  // Keys that a local amendment changed, as dotted paths ("voltage.limits.building.max_v").
  std::vector<std::string> amended;
  std::vector<std::string> amended_to;  // of each: "1.5 in place of 2"
  // "conductor.voltage_drop.max_pct (1.5 in place of 2)"
  std::string amendment(std::size_t i) const { return amended[i] + " (" + amended_to[i] + ")"; }
};

// The editions that the program carries, oldest first.
inline constexpr std::array<std::string_view, 6> edition_names{"2008", "2011", "2014",
                                                               "2017", "2020", "2023"};

}  // namespace boxproof
