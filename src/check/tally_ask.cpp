#include "src/check/tally_ask.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/rule.hpp"
#include "src/rules/tally_accounts.hpp"

namespace boxproof {
namespace {

bool of_topic(const Finding& f, std::string_view topic) {
  return f.rule->id.starts_with(topic);
}

// Modules in series, of all strings or of one circuit's; the modules of a box in all are another matter.
bool of_series(const Finding& tally) {
  return tally.part == "label series" ||
         (tally.rule->id == "tally/series" && (tally.part == "series" || tally.part.starts_with("circuit ")));
}

// Of two circuits by name; strings of another length than planned are "circuit far, 19 in series".
bool of_other_circuit(const Finding& tally, const Finding& f) {
  if (!tally.part.starts_with("circuit ") || !f.part.starts_with("circuit ")) return false;
  return f.part != tally.part && !f.part.starts_with(tally.part + ", ");
}

// Whether a finding is about the part that a tally finding names.
bool concerns(const Finding& tally, const Finding& f) {
  const std::string_view rule = f.rule->id, part = f.part;
  const bool rated_voltage = rule == "voltage/equipment-rating";
  const bool of_circuit = part.starts_with("circuit ");
  const std::string_view differing = tally.part;
  if (differing == "label strings") return false;
  if (of_series(tally)) return of_topic(f, "voltage/") && !of_other_circuit(tally, f);
  if (!tally.rule->id.starts_with("tally/part")) {  // fuses
    const bool wire = rule == "conductor/unprotected" || rule == "conductor/small-size-limit";
    return (of_topic(f, "fuse/") && part != "output device") || (rated_voltage && part == "fuse") ||
           (wire && of_circuit);
  }
  if (differing.starts_with("disconnect"))
    return of_topic(f, "disconnect/") || (rated_voltage && part == "disconnect");
  if (differing.starts_with("output"))
    return part.starts_with("output conductor") && (of_topic(f, "conductor/") || rated_voltage);
  if (differing.starts_with("source"))
    return of_circuit && part.ends_with(" conductor") && (of_topic(f, "conductor/") || rated_voltage);
  if (differing.starts_with("egc")) return rule == "conductor/grounding-size" && part == "egc";
  // The space behind the box is not the enclosure's.
  if (differing.starts_with("enclosure")) return of_topic(f, "enclosure/") && rule != "enclosure/air-gap";
  return false;
}

using Ids = std::vector<std::string>;

std::string breaches(const Ids& of_plan, const Ids& as_found) {
  if (of_plan == as_found)
    return fmt::format("what the plan has and what was found both break {}", listed(of_plan));
  return fmt::format("what the plan has breaks {}, what was found breaks {}", listed(of_plan),
                     listed(as_found));
}

// Of a label that says what is there, where the plan does not.
std::string ask_of_label(const Ids& of_plan, const Ids& as_found) {
  if (of_plan.empty())
    return fmt::format(
        "The label says what is there, and that breaks {}: put the box right, and the label with it.",
        listed(as_found));
  if (as_found.empty())
    return fmt::format(
        "The label says what is there: leave it, and have the plan changed to what was found; what the plan "
        "has breaks {}.",
        listed(of_plan));
  return fmt::format(
      "The label says what is there. Have the plan changed, and box and label put right by it: {}.",
      breaches(of_plan, as_found));
}

std::string ask_of_series(const Ids& of_plan, const Ids& as_found) {
  constexpr std::string_view again = "Count the modules of each string again, and have the plan changed";
  if (as_found.empty())
    return fmt::format("{} to what was found; do not bring the strings to the plan's number, it breaks {}.",
                       again, listed(of_plan));
  return fmt::format("{}, and the strings put right by it: {}.", again, breaches(of_plan, as_found));
}

void add_breaches(const Finding& tally, std::span<const Finding> findings, Ids& out) {
  for (const Finding& f : findings) {
    if (f.severity != Severity::hazard && f.severity != Severity::correction) continue;
    if (!concerns(tally, f)) continue;
    std::string id(f.rule->id);
    if (std::find(out.begin(), out.end(), id) == out.end()) out.push_back(std::move(id));
  }
}

std::string ask(const Finding& tally, const Ids& of_plan, const Ids& as_found) {
  const std::string breaks = listed(of_plan);
  if (tally.part == "fuse count")
    return fmt::format(
        "Have the plan changed, and fit fuses to all inputs by it; do not fit the fuses of the plan as it is, "
        "they break {}.",
        breaks);
  if (tally.rule->id == "tally/mixed-fuses")
    return fmt::format(
        "Have the plan changed, and replace the odd fuses by it; do not fit the rating of the plan as it is, "
        "it breaks {}.",
        breaks);
  if (as_found.empty() && tally.required == Amount(std::string("none")))
    return fmt::format("Have the plan changed to what was found: as it is, without one, it breaks {}.",
                       breaks);
  if (as_found.empty())
    return fmt::format("Have the plan changed to what was found; do not fit what the plan has, it breaks {}.",
                       breaks);
  if (of_plan == as_found)
    return fmt::format(
        "Have the plan changed to a part that meets {}: neither what the plan has nor what was found does.",
        breaks);
  return fmt::format(
      "Have the plan changed to a part that meets both: what the plan has breaks {}, what was found breaks "
      "{}.",
      breaks, listed(as_found));
}

}  // namespace

void ask_for_another_plan(std::span<Finding> tally, std::span<const Finding> both,
                          std::span<const Finding> gone, std::span<const Finding> built) {
  for (Finding& t : tally) {
    const std::string_view rule = t.rule->id;
    const bool right_label = rule == "tally/label" && !t.ask.empty();  // it says what is there
    if (!right_label && rule != "tally/part" && rule != "tally/fuse" && rule != "tally/mixed-fuses" &&
        !(rule == "tally/series" && of_series(t)))
      continue;
    if (t.severity == Severity::query || t.part == "disconnect works") continue;  // it is to be mended
    Ids of_plan, as_found;
    add_breaches(t, gone, of_plan);
    add_breaches(t, both, of_plan);
    if (of_plan.empty() && !right_label) continue;
    add_breaches(t, built, as_found);
    add_breaches(t, both, as_found);
    if (right_label) {
      if (!of_plan.empty() || !as_found.empty()) t.ask = ask_of_label(of_plan, as_found);
      continue;
    }
    if (!t.ask.empty() && as_found.empty()) continue;  // the rule has the plan changed already
    t.ask = of_series(t) ? ask_of_series(of_plan, as_found) : ask(t, of_plan, as_found);
  }
}

}  // namespace boxproof
