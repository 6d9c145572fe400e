// Modules in series as counted on site against the plan.
#include <fmt/format.h>

#include "src/check/as_built.hpp"
#include "src/rules/common.hpp"
#include "src/rules/notes.hpp"
#include "src/rules/tally.hpp"
#include "src/rules/tally_accounts.hpp"

namespace boxproof {
namespace {

bool above(const std::optional<Volts>& voltage, const std::optional<Volts>& rated) {
  return voltage && rated && exceeds(*voltage, *rated);
}

// Whether the box as found exceeds one of its voltage limits. A limit of the edition that is only a
// threshold, above which other articles apply, is none.
bool exceeds_a_voltage_limit(const VisitCase& c) {
  const Combiner& box = *c.as_built.box;
  const std::optional<Volts>& highest = c.as_built.max_voltage;
  const VoltageLimit& limit = c.edition.limit(c.design.site.use);
  if (limit.ban && above(highest, limit.max)) return true;
  if (box.inverter != nullptr && above(highest, box.inverter->max_dc)) return true;
  if (box.fuse && above(highest, box.fuse->voltage)) return true;
  if (box.disconnect && above(highest, box.disconnect->rated_voltage)) return true;
  if (box.enclosure && above(highest, box.enclosure->rated_voltage)) return true;
  const auto conductor_exceeded = [](const Run& run, const std::optional<Volts>& voltage) {
    return run.conductor != nullptr && above(voltage, run.conductor->rated);
  };
  if (box.output && box.output->run && conductor_exceeded(*box.output->run, highest)) return true;
  for (const CircuitFacts& f : c.as_built.circuits) {
    if (above(f.voltage.max, f.circuit->module->max_system)) return true;
    if (f.circuit->run && conductor_exceeded(*f.circuit->run, f.voltage.max)) return true;
  }
  return false;
}

Severity gravity(const VisitCase& c) {
  return exceeds_a_voltage_limit(c) ? Severity::hazard : Severity::correction;
}

// One finding for one number that holds for all strings of a box whose plan has one number, too.
void all_strings(const VisitCase& c, Notes& out, std::uint32_t found, std::uint32_t planned) {
  if (found == planned) return;
  out.find(gravity(c), "series")
      .found(static_cast<double>(found))
      .required(static_cast<double>(planned))
      .unit("modules")
      .at_record(record_pointer(c, "/count/series"))
      .beside(plan_series_pointer(c))
      .say("The inspector counted {} in series in the strings of {}; the plan has {}.",
           counted(found, "module"), c.plan.id, planned);
}

void one_group(const VisitCase& c, Notes& out, const Circuit& group, const std::vector<SeriesShare>& shares) {
  std::vector<std::string> numbers, words;
  std::uint64_t strings = 0;
  double found = 0;
  for (const SeriesShare& share : shares) {
    strings += share.strings;
    if (share.series == group.series || share.strings == 0) continue;
    found = share.series;
    numbers.push_back(std::to_string(share.series));
    words.push_back(fmt::format("{} with {}", share.strings, share.series));
  }
  if (words.empty()) return;
  out.find(gravity(c), circuit_part(group))
      .found(numbers.size() == 1 ? Amount(found) : Amount(listed(numbers)))
      .required(static_cast<double>(group.series))
      .unit("modules")
      .at_record(record_pointer(c, "/count/series"))
      .beside(plan_pointer(c, fmt::format("/circuits/{}/series", &group - c.plan.circuits.data())))
      .say("The inspector found {} in series {} of circuit {} of {}; the plan has {}.",
           strings == 1 ? numbers.front() : listed(words),
           strings == 1 ? "in the string" : fmt::format("among the {}", counted(strings, "string")), group.id,
           c.plan.id, group.series);
}

void list_length(const VisitCase& c, Notes& out) {
  const auto count = counted_strings(c.plan, c.visited);
  const std::uint64_t strings = count ? count->strings : planned_strings(c.plan);
  const std::uint64_t length = c.visited.count.series.size();
  if (length == strings) return;
  out.find(Severity::query, "series list")
      .found(static_cast<double>(length))
      .required(static_cast<double>(strings))
      .unit("strings")
      .at_record(record_pointer(c, "/count/series"))
      .beside(strings_pointer(c))
      .say(
          "The record gives the modules in series of {} in {}, where {} {}; which string is which cannot "
          "be told{}.",
          counted(length, "string"), c.plan.id, count ? "the inspector counted" : "the plan has", strings,
          length > strings && strings > 0 ? ", so the box is judged with the longest of them" : "");
}

// Whether modules in all and strings, both counted, can be true of one box. Where the strings were counted
// one by one, their list is the count.
void contradicting_modules(const VisitCase& c, Notes& out) {
  const Count& count = c.visited.count;
  if (!count.modules || count.series.empty()) return;
  std::uint64_t sum = 0;
  std::string strings;
  if (count.series_of_each) {
    for (const std::uint32_t series : count.series) sum += series;
    strings = fmt::format("the {} listed have", counted(count.series.size(), "string"));
  } else {
    const auto counted_number = counted_strings(c.plan, c.visited);
    if (!counted_number) return;
    sum = std::uint64_t{counted_number->strings} * count.series.front();
    strings = fmt::format("{} of {} have", counted(counted_number->strings, "string"), count.series.front());
  }
  if (sum == *count.modules) return;
  out.find(Severity::query, "modules and strings")
      .found(static_cast<double>(*count.modules))
      .required(static_cast<double>(sum))
      .unit("modules")
      .at_record(record_pointer(c, "/count/modules"))
      .beside(record_pointer(c, "/count/series"))
      .ask("Count the modules again, string by string, and correct the field record.")
      .say("The inspector counted {} on {}, but {} {}: one of the counts is wrong.",
           counted(*count.modules, "module"), c.plan.id, strings, sum);
}

// Modules counted in all, where nobody counted them string by string. What the count of strings makes up for
// is said by tally/strings.
void all_modules(const VisitCase& c, Notes& out) {
  const auto& found = c.visited.count.modules;
  double planned = 0;
  for (const Circuit& group : c.plan.circuits) planned += static_cast<double>(group.strings) * group.series;
  if (!found || *found == planned || *found == c.as_built.modules) return;
  out.find(Severity::correction, "modules")
      .found(static_cast<double>(*found))
      .required(planned)
      .unit("modules")
      .at_record(record_pointer(c, "/count/modules"))
      .beside(plan_pointer(c, "/circuits"))
      .say("The inspector counted {} on {}; the plan has {}.", counted(*found, "module"), c.plan.id,
           shown(planned));
}

}  // namespace

const Rule tally_series{
    .id = "tally/series",
    .severity = Severity::hazard,
    .title = "Modules in series differ from the plan",
    .explain =
        {"Holds the modules in series found in each string against the plan; without such a count, all "
         "modules counted on the box against the plan's total.",
         "Each module more raises the voltage of the whole string, in the cold above all, and fuses, "
         "switches and inverter have no reserve for it; a string that is shorter than its neighbours is "
         "driven backwards by them.",
         "One number in the record holds for every string; a list runs through the strings in the order of "
         "the plan's groups, and where it is longer than the strings counted its longest strings are "
         "judged. Modules in all that strings and series do not add up to are a query. A hazard where the box as found exceeds a voltage limit of the edition or the "
         "rated voltage of a module, the inverter, a fuse, switch, enclosure or conductor; otherwise a "
         "correction."},
    .remedy = "Count the modules of each string again, and correct the strings or have the plan changed.",
    .uses = {"voltage.limits", "voltage.cold_table", "voltage.design_low"},
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const Count& count = c.visited.count;
      if (count.series_of_each) list_length(c, out);
      contradicting_modules(c, out);
      if (count.series.empty()) return all_modules(c, out);
      if (transposed(c).plan_found) return;
      const std::vector<std::uint32_t> planned = planned_series(c.plan);
      if (!count.series_of_each && planned.size() == 1)
        return all_strings(c, out, count.series.front(), planned.front());
      const auto found = series_of_groups(c.plan, c.visited);
      for (std::size_t i = 0; i < found.size(); ++i) one_group(c, out, c.plan.circuits[i], found[i]);
    }};

}  // namespace boxproof
