// Everything that is computed of one box, in one pass.
#include <algorithm>

#include "boxproof/calculate.hpp"

namespace boxproof {
namespace {

// Whether the module or the conductor of a string needs protection from what the others push into it.
std::optional<bool> protection_needed(const CircuitFacts& f) {
  const std::optional<Amps> module_limit = f.circuit->module->max_fuse;
  if (f.run.in_use && exceeds(f.back, *f.run.in_use)) return true;
  if (module_limit) return exceeds(f.back, *module_limit);
  if (f.back <= Amps(0)) return false;
  return std::nullopt;
}

void circuit_facts(const Design& design, const Combiner& box, const Circuit& c, Amps out, const Edition& e,
                   CircuitFacts& f) {
  f = CircuitFacts();
  f.circuit = &c;
  f.voltage = string_voltage(*c.module, c.series, design.site.low, e);
  f.max = input_current(c, e);
  f.back = back_current(box, c, out, e);
  const bool rated_100 = box.enclosure && box.enclosure->rated_100_pct;
  f.fuse_least = least_rating(f.max, rated_100, box.fuse ? box.fuse->ambient_factor : std::nullopt, e);
  f.fuse_suggested = standard_rating(f.fuse_least, e);
  f.run = run_ampacity(c.run ? &*c.run : nullptr, f.max, design.site.high, e);
  f.fuse_needed = protection_needed(f);
  if (const auto point = operating_point(c); c.run && point)
    f.drop_pct = drop_pct(*c.run, point->current, point->voltage, e);
}

void output_facts(const Design& design, const Combiner& box, const Edition& e, BoxFacts& facts) {
  const Run* run = box.output && box.output->run ? &*box.output->run : nullptr;
  facts.output_run = run_ampacity(run, facts.output_max, design.site.high, e);
  const auto operating = operating_point(box);
  facts.output_drop_pct =
      run && operating ? drop_pct(*run, operating->current, operating->voltage, e) : std::nullopt;
}

}  // namespace

std::optional<OperatingPoint> operating_point(const Circuit& c) {
  if (!c.module->imp || !c.module->vmp) return std::nullopt;
  return OperatingPoint{static_cast<double>(c.strings_per_fuse) * *c.module->imp,
                        static_cast<double>(c.series) * *c.module->vmp};
}

std::optional<OperatingPoint> operating_point(const Combiner& box) {
  OperatingPoint all;
  for (const Circuit& c : box.circuits) {
    const auto point = operating_point(c);
    if (!point) return std::nullopt;
    all.current += static_cast<double>(c.strings) * *c.module->imp;
    if (&c == &box.circuits.front() || point->voltage < all.voltage) all.voltage = point->voltage;
  }
  return all;
}

void box_facts(const Design& design, const Combiner& box, const Edition& e, BoxFacts& facts) {
  facts.box = &box;
  facts.circuits.resize(box.circuits.size());
  facts.output_max = output_current(box, e);
  facts.max_voltage.reset();
  facts.every_voltage_known = true;
  facts.cold_factor = 1;
  facts.highest_circuit = 0;
  facts.strings = facts.inputs = 0;
  facts.modules = 0;
  for (std::size_t i = 0; i < box.circuits.size(); ++i) {
    const Circuit& c = box.circuits[i];
    CircuitFacts& f = facts.circuits[i];
    circuit_facts(design, box, c, facts.output_max, e, f);
    facts.strings += c.strings;
    facts.inputs += c.inputs();
    facts.modules += static_cast<double>(c.strings) * c.series;
    if (!f.voltage.max) facts.every_voltage_known = false;
    if (f.voltage.max && (!facts.max_voltage || *f.voltage.max > *facts.max_voltage)) {
      facts.max_voltage = f.voltage.max;
      facts.cold_factor = f.voltage.factor;
      facts.highest_circuit = i;
    }
  }
  const bool rated_100 = box.enclosure && box.enclosure->rated_100_pct;
  facts.output_continuous = rated_100 ? facts.output_max : e.overcurrent_factor * facts.output_max;
  facts.disconnect_least = rated_100 ? facts.output_max : e.disconnect.current_factor * facts.output_max;
  output_facts(design, box, e, facts);
}

}  // namespace boxproof
