#include "src/check/open_limits.hpp"

#include <algorithm>

namespace boxproof {
namespace {

bool rated(const Run* run) {
  return run != nullptr && run->conductor != nullptr && run->conductor->rated;
}

bool voltages_open(const BoxFacts& f) {
  const Combiner& box = *f.box;
  const bool circuits = std::any_of(box.circuits.begin(), box.circuits.end(), [](const Circuit& c) {
    return !c.module->max_system || !rated(c.run ? &*c.run : nullptr);
  });
  return circuits || !f.every_voltage_known || !box.inverter->max_dc || (box.fuse && !box.fuse->voltage) ||
         (box.disconnect && !box.disconnect->rated_voltage) || !box.enclosure ||
         !box.enclosure->rated_voltage || !rated(box.output && box.output->run ? &*box.output->run : nullptr);
}

bool currents_open(const BoxFacts& f) {
  const Combiner& box = *f.box;
  return !box.enclosure || !box.enclosure->rated_current || (box.fuse && !box.fuse->rating) ||
         (box.disconnect && !box.disconnect->rated_current);
}

bool ampacities_open(const BoxFacts& f) {
  const auto open = [](const RunAmpacity& a) { return a.lack != Lack::nothing || !a.in_use || !a.terminal; };
  return open(f.output_run) || std::any_of(f.circuits.begin(), f.circuits.end(),
                                           [&](const CircuitFacts& c) { return open(c.run); });
}

}  // namespace

OpenLimits open_limits(const BoxFacts& facts) {
  return {voltages_open(facts), currents_open(facts), ampacities_open(facts)};
}

}  // namespace boxproof
