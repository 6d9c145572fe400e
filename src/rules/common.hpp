// What several rules share.
#pragma once

#include <string>
#include <vector>

#include "src/rules/notes.hpp"

namespace boxproof {

inline std::optional<Celsius> design_low(const BoxCase& c) {
  return design_low(c.design.site.low, c.edition);
}

std::string circuit_part(const Circuit& circuit);  // "circuit 2"

// Pointer to a key of a named part: "/modules/M-450/max_fuse_a".
std::string key_of(const Module& module, std::string_view key);
std::string key_of(const Inverter& inverter, std::string_view key);
std::string key_of(const Conductor& conductor, std::string_view key);

// Whether the box stands outdoors; nothing where the plan does not say.
std::optional<bool> stands_outdoors(const Combiner& box);

// A run of the box with what goes with it. Names are made only when something is said about it.
struct LaidRun {
  const Combiner* box = nullptr;
  std::optional<std::size_t> circuit;  // nothing: the output
  const Run* run = nullptr;            // null: not stated
  const RunAmpacity* ampacity = nullptr;
  Amps max;                    // what it carries at most
  std::optional<Amps> device;  // the overcurrent device ahead of it

  const Conductor* conductor() const { return run != nullptr ? run->conductor : nullptr; }
  std::string part() const;     // "circuit 1 conductor", "output conductor"
  std::string pointer() const;  // below the box: "/circuits/0/run"
  // As messages call it, in the edition's terms: "PV source circuit conductor (circuit 1)".
  std::string name(const Terms& terms) const;
};

LaidRun source_run(const BoxCase& c, std::size_t circuit);
LaidRun output_run(const BoxCase& c);

// Calls `look` with the source circuits' runs, then the output's.
template <class Look>
void each_run(const BoxCase& c, Look&& look) {
  for (std::size_t i = 0; i < c.box.circuits.size(); ++i) look(source_run(c, i));
  look(output_run(c));
}

// Says which value a run's ampacity lacked. `speaks_for_all` for the one rule that tells it.
void lacks_of_run(const BoxCase& c, Notes& out, const LaidRun& laid, bool speaks_for_all);

// Says which value the voltage of a string lacked. `speaks_for_all` for the one rule that tells it.
void lacks_of_voltage(const BoxCase& c, Notes& out, bool speaks_for_all);

// "10 AWG copper"
std::string wire(const Conductor& conductor);

// Largest and smallest rating of the fuses in the box (they are the same unless odd ones were found in it).
std::optional<Amps> largest_fuse(const Combiner& box);
std::optional<Amps> smallest_fuse(const Combiner& box);

// Whether the box has fuses whose rating is not stated.
inline bool lacks_fuse_rating(const BoxCase& c) {
  return c.box.fuse && !largest_fuse(c.box);
}

// Fills a working with how a run's ampacity came about.
void work_ampacity(Working& working, const BoxCase& c, const LaidRun& laid);

}  // namespace boxproof
