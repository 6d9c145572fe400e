// Short-circuit currents of the strings against those of their neighbours.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/measured.hpp"
#include "src/rules/measured.hpp"
#include "src/rules/measured_strings.hpp"

namespace boxproof {
namespace {

bool has_current(const MeasuredString& s) {
  return s.isc.has_value();
}

using Lot = std::vector<PlacedReading>;

// The whole lot is low, or the one that was measured is: its neighbours do not show it, the data sheet does.
// Why, the numbers do not say.
void all_low(const VisitCase& c, Notes& out, const Lot& lot, double median, double light) {
  const Module& module = *lot.front().group->module;
  const Amps expected = current_at(module, light, c.edition);
  const double least = c.edition.measured.current_min_pct / 100 * expected.value();
  if (!exceeds(least, median)) return;
  const std::string measured =
      lot.size() == 1 ? fmt::format("{} of {} measured {} A, and no string like it was measured beside it",
                                    lot.front().name(), c.plan.id, shown(median, least))
                      : fmt::format("The {} strings of module {} measured on {} have a median of {} A",
                                    lot.size(), module.id, c.plan.id, shown(median, least));
  out.find(Severity::query, "module " + module.id)
      .found(median)
      .required(least)
      .unit("A")
      .at_record(reading_pointer(c, lot.front(), "isc_a"))
      .say("{}; one string of module {} gives {} A at {} W/m², {} % of which is {} A.", measured, module.id,
           shown(expected), shown(light), shown(c.edition.measured.current_min_pct), shown(least, median))
      .work([&](Working& w) { current_at(module, light, c.edition, &w); });
}

void against_neighbours(const VisitCase& c, Notes& out, Lot lot, double light) {
  std::stable_sort(lot.begin(), lot.end(),
                   [](const auto& a, const auto& b) { return *a.string->isc < *b.string->isc; });
  std::vector<double> sorted;
  for (const PlacedReading& r : lot) sorted.push_back(r.string->isc->value());
  all_low(c, out, lot, median_without(sorted, sorted.size()), light);
  if (lot.size() < 2) return;
  const Module& module = *lot.front().group->module;
  for (std::size_t i = 0; i < lot.size(); ++i) {
    const double median = median_without(sorted, i);
    const double least = c.edition.measured.current_min_pct / 100 * median;
    if (!exceeds(least, sorted[i])) continue;
    out.find(lot[i].part())
        .found(sorted[i])
        .required(least)
        .unit("A")
        .at_record(reading_pointer(c, lot[i], "isc_a"))
        .say(
            "{} of {} measured {} A, below {} % of the {} A of {} (median); one string of module {} gives "
            "{} A at {} W/m².",
            lot[i].name(), c.plan.id, shown(sorted[i], least), shown(c.edition.measured.current_min_pct),
            shown(median), counted(lot.size() - 1, "neighbour", "neighbours"), module.id,
            shown(current_at(module, light, c.edition)), shown(light))
        .work([&](Working& w) {
          w.push_back(computed("Imin", "p / 100 · Imed",
                               {{"p", c.edition.measured.current_min_pct}, {"Imed", median}}, least, "A",
                               c.edition.measured.current_section));
          current_at(module, light, c.edition, &w);
        });
  }
}

}  // namespace

const Rule measured_current{
    .id = "measured/current",
    .severity = Severity::correction,
    .title = "Measured string current below that of its neighbours",
    .explain =
        {"Holds the short-circuit current measured on each string against the median of the other strings of "
         "the box with the same module.",
         "Current follows the light, so strings side by side have the same. One that has less is shaded, "
         "dirty, damaged or badly connected, and a bad connection is where a fire starts.",
         "A string is reported below a share of its neighbours' median. Where all are low alike, or one string "
         "only was measured, the module's Isc times irradiance over 1000 W/m² is the measure, and what lies "
         "below the same share of it is a query: the light may have been measured elsewhere."},
    .remedy =
        "Look for shade, dirt, a broken module or a poor connection in the string, and measure it again.",
    .uses = {"measured.irradiance", "measured.current"},
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const std::vector<PlacedReading> strings = placed_readings(c, out, has_current);
      if (strings.empty()) return;
      const std::optional<double> light = fit_light(c, out);
      if (!light) return;
      // Strings joined ahead of the box are measured together or apart; they are not held against single
      // ones.
      const auto lots = lots_of(strings, [](const auto& a, const auto& b) {
        return a.group->module == b.group->module && a.group->strings_per_fuse == b.group->strings_per_fuse;
      });
      for (const Lot& lot : lots) against_neighbours(c, out, lot, *light);
    }};

}  // namespace boxproof
