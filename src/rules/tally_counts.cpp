// Strings counted on site against the plan, and positives against negatives.
#include <fmt/format.h>

#include "src/check/as_built.hpp"
#include "src/rules/notes.hpp"
#include "src/rules/tally.hpp"
#include "src/rules/tally_accounts.hpp"

namespace boxproof {
namespace {

// What the as-built judgement made of a count that differs, where the box has several groups.
std::string where_put(const VisitCase& c, std::uint64_t found, std::uint64_t planned) {
  if (c.plan.circuits.size() < 2) return {};
  const std::vector<std::uint32_t> strings = strings_of_groups(c.plan, c.visited);
  std::vector<std::string> places;
  for (std::size_t i = 0; i < strings.size(); ++i) {
    const std::uint32_t before = c.plan.circuits[i].strings;
    const std::uint32_t change = strings[i] > before ? strings[i] - before : before - strings[i];
    if (change > 0) places.push_back(fmt::format("{} in circuit {}", change, c.plan.circuits[i].id));
  }
  return fmt::format("; the {} is judged as {}, by the highest short-circuit current",
                     found > planned ? "surplus" : "lack", listed(places));
}

}  // namespace

const Rule tally_strings{
    .id = "tally/strings",
    .severity = Severity::correction,
    .title = "Number of strings differs from the plan",
    .explain =
        {"Holds the strings counted in the box against the strings that the plan has on it.",
         "A string more than planned adds its current to the bus, the output conductors and the "
         "disconnect, none of which was sized for it; one fewer may hang on another box, or lie open under "
         "the modules with its ends live.",
         "The count is that of the positives or the negatives; where the two differ the larger is taken. "
         "Where the plan joins strings ahead of the box, a count is read as inputs or as strings, "
         "whichever of the plan's two numbers is nearer (inputs where both are as near); an input more or "
         "fewer is as many strings as are joined on one. In a box with several groups the difference is "
         "judged where the short-circuit current is highest."},
    .remedy = "Trace every string of the box, and correct the wiring or have the plan changed.",
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const auto count = counted_strings(c.plan, c.visited);
      const std::uint64_t planned = planned_strings(c.plan), inputs = planned_inputs(c.plan);
      if (!count || count->strings == planned || transposed(c).plan_found) return;
      std::string number = counted(count->strings, "string"), how;
      std::string on_plan = std::to_string(planned);
      if (inputs != planned) {
        number = std::to_string(count->counted);
        how = count->as_inputs
                  ? fmt::format(", read as inputs with {} joined on them", counted(count->strings, "string"))
                  : std::string(", read as strings");
        on_plan = fmt::format("{} on {}", counted(planned, "string"), counted(inputs, "input"));
      }
      out.find("strings")
          .found(static_cast<double>(count->strings))
          .required(static_cast<double>(planned))
          .unit("strings")
          .at_record(record_pointer(c, fmt::format("/count/{}", count->key)))
          .beside(plan_strings_pointer(c))
          .say("The inspector counted {} in {}{}; the plan has {}{}.", number, c.plan.id, how, on_plan,
               where_put(c, count->strings, planned));
    }};

const Rule tally_polarity{
    .id = "tally/polarity",
    .severity = Severity::hazard,
    .title = "Positives and negatives differ in number",
    .explain =
        {"Holds the positive conductors counted in the box against the negative ones.",
         "Every string has one of each. Where they differ a string may be landed on the wrong busbar, run "
         "backwards, or hang loose: the others then drive their current through it, and nothing shows "
         "until something burns.",
         "The two counts of the record, as they stand. The box is judged with the larger one."},
    .remedy =
        "Keep the box open-circuited, check the polarity of every string, and land each on its own "
        "terminals.",
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const auto& positive = c.visited.count.positive;
      const auto& negative = c.visited.count.negative;
      if (!positive || !negative || *positive == *negative) return;
      out.find("polarity")
          .found(fmt::format("{} positive, {} negative", *positive, *negative))
          .required(std::string("as many of each"))
          .at_record(record_pointer(c, *positive < *negative ? "/count/positive" : "/count/negative"))
          .beside(record_pointer(c, *positive < *negative ? "/count/negative" : "/count/positive"))
          .say(
              "The inspector counted {} and {} in {}; a string may be landed on the wrong busbar or "
              "reversed.",
              counted(*positive, "positive"), counted(*negative, "negative"), c.plan.id);
    }};

}  // namespace boxproof
