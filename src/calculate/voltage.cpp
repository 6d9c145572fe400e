// Maximum voltage of a string: the module's open-circuit voltage at the coldest hour, times the modules in
// series.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/calculate.hpp"

namespace boxproof {
namespace {

constexpr double stc = 25;  // °C, the cell temperature of rated values (IEC 60904-3)

// The band that a temperature falls in. Between two bands the colder one counts; nothing below the coldest.
const ColdTable::Band* cold_band(const ColdTable& table, Celsius low) {
  for (const ColdTable::Band& band : table.bands)
    if (!exceeds(band.down_to.value(), low.value())) return &band;
  return nullptr;
}

StringVoltage by_table(const Module& m, double n, Celsius low, const Edition& e, Working* working) {
  double factor = 1;
  if (low < e.cold.reference) {
    const ColdTable::Band* band = cold_band(e.cold, low);
    if (band == nullptr) return {std::nullopt, 1, Lack::coefficient};
    factor = band->factor;
  }
  const Volts max = factor * (n * m.voc);
  if (working) {
    working->push_back(taken("K", fmt::format("{}, at {} °C", e.cold.section, exact(low.value())), factor, "",
                             e.cold.section));
    working->push_back(computed("Vmax", "n · Voc · K", {{"n", n}, {"Voc", m.voc.value()}, {"K", factor}},
                                max.value(), "V", e.voltage_section));
  }
  return {max, factor, Lack::nothing};
}

}  // namespace

std::optional<Celsius> design_low(std::optional<Celsius> stated, const Edition& e) {
  return stated ? std::optional(std::min(*stated, e.design_low_at_most)) : std::nullopt;
}

StringVoltage string_voltage(const Module& m, unsigned series, std::optional<Celsius> stated,
                             const Edition& e, Working* working) {
  const auto low = design_low(stated, e);
  if (!low) return {std::nullopt, 1, Lack::low_temperature};
  if (working && *low < *stated)
    working->push_back(taken("T", "the local amendment, colder than the plan's", low->value(), "°C", ""));
  const double n = series;
  const Celsius reference(stc);
  const bool coefficient = m.voc_coefficient || m.voc_coefficient_absolute;
  if (!coefficient) {
    if (!m.cell) return {std::nullopt, 1, Lack::cell};
    if (*m.cell == Cell::thin_film) return {std::nullopt, 1, Lack::coefficient};
    return by_table(m, n, *low, e, working);
  }
  if (*low >= reference) {
    const Volts max = n * m.voc;
    if (working)
      working->push_back(computed("Vmax", "n · Voc", {{"n", n}, {"Voc", m.voc.value()}}, max.value(), "V",
                                  e.voltage_section));
    return {max, 1, Lack::nothing};
  }
  const Kelvin below = *low - reference;
  if (m.voc_coefficient) {
    const double factor = m.voc_coefficient->factor(below);
    const Volts max = n * m.voc * factor;
    if (working)
      working->push_back(computed(
          "Vmax", "n · Voc · (1 + β / 100 · (T − 25))",
          {{"n", n}, {"Voc", m.voc.value()}, {"β", m.voc_coefficient->percent()}, {"T", low->value()}},
          max.value(), "V", e.voltage_section));
    return {max, factor, Lack::nothing};
  }
  const Volts each = m.voc + Volts(m.voc_coefficient_absolute->value() * below.value());
  const Volts max = n * each;
  if (working)
    working->push_back(computed(
        "Vmax", "n · (Voc + βv · (T − 25))",
        {{"n", n}, {"Voc", m.voc.value()}, {"βv", m.voc_coefficient_absolute->value()}, {"T", low->value()}},
        max.value(), "V", e.voltage_section));
  return {max, each / m.voc, Lack::nothing};
}

}  // namespace boxproof
