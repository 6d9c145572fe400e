// The same in a comparison, many times, made one entry.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>
#include <unordered_map>

#include "boxproof/rule.hpp"
#include "src/report/compare_words.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"

namespace boxproof::report {
namespace {

std::string value_words(const ValueChange& change) {
  const auto words = [&](const Amount& amount, const Amount& beside) {
    const std::string text = shown(amount, change.name->unit, beside);
    return text.empty() ? std::string("none") : text;
  };
  const bool whole_circuit = change.name->key == "circuit";
  std::string lead = change.where.empty() ? "" : plain(change.where);
  if (!whole_circuit) lead += (lead.empty() ? "" : ": ") + std::string(change.name->words);
  return fmt::format("{} {} → {}", lead, words(change.before, change.after),
                     words(change.after, change.before));
}

}  // namespace

std::vector<ComparedGroup> groups_of(const Comparison& comparison, Outcome outcome) {
  using Kind = std::tuple<Severity, Reason, std::string_view, bool>;
  std::map<Kind, std::vector<const Finding*>> kinds;
  std::unordered_map<const Finding*, const Compared*> home;
  for (const Compared& c : comparison.findings) {
    if (c.outcome != outcome) continue;
    const Finding& f = c.finding();
    // What differs from before is told apart from what does not.
    kinds[{f.severity, c.reason, c.detail, change_words(c).empty()}].push_back(&f);
    home.emplace(&f, &c);
  }
  std::vector<ComparedGroup> out;
  for (auto& [kind, findings] : kinds)
    for (Group& g : group(findings)) {
      ComparedGroup& entry = out.emplace_back();
      for (const Finding* f : g.findings) entry.all.push_back(home.at(f));
      entry.group = std::move(g);
    }
  std::stable_sort(out.begin(), out.end(), [](const ComparedGroup& a, const ComparedGroup& b) {
    const Finding &x = a.group.first(), &y = b.group.first();
    return std::tie(x.severity, x.rule->id) < std::tie(y.severity, y.rule->id);
  });
  return out;
}

std::vector<std::string> changes_of(const ComparedGroup& group) {
  std::vector<std::string> out;
  constexpr std::size_t few = 4;
  std::size_t more = 0;
  const bool alike = std::all_of(group.all.begin(), group.all.end(), [&](const Compared* c) {
    return change_words(*c) == change_words(group.first());
  });
  for (const Compared* c : group.all) {
    const std::string words = change_words(*c);
    if (words.empty()) continue;
    if (out.size() == few) {
      ++more;
      continue;
    }
    out.push_back(group.all.size() == 1 || alike ? words
                                                 : fmt::format("{}: {}", plain(c->finding().box_id), words));
    if (alike) break;
  }
  if (more > 0) out.push_back(fmt::format("… and {} more", more));
  return out;
}

std::vector<ChangedGroup> changed_groups(const Comparison& comparison) {
  std::vector<ChangedGroup> out;
  std::map<std::pair<bool, std::string>, std::vector<std::string_view>> alike;
  std::vector<std::pair<bool, std::string>> order;
  for (const ChangedBox& box : comparison.changed) {
    std::string what;
    if (box.before->verdict != box.after->verdict)
      what = fmt::format("verdict {} → {}", name_of(box.before->verdict), name_of(box.after->verdict));
    for (const ValueChange& change : box.changes)
      what.append(what.empty() ? "" : "; ").append(value_words(change));
    auto& ids = alike[{box.asked, what}];
    if (ids.empty()) order.emplace_back(box.asked, what);
    ids.push_back(box.after->id);
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (const auto& kind : order) {
    const auto& ids = alike[kind];
    out.push_back({run_together(ids), kind.second, ids.size(), kind.first});
  }
  return out;
}

}  // namespace boxproof::report
