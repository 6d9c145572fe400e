// Boxes that only one of plan and record has.
#include <fmt/format.h>

#include <unordered_map>
#include <unordered_set>

#include "src/rules/notes.hpp"
#include "src/rules/tally.hpp"
#include "src/rules/tally_accounts.hpp"
#include "src/text/nearest.hpp"

namespace boxproof {
namespace {

constexpr std::size_t nearest_shown = 3;
// A record of another site has no id that the plan knows; names are compared only so often (a few seconds)
// before the remaining boxes go without suggestions.
constexpr std::size_t most_comparisons = 2'000'000;

// The ids of the plan, those that nobody visited first: they are the likelier to be meant.
std::vector<std::string_view> candidates(const RecordCase& c) {
  std::unordered_set<std::string_view> visited;
  for (const VisitedBox& box : c.record.boxes) visited.insert(box.id);
  std::vector<std::string_view> first, then;
  for (const Combiner& box : c.design.combiners) (visited.contains(box.id) ? then : first).push_back(box.id);
  first.insert(first.end(), then.begin(), then.end());
  return first;
}

// The nearest ids, as near as the nearest of all.
std::vector<std::string> nearest_ids(std::string_view id, const std::vector<std::string_view>& known) {
  std::vector<std::string> out;
  std::size_t least = 0;
  for (const std::string_view other : text::nearest_few(id, known, nearest_shown)) {
    const std::size_t distance = text::edit_distance(id, other);
    if (out.empty()) least = distance;
    if (distance == least) out.emplace_back(other);
  }
  return out;
}

}  // namespace

const Rule tally_not_visited{
    .id = "tally/not-visited",
    .severity = Severity::query,
    .title = "Box on the plan that nobody visited",
    .explain =
        {"Names each box of the plan that the field record has no entry for, or an entry with nothing "
         "in it but the id.",
         "A box that nobody opened is neither right nor wrong: nothing is known of it, and "
         "approving the site would approve it unseen.",
         "The ids of the plan against the ids of the record, letter by letter. An entry must state "
         "something that was seen, counted or read; an empty list of labels, of odd fuses or of conditions "
         "does, for it says that somebody looked and there are none."},
    .remedy = "Visit the box, or enter it under its id on the plan.",
    .judge_record = [](const RecordCase& c, Notes& out) {
      std::unordered_map<std::string_view, std::size_t> entry;
      for (std::size_t j = 0; j < c.record.boxes.size(); ++j) entry.emplace(c.record.boxes[j].id, j);
      for (std::uint32_t i = 0; i < c.design.combiners.size(); ++i) {
        const std::string& id = c.design.combiners[i].id;
        const auto visited = entry.find(id);
        if (visited != entry.end() && !c.record.boxes[visited->second].says_nothing()) continue;
        out.about(i, id, Basis::as_built);
        if (visited != entry.end()) {
          out.find("visit")
              .found(std::string("an entry that says nothing"))
              .required(std::string("an entry that says what was seen"))
              .at_record(fmt::format("/boxes/{}", visited->second))
              .beside(fmt::format("/combiners/{}", i))
              .ask("Enter what was seen at the box, or visit it.")
              .say("The field record's entry for {} says nothing of the box; was it visited?", id);
          continue;
        }
        out.find("visit")
            .found(std::string("no entry"))
            .required(std::string("an entry"))
            .at_design(fmt::format("/combiners/{}", i))
            .say("Box {} is on the plan, and the field record has no entry for it.", id);
      }
    }};

const Rule tally_not_on_plan{
    .id = "tally/not-on-plan",
    .severity = Severity::correction,
    .title = "Visited box that the plan does not have",
    .explain =
        {"Names each box of the field record that the plan does not have, with the nearest ids on the plan.",
         "Either the id was misread, and findings go to the wrong box, or somebody put up a box that was "
         "never approved and that no calculation covers.",
         "The ids of the record against the ids of the plan, letter by letter. Nearest are the ids with "
         "the fewest letters to change; where several are as near, boxes that nobody visited come first."},
    .remedy = "Correct the id in the record, or have the box added to the plan.",
    .judge_record = [](const RecordCase& c, Notes& out) {
      const std::vector<std::string_view> known = candidates(c);
      const std::unordered_set<std::string_view> planned(known.begin(), known.end());
      std::size_t compared = 0;
      for (std::size_t j = 0; j < c.record.boxes.size(); ++j) {
        const std::string& id = c.record.boxes[j].id;
        if (planned.contains(id)) continue;
        std::vector<std::string> near;
        if (compared + known.size() <= most_comparisons) near = nearest_ids(id, known);
        compared += known.size();
        std::string hint;
        if (!near.empty())
          hint = fmt::format("; the nearest there {} {}", near.size() == 1 ? "is" : "are", listed(near));
        out.about(std::nullopt, id, Basis::as_built);
        out.find("id")
            .found(id)
            .required(near.empty() ? Amount(std::string("an id of the plan")) : Amount(listed(near, "or")))
            .at_record(fmt::format("/boxes/{}/id", j))
            .say("Box {} of the field record is not on the plan{}.", id, hint);
      }
    }};

}  // namespace boxproof
