// Open-circuit voltages of the strings: how many modules they speak of, and how far they lie apart.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "boxproof/measured.hpp"
#include "src/rules/common.hpp"
#include "src/rules/measured.hpp"
#include "src/rules/measured_strings.hpp"
#include "src/rules/tally_accounts.hpp"

namespace boxproof {
namespace {

bool has_voltage(const MeasuredString& s) {
  return s.voc.has_value();
}

// Without the sign: swapped poles are measured/reversed.
Volts magnitude(const Reading& r) {
  return Volts(std::abs(r.string->voc->value()));
}
Volts per_module(const PlacedReading& r) {
  return magnitude(r) / static_cast<double>(r.series);
}

void work_per_module(Working& w, std::string_view symbol, const PlacedReading& r, const Edition& e) {
  w.push_back(computed(symbol, "V / n", {{"V", magnitude(r).value()}, {"n", static_cast<double>(r.series)}},
                       per_module(r).value(), "V", e.measured.spread_section));
}

// One reading and the number of modules that it speaks of.
struct Inferred {
  const PlacedReading* reading;
  Volts one;  // a module at the temperature and in the light of the visit
  SeriesInference found;

  bool open() const { return found.likely == 0; }
  // No whole number of modules gives such a voltage: rather a wrong temperature than a wrong string.
  bool between() const { return found.between && !open(); }
  Severity severity() const { return found.certain && !between() ? Severity::correction : Severity::query; }
};

// What the reading leaves of the count, as the end of a sentence.
std::string how_sure(const Inferred& i, std::uint32_t expected) {
  const SeriesInference& found = i.found;
  if (i.open()) return "it is open or not connected";
  std::string text = fmt::format("likely {}", counted(found.likely, "module", "modules"));
  const std::string good = fmt::format("good to {} %", shown(100 * found.tolerance));
  if (i.between())
    return fmt::format(
        "{} modules, and no whole number fits, the inference being {}: doubt cell temperature, irradiance and "
        "meter first",
        shown(found.modules), good);
  if (!found.certain)
    return text + fmt::format(", but the inference is {} and allows {} as well: count them", good, expected);
  if (found.fewest == found.highest)
    return text + fmt::format("; the inference is {} and leaves no other number", good);
  return text + fmt::format("; the inference is {}, so it could be {} to {}: count them", good, found.fewest,
                            found.highest);
}

// What the reading speaks of; nothing, which is then told, where its module does not state enough.
std::optional<Inferred> inferred(const VisitCase& c, Notes& out, const PlacedReading& r, Celsius cell,
                                 double light) {
  const Module& module = *r.group->module;
  const auto one = voltage_of_one(module, cell, light, c.edition);
  if (one)
    return Inferred{
        &r, *one,
        infer_series(magnitude(r), *one, r.series, c.visited.measured->tolerance_pct, light, c.edition)};
  if (module.voc_coefficient || module.voc_coefficient_absolute)
    out.lacks_in_record(
        c.record_index, "/measured/cell_c",
        fmt::format("At {} °C the coefficient of module {} leaves no voltage", shown(cell), module.id),
        fmt::format("{} °C", shown(cell)));
  else
    out.lacks(key_of(module, "voc_coeff_pct_per_c"));
  return std::nullopt;
}

// Whether two readings speak of the same: then what is off is off in all the strings.
bool off_alike(const Inferred& a, const Inferred& b) {
  return a.reading->group->module == b.reading->group->module && a.reading->series == b.reading->series &&
         a.reading->counted == b.reading->counted && a.found.likely == b.found.likely &&
         a.severity() == b.severity() && a.between() == b.between();
}

// One string, or `all` that were measured, from the lowest to the highest reading.
void mismatch(const VisitCase& c, Notes& out, const Inferred& low, const Inferred& high, std::size_t all) {
  const PlacedReading& r = *low.reading;
  const Module& module = *r.group->module;
  const Celsius cell = *c.visited.measured->cell;
  const double light = *c.visited.measured->irradiance_w_m2;
  const Volts expected = static_cast<double>(r.series) * low.one;
  const std::string lowest = shown(magnitude(r), expected),
                    highest = shown(magnitude(*high.reading), expected);
  const bool box = all > 1;
  Note note = out.find(low.severity(), box ? "strings" : r.part());
  note.found(low.found.modules)
      .required(static_cast<double>(r.series))
      .unit("modules")
      .at_record(reading_pointer(c, r, "voc_v"))
      .beside(r.counted
                  ? record_pointer(c, "/count/series")
                  : plan_pointer(c, fmt::format("/circuits/{}/series", r.group - c.plan.circuits.data())))
      .say("{} of {} {} {} V{}, where the {} in series that {} give {} V at {} °C and {} W/m²: {}.",
           box ? fmt::format("The {} measured strings", all) : r.name(), c.plan.id, box ? "have" : "measured",
           lowest == highest ? lowest : lowest + " to " + highest, box ? " each" : "",
           counted(r.series, "module", "modules"), r.counted ? "the inspector counted" : "the plan has",
           shown(expected, magnitude(r)), shown(cell), shown(light), how_sure(low, r.series))
      .work([&](Working& w) {
        voltage_of_one(module, cell, light, c.edition, &w);
        infer_series(magnitude(r), low.one, r.series, c.visited.measured->tolerance_pct, light, c.edition,
                     &w);
      });
  if (low.between())
    note.ask(
        "Measure again, with the cell temperature and the irradiance of the same minute, before modules "
        "are counted.");
}

void series_of_all(const VisitCase& c, Notes& out, const std::vector<PlacedReading>& strings, Celsius cell,
                   double light) {
  std::vector<Inferred> off;
  for (const PlacedReading& r : strings)
    if (const auto i = inferred(c, out, r, cell, light); i && i->found.mismatch) off.push_back(*i);
  if (off.empty()) return;
  const bool alike =
      off.size() == strings.size() &&
      std::all_of(off.begin(), off.end(), [&](const Inferred& i) { return off_alike(off.front(), i); });
  if (!alike) {
    for (const Inferred& i : off) mismatch(c, out, i, i, 1);
    return;
  }
  const auto [low, high] = std::minmax_element(off.begin(), off.end(), [](const auto& a, const auto& b) {
    return magnitude(*a.reading) < magnitude(*b.reading);
  });
  mismatch(c, out, *low, *high, off.size());
}

}  // namespace

const Rule measured_series_count{
    .id = "measured/series-count",
    .severity = Severity::correction,
    .title = "Measured voltage speaks of another number of modules in series",
    .explain =
        {"Divides the open-circuit voltage measured on each string by that of one module at the measured "
         "cell "
         "temperature and irradiance, and holds the result against the modules in series counted on site, or "
         "else planned.",
         "A module too many or too few is hard to see on a roof and easy to measure. One too many takes the "
         "string over its limits on the coldest morning; one too few is driven backwards by its neighbours.",
         "Module voltage: Voc at 25 °C, its temperature coefficient, and a share of the logarithm of the "
         "irradiance. Half a module off or more is reported. The tolerance of the reading and the doubt "
         "about "
         "dim light say which whole numbers are possible; where the expected one is among them, or none "
         "is, it "
         "is a query. Strings of a box that are all off alike make one finding."},
    .remedy = "Count the modules of the string, and correct the string, the plan or the record.",
    .uses = {"measured.irradiance", "measured.voltage", "measured.series_count"},
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const std::vector<PlacedReading> strings = placed_readings(c, out, has_voltage);
      if (strings.empty()) return;
      const std::optional<double> light = fit_light(c, out);
      const std::optional<Celsius>& cell = c.visited.measured->cell;
      if (!cell) out.lacks_in_record(c.record_index, "/measured/cell_c");
      if (!light || !cell) return;
      series_of_all(c, out, strings, *cell, *light);
    }};

const Rule measured_spread{
    .id = "measured/spread",
    .severity = Severity::correction,
    .title = "Strings of one box differ in measured voltage",
    .explain =
        {"Compares the open-circuit voltages measured on the strings of one box with each other, per "
         "module in "
         "series and among strings of the same module.",
         "Strings that see the same sun at the same hour have the same voltage per module. One that has not "
         "holds a wrong number of modules, a bypassed or broken one, or a poor connection, and the others "
         "feed current into it.",
         "The lowest voltage per module may lie so many per cent below the highest. Modules in series as "
         "counted on site, else as planned; the sign of a reading is left out."},
    .remedy =
        "Measure both strings again, count their modules, and look for the fault in the one that is off.",
    .uses = {"measured.irradiance", "measured.spread"},
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const auto lots = lots_of(placed_readings(c, out, has_voltage), [](const auto& a, const auto& b) {
        return a.group->module == b.group->module;
      });
      for (const std::vector<PlacedReading>& lot : lots) {
        if (lot.size() < 2) continue;  // nothing beside it
        if (!fit_light(c, out)) return;
        const auto [low, high] =
            std::minmax_element(lot.begin(), lot.end(),
                                [](const auto& a, const auto& b) { return per_module(a) < per_module(b); });
        const Volts lowest = per_module(*low), highest = per_module(*high);
        const double limit = c.edition.measured.spread_max_pct;
        if (highest <= Volts(0)) continue;
        const double spread = spread_pct(lowest, highest, c.edition);
        if (!exceeds(spread, limit)) continue;
        out.find("module " + lot.front().group->module->id)
            .found(spread)
            .required(limit)
            .unit("%")
            .at_record(reading_pointer(c, *low, "voc_v"))
            .beside(reading_pointer(c, *high, "voc_v"))
            .say(
                "{} of {} measured {} V ({} V a module), {} % below {} with {} V ({} V a module); like "
                "strings "
                "agree within {} %.",
                low->name(), c.plan.id, shown(magnitude(*low)), shown(lowest), shown(spread, limit),
                high->part(), shown(magnitude(*high)), shown(highest), shown(limit, spread))
            .work([&](Working& w) {
              work_per_module(w, "Vlow", *low, c.edition);
              work_per_module(w, "Vhigh", *high, c.edition);
              spread_pct(lowest, highest, c.edition, &w);
            });
      }
    }};

}  // namespace boxproof
