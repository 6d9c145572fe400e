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

// Whether a finding is about the part that a tally finding names.
bool concerns(const Finding& tally, const Finding& f) {
  const std::string_view rule = f.rule->id, part = f.part;
  const bool rated_voltage = rule == "voltage/equipment-rating";
  const bool of_circuit = part.starts_with("circuit ");
  const std::string_view differing = tally.part;
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
    if (rule != "tally/part" && rule != "tally/fuse" && rule != "tally/mixed-fuses") continue;
    if (t.severity == Severity::query || t.part == "disconnect works") continue;  // it is to be mended
    Ids of_plan, as_found;
    add_breaches(t, gone, of_plan);
    add_breaches(t, both, of_plan);
    if (of_plan.empty()) continue;
    add_breaches(t, built, as_found);
    add_breaches(t, both, as_found);
    if (!t.ask.empty() && as_found.empty()) continue;  // the rule has the plan changed already
    t.ask = ask(t, of_plan, as_found);
  }
}

}  // namespace boxproof
