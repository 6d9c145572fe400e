// The three accounts of a box, and the slip that swaps strings and modules in series between two of them.
#include "src/rules/tally_accounts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/check/as_built.hpp"
#include "src/rules/notes.hpp"
#include "src/rules/tally.hpp"

namespace boxproof {
namespace {

bool swapped(const Account& a, const Account& b) {
  return a.strings && a.series && b.strings && b.series && *a.strings != *a.series &&
         *a.strings == *b.series && *a.series == *b.strings;
}

std::string words_of(const Account& a) {
  return fmt::format("{} of {}", counted(*a.strings, "string"), *a.series);
}

}  // namespace

std::vector<std::uint32_t> planned_series(const Combiner& plan) {
  std::vector<std::uint32_t> out;
  for (const Circuit& c : plan.circuits)
    if (std::find(out.begin(), out.end(), c.series) == out.end()) out.push_back(c.series);
  return out;
}

Account plan_account(const Combiner& plan) {
  Account account{planned_strings(plan), std::nullopt};
  if (const auto series = planned_series(plan); series.size() == 1) account.series = series.front();
  return account;
}

Account label_account(const VisitCase& c) {
  Account account;
  if (c.visited.posted.strings) account.strings = *c.visited.posted.strings;
  account.series = c.visited.posted.series;
  return account;
}

Account found_account(const VisitCase& c) {
  Account account;
  if (const auto count = counted_strings(c.plan, c.visited)) account.strings = count->strings;
  const std::vector<std::uint32_t>& series = c.visited.count.series;
  const auto differs = [&](std::uint32_t n) { return n != series.front(); };
  if (!series.empty() && std::none_of(series.begin(), series.end(), differs)) account.series = series.front();
  return account;
}

Transposed transposed(const VisitCase& c) {
  const Account plan = plan_account(c.plan), label = label_account(c), found = found_account(c);
  Transposed out{swapped(plan, label), swapped(plan, found), false};
  out.label_found = !out.any() && swapped(label, found);
  return out;
}

std::string record_pointer(const VisitCase& c, std::string_view key) {
  return fmt::format("/boxes/{}{}", c.record_index, key);
}

std::string plan_pointer(const VisitCase& c, std::string_view key) {
  return fmt::format("/combiners/{}{}", c.index, key);
}

std::string plan_strings_pointer(const VisitCase& c) {
  if (c.plan.circuits.size() != 1) return plan_pointer(c, "/circuits");
  // A group that does not state how many has one.
  return plan_pointer(c, c.plan.circuits.front().strings == 1 ? "/circuits/0" : "/circuits/0/strings");
}

std::string plan_series_pointer(const VisitCase& c) {
  return plan_pointer(c, c.plan.circuits.size() == 1 ? "/circuits/0/series" : "/circuits");
}

std::string strings_pointer(const VisitCase& c) {
  const auto count = counted_strings(c.plan, c.visited);
  return count ? record_pointer(c, fmt::format("/count/{}", count->key)) : plan_strings_pointer(c);
}

std::string counted(std::uint64_t number, std::string_view thing) {
  return fmt::format("{} {}{}", number, thing, number == 1 ? "" : "s");
}

std::string listed(const std::vector<std::string>& words, std::string_view last) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? fmt::format(" {} ", last) : ", ";
    out += words[i];
  }
  return out;
}

const Rule tally_transposed{
    .id = "tally/transposed",
    .severity = Severity::correction,
    .title = "Strings and modules in series changed places",
    .explain =
        {"Holds the three accounts of a box against each other, the plan, the posted label and the count "
         "on site, and looks for two that agree once strings and modules in series change places.",
         "The total of modules is the same, so a tally by modules hides it; but twelve strings of fifteen "
         "and fifteen strings of twelve differ in voltage and in current, and whoever opens the box relies "
         "on both.",
         "An account counts where it has one number of strings and one number of modules in series for all "
         "of them. One finding stands in place of the two differences that the swap explains; what the "
         "voltage or the current of the box as found breaks is reported by the rules for those."},
    .remedy = "Find out which account is right, and put the others in agreement with it.",
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const Transposed pair = transposed(c);
      if (!pair.any()) return;
      const Account label = label_account(c), found = found_account(c);
      const Account first = pair.label_found ? label : plan_account(c.plan);
      const Account& second = pair.plan_label ? label : found;
      std::string_view who = "the label on it says";
      if (!pair.plan_label) who = "the inspector counted";
      if (pair.plan_label && pair.plan_found) who = "the label on it and the inspector's count both say";
      const std::string_view key = !pair.plan_found && pair.plan_label ? "/posted/strings" : "/count/series";
      out.find("counts")
          .found(words_of(second))
          .required(words_of(first))
          .at_record(record_pointer(c, key))
          .beside(pair.label_found ? record_pointer(c, "/posted/strings") : plan_pointer(c, "/circuits"))
          .say("{} {} has {}, and {} {}: the two numbers changed places.",
               pair.label_found ? "The label on" : "The plan of", c.plan.id, words_of(first), who,
               words_of(second));
    }};

}  // namespace boxproof
