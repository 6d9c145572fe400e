#include "boxproof/compare.hpp"

#include <algorithm>
#include <tuple>

#include "src/check/compare_match.hpp"
#include "src/check/compare_parts.hpp"
#include "src/check/compare_reach.hpp"

namespace boxproof {
namespace {

// Where a rule spoke of a box: the parts.
class Parts {
 public:
  void add(const Finding& f) { parts_.try_emplace(key(f), f.part); }
  const std::string* of(const Finding& f) const {
    const auto found = parts_.find(key(f));
    return found == parts_.end() ? nullptr : &found->second;
  }

 private:
  static std::string key(const Finding& f) { return f.box_id + '\n' + std::string(f.rule->id); }
  std::unordered_map<std::string, std::string> parts_;
};

class Comparer {
 public:
  Comparer(const ReportFile& before, const ReportFile& after)
      : before_(before), after_(after), then_(items_of(before)), now_(items_of(after)) {
    pair_findings(then_, now_);
    std::vector<const ReportedFinding*> fresh;
    for (const Item& item : now_)
      if (item.match == nullptr) {
        fresh.push_back(item.finding);
        new_parts_.add(item.finding->finding);
      }
    for (const Item& item : then_)
      if (item.match == nullptr) old_parts_.add(item.finding->finding);
    reach_.emplace(before, after, fresh);
    for (const ReportedFinding& f : after.gone) ++gone_now_[f.fingerprint];
    for (const ReportedFinding& f : before.gone) ++gone_then_[f.fingerprint];
    const Edition edition = load_edition(before.edition);
    for (const auto& [id, section] : edition.rules) rules_before_.emplace(id);
  }

  Comparison compare() {
    Comparison out;
    out.before = &before_;
    out.after = &after_;
    for (const Item& item : now_) out.findings.push_back(of_after(item));
    for (const Item& item : then_)
      if (item.match == nullptr) out.findings.push_back(of_before(item));
    std::stable_sort(out.findings.begin(), out.findings.end(), [](const Compared& a, const Compared& b) {
      const Finding &x = a.finding(), &y = b.finding();
      return std::tie(a.outcome, x.severity, x.rule->id) < std::tie(b.outcome, y.severity, y.rule->id);
    });
    boxes(out);
    out.remarks = compare_remarks(before_, after_);
    out.nothing_changed = out.changed.empty() && out.new_boxes.empty() && out.dropped_boxes.empty() &&
                          std::all_of(now_.begin(), now_.end(), [](auto& i) { return stays(i); }) &&
                          std::all_of(then_.begin(), then_.end(), [](auto& i) { return stays(i); });
    return out;
  }

 private:
  static bool stays(const Item& item) {
    return item.match != nullptr && is_same(item, Item{item.match, item.match_agreed, nullptr, false});
  }

  Compared of_after(const Item& item) {
    Compared out{Outcome::open, Reason::none, {}, item.match, item.finding};
    if (item.agreed) {
      out.outcome = Outcome::agreed;
      out.reason = item.match == nullptr ? Reason::agreed_new
                   : item.match_agreed   ? Reason::agreed_before
                                         : Reason::agreed_now;
    } else if (item.match == nullptr) {
      out.outcome = Outcome::appeared;
      why_new(out);
    } else if (item.match_agreed) {
      out.outcome = Outcome::reopened;
    }
    return out;
  }

  void why_new(Compared& out) {
    const Finding& f = out.after->finding;
    const BoxesById& then = reach_->boxes_before();
    const auto earlier = then.find(f.box_id);
    const bool on_plan_now = reach_->boxes_after().contains(f.box_id);
    const bool known = earlier != then.end();
    if (before_.selected && !known)
      out.reason = Reason::not_shown_before;
    else if (on_plan_now && !known)
      out.reason = Reason::new_box;
    else if (f.rule->id == "tally/not-visited" && known && earlier->second->visited())
      out.reason = Reason::visited_before;
    else if (take(gone_then_, out.after->fingerprint))
      out.reason = Reason::was_gone;
    else if (!rules_before_.contains(std::string(f.rule->id)))
      out.reason = Reason::no_rule_before;
    else if (const std::string* part = old_parts_.of(f)) {
      out.reason = Reason::other_part;
      out.detail = *part;
    } else if (f.basis == Basis::as_built && f.rule->id != "tally/not-visited" && known &&
               !earlier->second->visited())
      out.reason = Reason::first_visit;
  }

  Compared of_before(const Item& item) {
    Compared out{Outcome::corrected, Reason::none, {}, item.finding, nullptr};
    const Finding& f = item.finding->finding;
    const bool gone = take(gone_now_, item.finding->fingerprint);
    Fate fate = reach_->fate_of(f);
    // The box as found has it no longer; but not where less is stated than was, or the rule runs otherwise.
    if (gone && fate.outcome == Outcome::corrected) {
      out.reason = Reason::as_found;
      return out;
    }
    out.outcome = fate.outcome;
    out.reason = fate.reason;
    out.detail = std::move(fate.detail);
    if (item.agreed && out.outcome == Outcome::unseen) {
      out.outcome = Outcome::agreed;  // it was, and nothing shows that it is not any more
      out.reason = Reason::agreed_unseen;
      out.detail.clear();
    } else if (out.outcome == Outcome::corrected && out.reason == Reason::none) {
      if (item.agreed) {
        out.reason = Reason::was_agreed;
      } else if (const std::string* part = new_parts_.of(f)) {
        out.reason = Reason::now_part;
        out.detail = *part;
      }
    }
    return out;
  }

  static bool take(std::unordered_map<std::uint64_t, std::size_t>& left, std::uint64_t fingerprint) {
    const auto at = left.find(fingerprint);
    if (at == left.end() || at->second == 0) return false;
    --at->second;
    return true;
  }

  void boxes(Comparison& out) const {
    const BoxesById &then = reach_->boxes_before(), &now = reach_->boxes_after();
    std::unordered_set<std::string_view> found_now, found_then;
    const auto note = [](const ReportFile& report, std::unordered_set<std::string_view>& ids) {
      for (const ReportedFinding& f : report.findings)
        if (f.finding.severity != Severity::advice) ids.insert(f.finding.box_id);
    };
    note(before_, found_then);
    note(after_, found_now);
    for (const Compared& c : out.findings)  // nobody knows that they are as they should be
      if (c.outcome == Outcome::unseen && c.finding().severity != Severity::advice)
        found_now.insert(c.finding().box_id);
    for (const ReportedBox& box : after_.boxes) {
      const auto earlier = then.find(box.id);
      if (earlier == then.end()) {
        if (!before_.selected) out.new_boxes.push_back(box.id);
        continue;
      }
      if (found_now.contains(box.id)) continue;
      ChangedBox changed{earlier->second, &box, value_changes(*earlier->second, box),
                         found_then.contains(box.id)};
      if (!changed.changes.empty() || box.verdict != earlier->second->verdict)
        out.changed.push_back(std::move(changed));
    }
    if (after_.selected) return;
    for (const ReportedBox& box : before_.boxes)
      if (!now.contains(box.id)) out.dropped_boxes.push_back(box.id);
  }

  const ReportFile& before_;
  const ReportFile& after_;
  std::vector<Item> then_, now_;
  Parts old_parts_, new_parts_;
  std::optional<Reach> reach_;
  std::unordered_map<std::uint64_t, std::size_t> gone_then_, gone_now_;
  std::unordered_set<std::string> rules_before_;
};

}  // namespace

Comparison::Counts Comparison::counts(Outcome outcome) const {
  Counts out{};
  for (const Compared& c : findings)
    if (c.outcome == outcome) ++out[static_cast<std::size_t>(c.finding().severity)];
  return out;
}

Comparison::Counts Comparison::open_counts() const {
  Counts out{};
  for (const Compared& c : findings)
    if (is_open(c.outcome)) ++out[static_cast<std::size_t>(c.finding().severity)];
  return out;
}

Comparison::Counts Comparison::beyond_verdict() const {
  Counts out = counts(Outcome::unseen);
  const auto covers = [this](Severity severity) {
    switch (after->verdict) {
      case Verdict::stop: return true;
      case Verdict::correct: return severity >= Severity::correction;
      case Verdict::clarify: return severity >= Severity::query;
      default: return severity >= Severity::advice;
    }
  };
  for (std::size_t i = 0; i < out.size(); ++i)
    if (covers(static_cast<Severity>(i))) out[i] = 0;
  return out;
}

Comparison compare(const ReportFile& before, const ReportFile& after) {
  return Comparer(before, after).compare();
}

}  // namespace boxproof
