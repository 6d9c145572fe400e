// How near a box comes to its limits.
#include <algorithm>

#include "boxproof/calculate.hpp"

namespace boxproof {
namespace {

// Hands each margin of the box to `take`.
template <class Take>
void each_margin(const Design& design, const BoxFacts& f, const Edition& e, Take&& take) {
  const Combiner& box = *f.box;
  const auto where = [&](std::size_t i) -> const Circuit* {
    return box.circuits.size() > 1 ? &box.circuits[i] : nullptr;
  };
  const auto volts = [&](std::string_view of, std::string_view brief, std::optional<Volts> limit) {
    if (f.max_voltage && limit)
      take(Margin{of, brief, {}, f.max_voltage->value(), limit->value(), "V"}, nullptr);
  };
  volts("voltage, limit for the site", "site limit", e.limit(design.site.use).max);
  for (std::size_t i = 0; i < box.circuits.size(); ++i) {
    const CircuitFacts& c = f.circuits[i];
    if (c.voltage.max && box.circuits[i].module->max_system)
      take(Margin{"voltage, module",
                  "module voltage",
                  {},
                  c.voltage.max->value(),
                  box.circuits[i].module->max_system->value(),
                  "V"},
           where(i));
  }
  volts("voltage, inverter", "inverter voltage", box.inverter->max_dc);
  if (box.fuse) volts("voltage, fuse", "fuse voltage", box.fuse->voltage);
  if (box.disconnect) volts("voltage, disconnect", "switch voltage", box.disconnect->rated_voltage);
  if (box.enclosure) volts("voltage, box", "box voltage", box.enclosure->rated_voltage);

  for (std::size_t i = 0; i < box.circuits.size(); ++i) {
    const auto& run = box.circuits[i].run;
    const auto& max = f.circuits[i].voltage.max;
    if (max && run && run->conductor && run->conductor->rated)
      take(Margin{"voltage, string conductor",
                  "wire voltage",
                  {},
                  max->value(),
                  run->conductor->rated->value(),
                  "V"},
           where(i));
  }
  if (box.output && box.output->run && box.output->run->conductor)
    volts("voltage, output conductor", "wire voltage", box.output->run->conductor->rated);

  const auto amps = [&](std::string_view of, std::string_view brief, Amps value, std::optional<Amps> limit,
                        const Circuit* circuit) {
    if (limit && *limit > Amps(0)) take(Margin{of, brief, {}, value.value(), limit->value(), "A"}, circuit);
  };
  if (box.enclosure)
    amps("current, box", "box current", f.output_continuous, box.enclosure->rated_current, nullptr);
  if (box.disconnect)
    amps("current, disconnect", "switch current", f.disconnect_least, box.disconnect->rated_current, nullptr);
  for (std::size_t i = 0; i < box.circuits.size(); ++i) {
    const CircuitFacts& c = f.circuits[i];
    if (box.fuse) amps("fuse, least rating", "fuse", c.fuse_least, box.fuse->rating, where(i));
    amps("string conductor at terminals", "string wire", e.before_factor * c.max, c.run.terminal, where(i));
    amps("string conductor as it lies", "string wire", e.after_factor * c.max, c.run.in_use, where(i));
  }
  amps("output conductor at terminals", "output wire", e.before_factor * f.output_max, f.output_run.terminal,
       nullptr);
  amps("output conductor as it lies", "output wire", e.after_factor * f.output_max, f.output_run.in_use,
       nullptr);
}

}  // namespace

std::vector<Margin> margins(const Design& design, const BoxFacts& facts, const Edition& edition) {
  std::vector<Margin> out;
  each_margin(design, facts, edition, [&](Margin m, const Circuit* circuit) {
    if (circuit != nullptr) m.where = circuit->id;
    out.push_back(std::move(m));
  });
  return out;
}

std::optional<Margin> tightest_margin(const Design& design, const BoxFacts& facts, const Edition& edition) {
  std::optional<Margin> tightest;
  const Circuit* where = nullptr;
  each_margin(design, facts, edition, [&](const Margin& m, const Circuit* circuit) {
    if (tightest && m.share() >= tightest->share()) return;
    tightest = m;
    where = circuit;
  });
  if (where != nullptr) tightest->where = where->id;
  return tightest;
}

}  // namespace boxproof
