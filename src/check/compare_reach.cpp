#include "src/check/compare_reach.hpp"

#include <algorithm>

#include "src/check/compare_evidence.hpp"
#include "src/check/compare_parts.hpp"
#include "src/check/record_inputs.hpp"

namespace boxproof {
namespace {

std::string key_of(std::string_view box, std::string_view rule) {
  return std::string(box) + '\n' + std::string(rule);
}

bool amended_away(const ReportFile& report, std::string_view rule) {
  return std::any_of(report.amendments.begin(), report.amendments.end(), [&](const auto& amendment) {
    return amendment.first == "rules." + std::string(rule) && amendment.second.starts_with("taken away");
  });
}

// Whether what the rule finds hangs on a design temperature.
bool hangs_on_temperature(std::string_view rule) {
  if (rule == "tally/label" || rule == "tally/series") return true;
  return !rule.starts_with("tally/") && !rule.starts_with("condition/") && !rule.starts_with("measured/");
}

// The ids of a list in words: "B-10, B-18 or B-11".
std::vector<std::string> ids_of(std::string_view list) {
  std::vector<std::string> out;
  while (!list.empty()) {
    const auto comma = list.find(", "), last = list.find(" or ");
    const auto end = std::min(comma, last);
    out.emplace_back(list.substr(0, end));
    if (end == std::string_view::npos) break;
    list.remove_prefix(end + (end == comma ? 2 : 4));
  }
  return out;
}

// Whether it was computed from what other boxes of the inverter have, too.
bool hangs_on_others(const Finding& f) {
  const std::string_view rule = f.rule->id, part = f.part;
  return rule == "conductor/unprotected" || (part.starts_with("inverter") && !rule.starts_with("voltage/")) ||
         part.find("output device") != part.npos;
}

// The total of the permit that it was held against.
std::string_view total_of(const Finding& f) {
  if (f.rule->id != "site/totals" || f.lacking) return {};
  return f.part == "DC power" ? "dc_kw" : std::string_view(f.part);
}

// Rules that go by a computed value of a box.
bool goes_by(std::string_view rule, std::string_view value) {
  const auto any = [&](std::initializer_list<std::string_view> leads) {
    return std::any_of(leads.begin(), leads.end(), [&](auto lead) { return rule.starts_with(lead); });
  };
  if (value == "max_v" || value == "cold_factor")
    return any({"voltage/", "label/", "protection/", "measured/", "tally/label", "tally/series"});
  if (value == "ampacity_a" || value == "terminal_ampacity_a" || value == "correction" ||
      value == "adjustment" || value == "drop_pct" || value == "suggested_size")
    return any({"conductor/"});
  return any({"current/", "fuse/", "disconnect/", "label/", "conductor/", "tally/label", "enclosure/"});
}

// A few ids, and how many more.
void name(std::string& list, std::size_t& named, std::string_view id) {
  constexpr std::size_t most = 5;
  if (++named > most + 1) return;
  if (named == most + 1)
    list += ", …";
  else
    list.append(list.empty() ? "" : ", ").append(id);
}

}  // namespace

BoxesById by_id(const ReportFile& report) {
  BoxesById out;
  out.reserve(report.boxes.size());
  for (const ReportedBox& box : report.boxes) out.emplace(box.id, &box);
  return out;
}

bool is_below(std::string_view path, std::string_view group) {
  return path.starts_with(group) && (path.size() == group.size() || path[group.size()] == '.');
}

std::vector<std::string> other_amendments(const ReportFile& before, const ReportFile& after) {
  std::vector<std::string> out;
  const auto add_missing = [&](const ReportFile& of, const ReportFile& in) {
    for (const auto& amendment : of.amendments)
      if (std::find(in.amendments.begin(), in.amendments.end(), amendment) == in.amendments.end() &&
          std::find(out.begin(), out.end(), amendment.first) == out.end())
        out.push_back(amendment.first);
  };
  add_missing(before, after);
  add_missing(after, before);
  return out;
}

bool other_temperature(const ReportFile& before, const ReportFile& after) {
  const auto given = [](const ReportFile& r, std::string_view key) {
    return std::any_of(r.overrides.begin(), r.overrides.end(),
                       [&](const std::string& text) { return text.starts_with(key); });
  };
  const auto differs = [&](const auto& one, const auto& two, std::string_view key) {
    return one != two && (given(before, key) || given(after, key));
  };
  return differs(before.low, after.low, "site.low_c ") || differs(before.high, after.high, "site.high_c ");
}

Reach::Reach(const ReportFile& before, const ReportFile& after,
             const std::vector<const ReportedFinding*>& fresh)
    : before_(before),
      after_(after),
      boxes_before_(by_id(before)),
      boxes_after_(by_id(after)),
      other_keys_(other_amendments(before, after)),
      other_temperature_(other_temperature(before, after)) {
  if (before.edition != after.edition)
    for (Difference& d : differences(before.edition, after.edition)) {
      const std::string_view last = std::string_view(d.path).substr(d.path.rfind('.') + 1);
      if (last.find("section") == std::string_view::npos) other_keys_.push_back(std::move(d.path));
    }
  for (const auto& [id, section] : load_edition(after.edition).rules)
    if (!amended_away(after, id)) has_rules_.emplace(id);
  for (const ReportedFinding* f : fresh) {
    const Finding& query = f->finding;
    if (query.rule->id == "label/missing") labels_asked_.insert(key_of(query.box_id, query.part));
    if (!query.lacking) continue;
    waits_.emplace(key_of(query.box_id, query.rule->id), query.part);
    for (const Rule* rule : query.also) waits_.emplace(key_of(query.box_id, rule->id), query.part);
  }
  all_visited_ = after.basis == Basis::as_built && !after.selected &&
                 std::all_of(after.boxes.begin(), after.boxes.end(), [](auto& b) { return b.visited(); });
  for (const auto& [id, then] : boxes_before_) {
    const auto now = boxes_after_.find(id);
    if (!then->visited() || now == boxes_after_.end()) continue;
    for (const std::string_view group : {"count", "fuse", "mixed_fuses", "output", "source", "disconnect"})
      if (!not_again(group, then->looked_at, now->second->looked_at).empty()) {
        told_less_.push_back(id);
        break;
      }
  }
  std::sort(told_less_.begin(), told_less_.end());
  std::size_t named = 0;
  std::unordered_set<std::string_view> seen;
  for (const ReportedFinding& f : before.findings) {
    if (f.finding.basis != Basis::as_built || f.finding.rule->id == "tally/not-visited") continue;
    const auto box = boxes_after_.find(f.finding.box_id), then = boxes_before_.find(f.finding.box_id);
    if (box == boxes_after_.end() || then == boxes_before_.end()) continue;
    const bool again =
        box->second->visited() && not_again("count", then->second->looked_at, box->second->looked_at).empty();
    if (!again && seen.insert(box->first).second) name(not_counted_again_, named, box->first);
  }
}

// The rule does not run there, runs on other numbers, or asks for a value first.
std::optional<Fate> Reach::not_judged(const Finding& f, std::string_view box) const {
  if (!has_rules_.contains(std::string(f.rule->id))) return Fate{Outcome::unseen, Reason::no_rule, {}};
  for (const std::string& key : other_keys_)
    if (std::any_of(f.rule->uses.begin(), f.rule->uses.end(), [&](auto& g) { return is_below(key, g); }))
      return Fate{Outcome::unseen, Reason::other_code, key};
  if (other_temperature_ && hangs_on_temperature(f.rule->id))
    return Fate{Outcome::unseen, Reason::other_temperature, {}};
  for (const std::string_view where : {box, std::string_view()})
    if (const auto waits = waits_.find(key_of(where, f.rule->id)); waits != waits_.end())
      return Fate{Outcome::unseen, Reason::asks_first, waits->second};
  return std::nullopt;
}

bool Reach::asks_for_label(const Finding& f) const {
  constexpr std::string_view lead = "label ";
  if (f.rule->id != "label/values" || !f.part.starts_with(lead)) return false;
  const std::string kind = f.part.substr(0, f.part.find(' ', lead.size()));
  return labels_asked_.contains(key_of(f.box_id, kind));
}

std::optional<Fate> Reach::not_stated(const Finding& f, const ReportedBox* earlier,
                                      const ReportedBox& box) const {
  const auto unstated = [](std::string what) {
    return Fate{Outcome::unseen, Reason::no_longer_stated, std::move(what)};
  };
  if (asks_for_label(f) ||
      (f.rule->id.starts_with("label/") && labels_asked_.contains(key_of(box.id, "labels"))))
    return unstated("a label that the box needs");
  if (earlier == nullptr) return std::nullopt;
  // No report tells the operating voltage: where the strings are as they were, it may only be stated no more.
  if (f.rule->id == "voltage/tracking-window" && value_changes(*earlier, box).empty())
    return unstated("the operating voltage of the strings, or the window");
  for (const ValueChange& change : value_changes(*earlier, box))
    if (std::holds_alternative<double>(change.before) &&
        std::holds_alternative<std::monostate>(change.after) && goes_by(f.rule->id, change.name->key))
      return unstated(std::string(change.name->words) +
                      (change.where.empty() ? "" : " (" + change.where + ")"));
  return std::nullopt;
}

Fate Reach::of_site(const Finding& f) const {
  if (after_.selected) return {Outcome::unseen, Reason::not_shown, {}};
  if (auto fate = not_judged(f, "")) return *fate;
  if (const std::string_view total = total_of(f); !total.empty() && after_.permit)
    if (std::find(after_.permit->begin(), after_.permit->end(), total) == after_.permit->end())
      return {Outcome::unseen, Reason::no_longer_stated, "site/permit/" + std::string(total)};
  const bool sums = f.rule->id == "site/totals" || f.rule->id.starts_with("current/");  // of what boxes have
  if (f.basis == Basis::design && !(sums && before_.basis == Basis::as_built)) return {};
  if (after_.basis == Basis::design && f.basis == Basis::as_built)
    return {Outcome::unseen, Reason::plan_only, {}};
  if (!not_counted_again_.empty()) return {Outcome::unseen, Reason::behind_site, not_counted_again_};
  return {};
}

Fate Reach::of_box(const Finding& f, const ReportedBox* earlier, const ReportedBox& box) const {
  if (auto fate = not_judged(f, box.id)) return *fate;
  if (auto fate = not_stated(f, earlier, box)) return *fate;
  if (hangs_on_others(f) && before_.basis == Basis::as_built) {
    std::string others;
    std::size_t named = 0;
    for (const std::string_view id : told_less_)
      if (id != f.box_id) name(others, named, id);
    if (!others.empty()) return {Outcome::unseen, Reason::behind_boxes, others};
  }
  const std::vector<std::string> keys = evidence(f, earlier);
  const bool on_site = f.basis == Basis::as_built || !keys.empty();
  if (!on_site) return {};
  if (after_.basis == Basis::design) return {Outcome::unseen, Reason::plan_only, {}};
  if (!box.visited()) return {Outcome::unseen, Reason::not_visited, {}};
  std::string missing;
  for (const std::string& key : keys)
    if (!states(box.looked_at, key)) missing.append(missing.empty() ? "" : ", ").append(key);
  if (!missing.empty()) return {Outcome::unseen, Reason::not_stated, missing};
  return {};
}

// A box of the field record that was not on the plan.
Fate Reach::of_stranger(const Finding& f) const {
  if (const auto now = boxes_after_.find(f.box_id); now != boxes_after_.end()) {
    if (f.rule->id == "tally/not-on-plan") return {Outcome::corrected, Reason::now_on_plan, {}};
    return of_box(f, nullptr, *now->second);
  }
  if (after_.selected) return {Outcome::unseen, Reason::not_shown, {}};
  if (after_.basis == Basis::design) return {Outcome::unseen, Reason::plan_only, {}};
  const auto misread = std::find_if(before_.findings.begin(), before_.findings.end(), [&](auto& other) {
    return other.finding.rule->id == "tally/not-on-plan" && other.finding.box_id == f.box_id;
  });
  if (misread != before_.findings.end()) {
    // One of the nearest ids on the plan: nobody had visited that box then, and somebody has now.
    const std::string* near = std::get_if<std::string>(&misread->finding.required);
    for (const std::string& id : ids_of(near != nullptr ? std::string_view(*near) : std::string_view())) {
      const auto then = boxes_before_.find(id), now = boxes_after_.find(id);
      if (then == boxes_before_.end() || now == boxes_after_.end() || then->second->visited() ||
          !now->second->visited())
        continue;
      Fate fate = of_box(f, nullptr, *now->second);
      if (fate.outcome == Outcome::corrected) fate = {Outcome::corrected, Reason::misread_id, id};
      return fate;
    }
  }
  // That the whole site was visited and nobody met it says that it is not there, and nothing of what was in
  // it.
  if (all_visited_ && f.rule->id == "tally/not-on-plan") return {Outcome::corrected, Reason::not_there, {}};
  return {Outcome::unseen, Reason::not_met, {}};
}

Fate Reach::fate_of(const Finding& f) const {
  if (f.box_id.empty()) return of_site(f);
  const auto earlier = boxes_before_.find(f.box_id);
  if (earlier == boxes_before_.end()) return of_stranger(f);
  const auto box = boxes_after_.find(f.box_id);
  if (box != boxes_after_.end()) return of_box(f, earlier->second, *box->second);
  return after_.selected ? Fate{Outcome::unseen, Reason::not_shown, {}}
                         : Fate{Outcome::dropped, Reason::none, {}};
}

}  // namespace boxproof
