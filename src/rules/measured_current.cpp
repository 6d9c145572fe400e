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

// The lowest and the highest current that a string may have beside another measure of it.
struct Bounds {
  double least, most;
};

// What one string of the lot gives by the data sheet. Strings joined ahead of the box may have been measured
// together, a module that takes light from behind may give as much as it states for both sides.
Bounds by_data_sheet(const VisitCase& c, const Lot& lot, double light) {
  const Circuit& group = *lot.front().group;
  const double share = c.edition.measured.current_min_pct / 100;
  const double one = current_at(*group.module, light, c.edition).value();
  const double both_sides = group.module->isc_for_circuits() / group.module->isc;
  return {share * one, group.strings_per_fuse * std::max(1.0, both_sides) * one / share};
}

Bounds by_neighbours(const VisitCase& c, const Lot& lot, double median) {
  const double share = c.edition.measured.current_min_pct / 100;
  return {share * median, lot.front().group->strings_per_fuse * median / share};
}

// All strings that agree with each other are off, or the one that was measured is: neighbours do not show it,
// the data sheet does. Why, the numbers do not say.
void all_off(const VisitCase& c, Notes& out, const Lot& agreeing, double light, bool beside_others) {
  std::vector<double> sorted;
  for (const PlacedReading& r : agreeing) sorted.push_back(r.string->isc->value());
  const double median = median_without(sorted, sorted.size());
  const auto [least, most] = by_data_sheet(c, agreeing, light);
  const bool low = exceeds(least, median);
  if (!low && !exceeds(median, most)) return;
  const double limit = low ? least : most;
  const Module& module = *agreeing.front().group->module;
  const std::string measured =
      agreeing.size() > 1
          ? fmt::format("The {} strings of module {} measured on {} have a median of {} A", agreeing.size(),
                        module.id, c.plan.id, shown(median, limit))
          : fmt::format("{} of {} measured {} A{}", agreeing.front().name(), c.plan.id, shown(median, limit),
                        beside_others ? "" : ", and no string like it was measured beside it");
  const Amps expected = current_at(module, light, c.edition);
  Note note = out.find(Severity::query, "module " + module.id);
  note.found(median).required(limit).unit("A").at_record(reading_pointer(c, agreeing.front(), "isc_a"));
  if (low)
    note.ask(
            "Measure the irradiance in the plane of the modules again, with the currents; look for dirt "
            "or shade over all the strings, or for another module.")
        .say("{}; one string of module {} gives {} A at {} W/m², {} % of which is {} A.", measured, module.id,
             shown(expected), shown(light), shown(c.edition.measured.current_min_pct), shown(least, median));
  else
    note.ask(
            "Measure the irradiance in the plane of the modules again, with the currents; look which "
            "module it is, and whether several strings share an input.")
        .say("{}; one string of module {} gives {} A at {} W/m², and {} A is the most to expect.", measured,
             module.id, shown(expected), shown(light), shown(most, median));
  note.work([&](Working& w) { current_at(module, light, c.edition, &w); });
}

void one_low(const VisitCase& c, Notes& out, const Lot& lot, std::size_t i, double median, double light) {
  const double found = lot[i].string->isc->value(), least = by_neighbours(c, lot, median).least;
  const Module& module = *lot[i].group->module;
  out.find(lot[i].part())
      .found(found)
      .required(least)
      .unit("A")
      .at_record(reading_pointer(c, lot[i], "isc_a"))
      .say(
          "{} of {} measured {} A, below {} % of the {} A of {} (median); one string of module {} gives "
          "{} A at {} W/m².",
          lot[i].name(), c.plan.id, shown(found, least), shown(c.edition.measured.current_min_pct),
          shown(median), counted(lot.size() - 1, "neighbour", "neighbours"), module.id,
          shown(current_at(module, light, c.edition)), shown(light))
      .work([&](Working& w) {
        w.push_back(computed("Imin", "p / 100 · Imed",
                             {{"p", c.edition.measured.current_min_pct}, {"Imed", median}}, least, "A",
                             c.edition.measured.current_section));
        current_at(module, light, c.edition, &w);
      });
}

void one_high(const VisitCase& c, Notes& out, const Lot& lot, std::size_t i, double median, double light) {
  const double found = lot[i].string->isc->value(), most = by_neighbours(c, lot, median).most;
  const Module& module = *lot[i].group->module;
  const double joined = lot[i].group->strings_per_fuse;
  out.find(Severity::query, lot[i].part())
      .found(found)
      .required(most)
      .unit("A")
      .at_record(reading_pointer(c, lot[i], "isc_a"))
      .ask("Look which strings and modules are on that input, and measure it again.")
      .say(
          "{} of {} measured {} A, above {} A, the most beside the {} A of {} (median); one string of "
          "module {} gives {} A at {} W/m²: is more than one string on it, or is its module another?",
          lot[i].name(), c.plan.id, shown(found, most), shown(most, found), shown(median),
          counted(lot.size() - 1, "neighbour", "neighbours"), module.id,
          shown(current_at(module, light, c.edition)), shown(light))
      .work([&](Working& w) {
        const double p = c.edition.measured.current_min_pct;
        if (joined > 1)
          w.push_back(computed("Imax", "s · Imed · 100 / p", {{"s", joined}, {"Imed", median}, {"p", p}},
                               most, "A", c.edition.measured.current_section));
        else
          w.push_back(computed("Imax", "Imed · 100 / p", {{"Imed", median}, {"p", p}}, most, "A",
                               c.edition.measured.current_section));
        current_at(module, light, c.edition, &w);
      });
}

void against_neighbours(const VisitCase& c, Notes& out, Lot lot, double light) {
  std::stable_sort(lot.begin(), lot.end(),
                   [](const auto& a, const auto& b) { return *a.string->isc < *b.string->isc; });
  std::vector<double> sorted;
  for (const PlacedReading& r : lot) sorted.push_back(r.string->isc->value());
  const Bounds sheet = by_data_sheet(c, lot, light);
  Lot agreeing;
  bool told_low = false;
  for (std::size_t i = 0; i < lot.size(); ++i) {
    const double median = median_without(sorted, i);
    const Bounds bounds = by_neighbours(c, lot, median);
    // Where string and neighbours disagree, who of them is as the data sheet has it is not the one to report.
    const bool fits = !exceeds(sheet.least, sorted[i]) && !exceeds(sorted[i], sheet.most);
    const bool low =
        lot.size() > 1 && exceeds(bounds.least, sorted[i]) && !(fits && exceeds(median, sheet.most));
    bool high = lot.size() > 1 && exceeds(sorted[i], bounds.most) && !(fits && exceeds(sheet.least, median));
    if (lot.size() == 2 && told_low) high = false;  // two apart are one finding
    if (low) one_low(c, out, lot, i, median, light);
    if (high) one_high(c, out, lot, i, median, light);
    if (!low && !high) agreeing.push_back(lot[i]);
    told_low |= low;
  }
  if (!agreeing.empty()) all_off(c, out, agreeing, light, lot.size() > 1);
}

}  // namespace

const Rule measured_current{
    .id = "measured/current",
    .severity = Severity::correction,
    .title = "Measured string current unlike that of its neighbours",
    .explain =
        {"Holds the short-circuit current measured on each string against the median of the other strings of "
         "the box with the same module.",
         "Current follows the light, so strings side by side have the same. One that has less is shaded, "
         "dirty, damaged or badly connected, and a bad connection is where a fire starts. One that has "
         "far more "
         "is two strings on one input, or another module.",
         "A string is reported below a share of its neighbours' median, and queried where the median is "
         "below "
         "that share of it. Strings that agree are held against the module's Isc times irradiance over 1000 "
         "W/m² in the same way; all low or all high is one query: the light may have been measured "
         "elsewhere. "
         "Where string and neighbours disagree, the one that the data sheet fits is not reported."},
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
