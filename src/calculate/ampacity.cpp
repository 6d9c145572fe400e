// Ampacity of a conductor as it is laid: table value, correction for heat, adjustment for company, terminals.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "boxproof/calculate.hpp"
#include "src/text/words.hpp"

namespace boxproof {
namespace {

constexpr int hottest_general_column = 90;  // °C; hotter columns exist for PV wire only

bool is_pv_wire(const Conductor& c) {
  return text::prints(c.insulation, "PV wire") || text::prints(c.insulation, "RPVU");
}

std::optional<double> cell(const AmpacityTable& table, Material material, Size size, int column) {
  const auto& row = table.rows[static_cast<std::size_t>(material)][size.index()];
  for (std::size_t i = 0; i < row.size(); ++i)
    if (table.columns[i] == column) return row[i];
  return std::nullopt;
}

// One wire in one place: the table and column that its ampacity is read from.
struct Reading {
  const AmpacityTable* table;
  const CorrectionTable* correction;
  int column;
};

Reading reading_of(const Conductor& c, Method method, Size size, const Edition& e) {
  const double rating = *c.insulation_temperature;
  Reading out{method == Method::raceway ? &e.raceway : &e.free_air, &e.correction, hottest_general_column};
  if (rating <= hottest_general_column) {
    out.column = static_cast<int>(rating);
    return out;
  }
  if (!is_pv_wire(c) || method != Method::raceway || !e.pv_wire_raceway || !e.pv_wire_correction) return out;
  for (int column : e.pv_wire_raceway->columns)
    if (column <= rating && cell(*e.pv_wire_raceway, *c.material, size, column))
      out = {&*e.pv_wire_raceway, &*e.pv_wire_correction, column};
  return out;
}

double correction_factor(const Reading& r, Celsius ambient, const Edition& e, Working* working) {
  const double tc = r.column, ta = ambient.value();
  double factor = 0;
  if (e.correction_method == CorrectionMethod::formula) {
    const double base = e.correction_reference.value();
    factor = ta >= tc ? 0 : std::sqrt((tc - ta) / (tc - base));
    if (working && factor > 0)
      working->push_back(computed("F", "sqrt((Tc − Ta) / (Tc − Tb))", {{"Tc", tc}, {"Ta", ta}, {"Tb", base}},
                                  factor, "", r.correction->section));
  } else {
    for (const CorrectionTable::Band& band : r.correction->bands) {
      if (exceeds(ta, band.up_to.value())) continue;
      for (std::size_t i = 0; i < r.correction->columns.size(); ++i)
        if (r.correction->columns[i] == r.column) factor = band.factors[i].value_or(0);
      break;
    }
    if (ta >= tc) factor = 0;
    if (working)
      working->push_back(
          taken("F", fmt::format("{}, {} °C column, at {} °C", r.correction->section, r.column, exact(ta)),
                factor, "", r.correction->section));
  }
  return factor;
}

double adjustment_factor(unsigned carrying, const Edition& e) {
  double factor = 1;
  for (const AdjustmentTable::Band& band : e.adjustment.bands) {
    factor = band.factor;
    if (!band.up_to || carrying <= *band.up_to) break;
  }
  return factor;
}

Kelvin roof_adder(const Run& run, const Conductor& c, const Edition& e) {
  if (!run.above_roof) return Kelvin(0);
  const auto& exempt = e.roof_adder.exempt;
  const auto printed = [&c](const std::string& name) { return text::prints(c.insulation, name); };
  if (std::any_of(exempt.begin(), exempt.end(), printed)) return Kelvin(0);
  for (const RoofAdder::Band& band : e.roof_adder.bands) {
    const bool within = e.roof_adder.limit_included ? !exceeds(*run.above_roof, band.up_to)
                                                    : exceeds(band.up_to, *run.above_roof);
    if (within) return band.adder;
  }
  return Kelvin(0);
}

int terminal_temperature(const Run& run, Size size, Amps max, const Edition& e) {
  if (run.terminal != 0) return run.terminal;
  const bool small = !exceeds(max, e.terminal_default.up_to) || size <= e.terminal_default.up_to_size;
  return small ? e.terminal_default.small : e.terminal_default.large;
}

RunAmpacity lacking(Lack lack) {
  RunAmpacity out;
  out.lack = lack;
  return out;
}

// What does not depend on the size of the wire.
struct Surroundings {
  Celsius high;  // before the roof
  Kelvin adder;
  double adjustment;
};

Surroundings surroundings_of(const Run& run, std::optional<Celsius> site_high, const Edition& e) {
  return {run.ambient ? *run.ambient : *site_high, roof_adder(run, *run.conductor, e),
          adjustment_factor(run.current_carrying, e)};
}

std::string cell_words(const AmpacityTable& table, Size size, Material material, int column) {
  return fmt::format("{}, {} {}, {} °C column", table.section, size.name(),
                     material_names[static_cast<std::size_t>(material)], column);
}

void work_ambient(Working& working, const Run& run, const Surroundings& around, Celsius ambient,
                  const Edition& e) {
  if (run.above_roof)
    working.push_back(computed("Ta", "Th + Tr", {{"Th", around.high.value()}, {"Tr", around.adder.value()}},
                               ambient.value(), "°C", e.roof_adder.section));
}

RunAmpacity of_size(const Run& run, const Surroundings& around, Size size, Amps max, const Edition& e,
                    Working* working) {
  const Conductor& c = *run.conductor;
  const Reading r = reading_of(c, *run.method, size, e);
  const auto base = cell(*r.table, *c.material, size, r.column);
  RunAmpacity out;
  out.insulation_column = r.column;
  out.terminal_column =
      std::min(terminal_temperature(run, size, max, e), std::min(r.column, hottest_general_column));
  const AmpacityTable& plain = *run.method == Method::raceway ? e.raceway : e.free_air;
  const auto at_terminal = cell(plain, *c.material, size, out.terminal_column);
  if (!base || !at_terminal) return lacking(Lack::table);

  out.ambient = around.high + around.adder;
  const double m = run.parallel;
  if (working) {
    working->push_back(
        taken("A30", cell_words(*r.table, size, *c.material, r.column), *base, "A", r.table->section));
    work_ambient(*working, run, around, out.ambient, e);
  }
  out.correction = correction_factor(r, out.ambient, e, working);
  out.adjustment = around.adjustment;
  out.in_use = Amps(m * *base * out.correction * out.adjustment);
  out.terminal = Amps(m * *at_terminal);
  if (working) {
    working->push_back(taken(
        "G", fmt::format("{}, {} conductors that carry current", e.adjustment.section, run.current_carrying),
        out.adjustment, "", e.adjustment.section));
    working->push_back(computed("A", "m · A30 · F · G",
                                {{"m", m}, {"A30", *base}, {"F", out.correction}, {"G", out.adjustment}},
                                out.in_use->value(), "A", e.after_section));
    working->push_back(taken("At", cell_words(plain, size, *c.material, out.terminal_column), *at_terminal,
                             "A", e.terminal_default.section));
    working->push_back(computed("Aterm", "m · At", {{"m", m}, {"At", *at_terminal}}, out.terminal->value(),
                                "A", e.before_section));
  }
  return out;
}

Lack lack_of(const Run* run, std::optional<Celsius> high) {
  if (run == nullptr) return Lack::run;
  if (run->conductor == nullptr) return Lack::conductor;
  const Conductor& c = *run->conductor;
  if (!c.material) return Lack::material;
  if (!c.insulation_temperature) return Lack::insulation_temperature;
  if (!run->method) return Lack::method;
  if (!run->ambient && !high) return Lack::high_temperature;
  return Lack::nothing;
}

}  // namespace

RunAmpacity run_ampacity(const Run* run, Amps max, std::optional<Celsius> site_high, const Edition& e,
                         Working* working) {
  if (const Lack lack = lack_of(run, site_high); lack != Lack::nothing) return lacking(lack);
  if (!run->conductor->size) return lacking(Lack::size);
  return of_size(*run, surroundings_of(*run, site_high, e), *run->conductor->size, max, e, working);
}

std::optional<Size> smallest_size(const Run& run, Amps max, std::optional<Celsius> site_high,
                                  const Edition& e) {
  if (lack_of(&run, site_high) != Lack::nothing) return std::nullopt;
  const Surroundings around = surroundings_of(run, site_high, e);
  for (std::size_t i = 0; i < Size::count; ++i) {
    const RunAmpacity a = of_size(run, around, Size(i), max, e, nullptr);
    if (!a.in_use) continue;
    if (!exceeds(e.before_factor * max, *a.terminal) && !exceeds(e.after_factor * max, *a.in_use))
      return Size(i);
  }
  return std::nullopt;
}

std::optional<Size> grounding_size(Amps rating, Material material, const Edition& e) {
  const bool copper = material == Material::copper;
  for (const GroundingTable::Row& row : e.grounding.rows)
    if (!exceeds(rating, row.up_to))
      return std::max(copper ? row.copper : row.aluminum,
                      copper ? e.grounding.least_copper : e.grounding.least_aluminum);
  return std::nullopt;
}

}  // namespace boxproof
