// Voltage drop of a run, there and back, at operating current.
#include <fmt/format.h>

#include "boxproof/calculate.hpp"

namespace boxproof {
namespace {

constexpr double metres_per_kilometre = 1000;

std::optional<double> ohm_per_km(const Conductor& c, const Edition& e) {
  if (!c.size || !c.material) return std::nullopt;
  const auto material = static_cast<std::size_t>(*c.material);
  const auto solid = e.resistance.solid_ohm_per_km[material][c.size->index()];
  if (c.stranding == Stranding::solid && solid) return solid;
  return e.resistance.stranded_ohm_per_km[material][c.size->index()];
}

}  // namespace

std::optional<double> drop_pct(const Run& run, Amps current, Volts voltage, const Edition& e,
                               Working* working) {
  if (run.conductor == nullptr || !run.length) return std::nullopt;
  const auto r = ohm_per_km(*run.conductor, e);
  if (!r) return std::nullopt;
  const double m = run.parallel, length = run.length->value();
  const double pct = 100 * 2 * length * current.value() * (*r / metres_per_kilometre / m) / voltage.value();
  if (working) {
    working->push_back(
        taken("R",
              fmt::format("{}, {} {} at {} °C", e.resistance.section, run.conductor->size->name(),
                          material_names[static_cast<std::size_t>(*run.conductor->material)],
                          exact(e.resistance.at.value())),
              *r, "Ω/km", e.resistance.section));
    working->push_back(computed(
        "dV", "100 · 2 · L · I · R / 1000 / m / V",
        {{"L", length}, {"I", current.value()}, {"R", *r}, {"m", m}, {"V", voltage.value()}}, pct, "%", ""));
  }
  return pct;
}

}  // namespace boxproof
