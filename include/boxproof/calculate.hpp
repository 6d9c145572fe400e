// The calculations: pure functions of the design and the edition. No files, no severities. No intermediate
// value is rounded. Every function takes an optional working, which it fills with the steps it made.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "boxproof/design.hpp"
#include "boxproof/edition.hpp"
#include "boxproof/working.hpp"

namespace boxproof {

// The first thing that a calculation needed and did not find.
enum class Lack : std::uint8_t {
  nothing,
  low_temperature,
  high_temperature,
  cell,         // neither coefficient nor kind of cell stated
  coefficient,  // thin film, or colder than the table
  run,
  conductor,  // the run names none
  size,
  material,
  insulation_temperature,
  method,
  table,  // the table has no such conductor
};

struct StringVoltage {
  std::optional<Volts> max;
  double factor = 1;  // max over n · Voc
  Lack lack = Lack::nothing;
};

// The temperature that strings are judged at: the plan's, or a colder one that a local amendment sets.
std::optional<Celsius> design_low(std::optional<Celsius> stated, const Edition& edition);

// Highest open-circuit voltage of a string at the lowest expected ambient. Section 690.7(A).
StringVoltage string_voltage(const Module& module, unsigned series, std::optional<Celsius> low,
                             const Edition& edition, Working* working = nullptr);

// Maximum current of one input of a box (strings_per_fuse strings joined). Section 690.8(A).
Amps input_current(const Circuit& circuit, const Edition& edition, Working* working = nullptr);

// Sum over the inputs of a box.
Amps output_current(const Combiner& box, const Edition& edition, Working* working = nullptr);

// The current that everything else can push into a faulted string of this group.
Amps back_current(const Combiner& box, const Circuit& circuit, const Edition& edition,
                  Working* working = nullptr);

// The same where the box's output current is known already.
Amps back_current(const Combiner& box, const Circuit& circuit, Amps output, const Edition& edition);

// What parallel strings ahead of the same fuse add to the fuse, at the module: (p − 1) · 1.25 · Isc.
Amps joined_current(const Circuit& circuit, const Edition& edition);

// Least rating of an overcurrent device that carries `max` continuously.
Amps least_rating(Amps max, bool rated_100_pct, std::optional<double> ambient_factor, const Edition& edition,
                  Working* working = nullptr);

// Smallest standard rating (with the additional fuse ratings) at or above `least`; nothing beyond the list.
std::optional<Amps> standard_rating(Amps least, const Edition& edition);

// Whether an overcurrent device of this rating protects a conductor of this ampacity: at or below it, or the
// next standard rating above it, up to the edition's limit. Section 240.4(B).
bool protects(Amps rating, Amps ampacity, const Edition& edition);

// Ampacity of a run for a circuit of the given maximum current.
struct RunAmpacity {
  Lack lack = Lack::nothing;
  std::optional<Amps> in_use;    // after correction and adjustment, all parallel conductors together
  std::optional<Amps> terminal;  // before them, at the terminals' temperature
  double correction = 1, adjustment = 1;
  Celsius ambient;
  int insulation_column = 0, terminal_column = 0;
};
RunAmpacity run_ampacity(const Run* run, Amps max, std::optional<Celsius> site_high, const Edition& edition,
                         Working* working = nullptr);

// Smallest size of the same wire, laid the same way, that passes before and after conditions of use.
std::optional<Size> smallest_size(const Run& run, Amps max, std::optional<Celsius> site_high,
                                  const Edition& edition);

// Equipment grounding conductor for an overcurrent device of this rating; nothing beyond the table.
std::optional<Size> grounding_size(Amps rating, Material material, const Edition& edition);

// Voltage drop there and back as a share of `voltage`, in percent; nothing if the run does not say enough.
std::optional<double> drop_pct(const Run& run, Amps current, Volts voltage, const Edition& edition,
                               Working* working = nullptr);

// Operating current of a box's output and the lowest operating voltage of its strings; nothing where a
// module's Imp or Vmp is not stated.
struct OperatingPoint {
  Amps current;
  Volts voltage;
};
std::optional<OperatingPoint> operating_point(const Combiner& box);

// Of one input of the box: the strings joined ahead of its fuse.
std::optional<OperatingPoint> operating_point(const Circuit& circuit);

// Everything that is computed of one box.
struct CircuitFacts {
  const Circuit* circuit = nullptr;
  StringVoltage voltage;
  Amps max;  // one input
  Amps back;
  Amps fuse_least;
  std::optional<Amps> fuse_suggested;
  std::optional<bool> fuse_needed;  // nothing: the module's largest fuse is not stated, and it matters
  RunAmpacity run;
  std::optional<double> drop_pct;
};

struct BoxFacts {
  const Combiner* box = nullptr;
  std::vector<CircuitFacts> circuits;  // as in the box
  std::optional<Volts> max_voltage;    // highest of the strings whose voltage is known
  bool every_voltage_known = true;
  double cold_factor = 1;           // of that string
  std::size_t highest_circuit = 0;  // where it is
  Amps output_max, output_continuous;
  RunAmpacity output_run;
  std::optional<double> output_drop_pct;
  Amps disconnect_least;
  unsigned strings = 0, inputs = 0;
  double modules = 0;
};

// Fills `facts` (reusing its memory) from the box.
void box_facts(const Design& design, const Combiner& box, const Edition& edition, BoxFacts& facts);

// How near a box comes to a limit.
struct Margin {
  std::string_view of;     // "voltage, site limit"
  std::string_view brief;  // "site limit"
  std::string where;       // the circuit, where the box has several
  double value = 0, limit = 0;
  std::string_view unit;
  double share() const { return 1 - value / limit; }  // what is left of the limit; below 0: over it
};

// Voltages and currents of the box against the limits of its parts, in the order of the rules. What goes by
// steps is left out: a 20 A fuse on a module that allows 20 A is not near anything.
std::vector<Margin> margins(const Design& design, const BoxFacts& facts, const Edition& edition);

// The smallest of them; nothing where there is none.
std::optional<Margin> tightest_margin(const Design& design, const BoxFacts& facts, const Edition& edition);

}  // namespace boxproof
