// What measurements of strings are held against.
#include "src/edition/group.hpp"
#include "src/edition/read_groups.hpp"

namespace boxproof::read {

void read_measured(const Group& g, Edition& e) {
  MeasuredRules& m = e.measured;
  const Group light = g.group("irradiance");
  m.irradiance_min = light.number("min_w_m2");
  m.irradiance_max = light.number("max_w_m2");
  const Group voltage = g.group("voltage");
  m.log_factor = voltage.number("log_factor");
  m.log_uncertainty = voltage.number("log_uncertainty");
  m.voltage_section = voltage.text("section");
  m.mismatch = g.group("series_count").number("mismatch_modules");
  const Group spread = g.group("spread");
  m.spread_max_pct = spread.number("max_pct");
  m.spread_section = spread.text("section");
  const Group current = g.group("current");
  m.current_min_pct = current.number("min_pct");
  m.current_section = current.text("section");
  const Group insulation = g.group("insulation");
  m.insulation_megohm = insulation.number("least_mohm");
  m.insulation_above = Volts(insulation.number("above_v"));
  m.insulation_low_megohm = insulation.number("least_otherwise_mohm");
  m.system_voltage_factor = insulation.factor("system_voltage_factor");
  m.insulation_section = insulation.text("section");
}

}  // namespace boxproof::read
