// What measurements say of the strings of a box.
#include "boxproof/measured.hpp"

#include <algorithm>
#include <cmath>

namespace boxproof {
namespace {

// Standard test conditions, at which data sheets state their values (IEC 60904-3).
constexpr double stc_cell = 25;          // °C
constexpr double stc_irradiance = 1000;  // W/m²

constexpr double most_modules = 1e6;  // in series: a reading far off any string stays a number

double log_of_light(double w_m2) {
  return std::log(w_m2 / stc_irradiance);
}

void work_light(double w_m2, double log, const Edition& e, Working* working) {
  if (working)
    working->push_back(computed("L", "ln(G / 1000)", {{"G", w_m2}}, log, "", e.measured.voltage_section));
}

}  // namespace

bool fit_irradiance(double w_m2, const Edition& e) {
  return !exceeds(e.measured.irradiance_min, w_m2) && !exceeds(w_m2, e.measured.irradiance_max);
}

std::optional<Volts> voltage_of_one(const Module& m, Celsius cell, double w_m2, const Edition& e,
                                    Working* working) {
  if (!m.voc_coefficient && !m.voc_coefficient_absolute) return std::nullopt;
  const Kelvin above = cell - Celsius(stc_cell);
  const double a = e.measured.log_factor, log = log_of_light(w_m2), light = 1 + a * log;
  const Volts warm = m.voc_coefficient ? m.voc * m.voc_coefficient->factor(above)
                                       : m.voc + Volts(m.voc_coefficient_absolute->value() * above.value());
  const Volts one = light * warm;
  if (one <= Volts(0)) return std::nullopt;
  work_light(w_m2, log, e, working);
  if (working && m.voc_coefficient)
    working->push_back(computed("V1", "Voc · (1 + β / 100 · (T − 25)) · (1 + a · L)",
                                {{"Voc", m.voc.value()},
                                 {"β", m.voc_coefficient->percent()},
                                 {"T", cell.value()},
                                 {"a", a},
                                 {"L", log}},
                                one.value(), "V", e.measured.voltage_section));
  else if (working)
    working->push_back(computed("V1", "(Voc + βv · (T − 25)) · (1 + a · L)",
                                {{"Voc", m.voc.value()},
                                 {"βv", m.voc_coefficient_absolute->value()},
                                 {"T", cell.value()},
                                 {"a", a},
                                 {"L", log}},
                                one.value(), "V", e.measured.voltage_section));
  return one;
}

SeriesInference infer_series(Volts measured, Volts one, std::uint32_t expected, double tolerance_pct,
                             double w_m2, const Edition& e, Working* working) {
  SeriesInference out;
  const double n = expected, log = log_of_light(w_m2), doubt = e.measured.log_uncertainty;
  out.modules = measured / one;
  out.tolerance = tolerance_pct / 100 + doubt * std::abs(log);
  out.least = out.modules * (1 - out.tolerance);
  out.most = out.modules * (1 + out.tolerance);
  out.mismatch = !exceeds(e.measured.mismatch, std::abs(out.modules - n));
  out.certain = exceeds(n, out.most) || exceeds(out.least, n);
  const auto whole = [](double v) { return static_cast<std::uint32_t>(std::clamp(v, 0.0, most_modules)); };
  out.likely = whole(std::round(out.modules));
  if (out.mismatch && out.likely == expected) out.likely = out.modules < n ? expected - 1 : expected + 1;
  out.fewest = whole(std::ceil(out.least * (1 - slack)));
  out.highest = whole(std::floor(out.most * (1 + slack)));
  out.between = out.fewest > out.highest;
  out.fewest = std::min(out.fewest, out.likely);
  out.highest = std::max(out.highest, out.likely);
  if (working) {
    const std::string_view section = e.measured.voltage_section;
    working->push_back(computed("n", "V / V1", {{"V", measured.value()}, {"V1", one.value()}}, out.modules,
                                "modules", section));
    working->push_back(computed("t", log < 0 ? "r / 100 − u · L" : "r / 100 + u · L",
                                {{"r", tolerance_pct}, {"u", doubt}, {"L", log}}, out.tolerance, "",
                                section));
    working->push_back(computed("nmin", "n · (1 − t)", {{"n", out.modules}, {"t", out.tolerance}}, out.least,
                                "modules", section));
    working->push_back(computed("nmax", "n · (1 + t)", {{"n", out.modules}, {"t", out.tolerance}}, out.most,
                                "modules", section));
  }
  return out;
}

double spread_pct(Volts lowest, Volts highest, const Edition& e, Working* working) {
  const double spread = 100 * (1 - lowest / highest);
  if (working)
    working->push_back(computed("s", "100 · (1 − Vlow / Vhigh)",
                                {{"Vlow", lowest.value()}, {"Vhigh", highest.value()}}, spread, "%",
                                e.measured.spread_section));
  return spread;
}

Amps current_at(const Module& m, double w_m2, const Edition& e, Working* working) {
  const Amps current = m.isc * (w_m2 / stc_irradiance);
  if (working)
    working->push_back(computed("Iexp", "Isc · G / 1000", {{"Isc", m.isc.value()}, {"G", w_m2}},
                                current.value(), "A", e.measured.current_section));
  return current;
}

double median_without(const std::vector<double>& sorted, std::size_t left_out) {
  const std::size_t size = sorted.size() - (left_out < sorted.size() ? 1 : 0);
  const auto at = [&](std::size_t i) { return sorted[i < left_out ? i : i + 1]; };
  if (size == 0) return 0;
  return (at((size - 1) / 2) + at(size / 2)) / 2;
}

double least_insulation_megohm(Volts string, const Edition& e, Working* working) {
  const double k = e.measured.system_voltage_factor;
  const Volts system = k * string;
  if (working)
    working->push_back(computed("Vsys", "k · Vstring", {{"k", k}, {"Vstring", string.value()}},
                                system.value(), "V", e.measured.insulation_section));
  return exceeds(system, e.measured.insulation_above) ? e.measured.insulation_megohm
                                                      : e.measured.insulation_low_megohm;
}

}  // namespace boxproof
