// What is on a baseline, marked in a judgement.
#include "boxproof/baseline.hpp"

#include <algorithm>
#include <set>
#include <span>
#include <tuple>

#include "boxproof/check.hpp"
#include "boxproof/rule.hpp"

namespace boxproof {
namespace {

// A finding or an entry under its fingerprint.
template <class T>
struct Printed {
  std::string fingerprint;
  Severity severity;
  T* what;
};

// By fingerprint, of one fingerprint the gravest first.
template <class T>
void sort_printed(std::vector<Printed<T>>& list) {
  std::stable_sort(list.begin(), list.end(), [](const Printed<T>& a, const Printed<T>& b) {
    const int order = a.fingerprint.compare(b.fingerprint);
    return order != 0 ? order < 0 : a.severity < b.severity;
  });
}

// Those of one fingerprint, in a sorted list; `from` is behind those of the one before, and goes behind them.
template <class T>
std::span<Printed<T>> run_of(std::vector<Printed<T>>& list, std::size_t& from, std::string_view fingerprint) {
  while (from < list.size() && list[from].fingerprint < fingerprint) ++from;
  const std::size_t first = from;
  while (from < list.size() && list[from].fingerprint == fingerprint) ++from;
  return std::span(list).subspan(first, from - first);
}

// Of the boxes that were judged: nobody looked for the others.
std::vector<Printed<const BaselineEntry>> entries_for(const Judgement& j, const Design& design,
                                                      const Baseline& baseline, std::string_view path) {
  std::set<std::string_view> shown;
  if (j.selected)
    for (const BoxResult& b : j.boxes) shown.insert(design.combiners[b.index].id);
  std::vector<Printed<const BaselineEntry>> out;
  const auto first = std::partition_point(baseline.entries.begin(), baseline.entries.end(),
                                          [&](const BaselineEntry& e) { return e.design < path; });
  for (auto e = first; e != baseline.entries.end() && e->design == path; ++e)
    if (!j.selected || shown.contains(e->box)) out.push_back({e->fingerprint, e->severity, &*e});
  sort_printed(out);
  return out;
}

// Of one fingerprint: the gravest finding first, each under the mildest entry that has it, so that as many as
// possible are covered and no graver ones than there were.
void cover(std::span<Printed<Finding>> findings, std::span<Printed<const BaselineEntry>> entries) {
  for (Printed<Finding>& f : findings) {
    if (f.severity == Severity::hazard) continue;
    const auto entry = std::find_if(entries.rbegin(), entries.rend(), [&](const auto& e) {
      return e.what != nullptr && e.severity <= f.severity;
    });
    if (entry == entries.rend()) continue;
    f.what->known = true;
    entry->what = nullptr;
  }
}

}  // namespace

void mark_known(Judgement& j, const Design& design, const Baseline& baseline, std::string_view path) {
  BaselineUse& use = j.baseline.emplace();
  use.name = baseline.name;
  use.reason = baseline.reason;
  use.date = baseline.date;
  auto entries = entries_for(j, design, baseline, path);
  if (entries.empty()) return;
  std::vector<Printed<Finding>> findings, agreed;
  for (Finding& f : j.findings) findings.push_back({fingerprint(f), f.severity, &f});
  for (AgreedFinding& a : j.agreed)
    agreed.push_back({fingerprint(a.finding), a.finding.severity, &a.finding});
  sort_printed(findings);
  sort_printed(agreed);
  std::size_t at_finding = 0, at_agreed = 0;
  for (std::size_t at = 0; at < entries.size();) {
    const std::string_view print = entries[at].fingerprint;
    const auto own = run_of(entries, at, print);
    const auto found = run_of(findings, at_finding, print);
    cover(found, own);
    // What is left over: its finding is set aside by agreement, or is graver by now, or is there no more.
    std::size_t aside = run_of(agreed, at_agreed, print).size();
    auto graver = static_cast<std::size_t>(
        std::count_if(found.begin(), found.end(), [](const auto& f) { return !f.what->known; }));
    for (const auto& entry : own) {
      if (entry.what == nullptr) continue;
      if (aside > 0) {
        --aside;
      } else if (graver > 0) {
        use.graver.push_back(*entry.what);
        --graver;
      } else {
        use.stale.push_back(*entry.what);
      }
    }
  }
  for (auto* list : {&use.stale, &use.graver}) std::sort(list->begin(), list->end(), comes_before);
}

bool comes_before(const BaselineEntry& a, const BaselineEntry& b) {
  return std::tie(a.design, a.box, a.rule, a.part, a.severity, a.fingerprint) <
         std::tie(b.design, b.box, b.rule, b.part, b.severity, b.fingerprint);
}

std::vector<BaselineEntry> entries_of(const Judgement& j, std::string_view path) {
  std::vector<BaselineEntry> out;
  for (const Finding& f : j.findings) {
    if (f.severity == Severity::hazard) continue;
    BaselineEntry& e = out.emplace_back();
    e.design = path;
    e.fingerprint = fingerprint(f);
    e.rule = f.rule->id;
    e.box = f.box_id;
    e.part = f.part;
    e.severity = f.severity;
  }
  return out;
}

}  // namespace boxproof
