#include "src/check/again.hpp"

#include <algorithm>

#include "src/check/compare_evidence.hpp"
#include "src/check/compare_reach.hpp"

namespace boxproof {
namespace {

// A rule on aluminum or on fine strands asks for one value more, where the first is as it was.
std::vector<std::string> next_keys(const Finding& f, const std::vector<std::string>& keys) {
  const auto first = [&](std::string_view key) {
    return std::find(keys.begin(), keys.end(), key) != keys.end();
  };
  if (f.rule->id == "conductor/aluminum" && first("output/material")) return {"output/antioxidant"};
  if (f.rule->id == "conductor/fine-strand" && first("output/stranding"))
    return {"output/lug_for_fine_strand"};
  return {};
}

}  // namespace

Again look_again(const ReportFile& report, const Design& design) {
  Again out;
  out.boxes.resize(design.combiners.size());
  out.agreed = report.agreed.size();
  const BoxesById reported = by_id(report);
  std::unordered_map<std::string_view, std::size_t> place;
  for (std::size_t i = 0; i < design.combiners.size(); ++i) place.emplace(design.combiners[i].id, i);
  for (const ReportedFinding& entry : report.findings) {
    const Finding& f = entry.finding;
    if (f.severity > Severity::query) {
      ++out.advice;
      continue;
    }
    const bool found = f.basis == Basis::as_built;
    if (f.box_id.empty()) {
      found ? out.site.push_back(&f) : static_cast<void>(++out.of_plan);
      continue;
    }
    const auto box = place.find(f.box_id);
    if (box == place.end()) {
      out.strangers.push_back(&f);
      continue;
    }
    const auto then = reported.find(f.box_id);
    std::vector<std::string> keys = evidence(f, then == reported.end() ? nullptr : then->second);
    if (!found && keys.empty()) keys = keys_on_site(f);
    if (!found && keys.empty()) {
      ++out.of_plan;
      continue;
    }
    std::vector<std::string> more = next_keys(f, keys);
    out.boxes[box->second].push_back({&f, std::move(keys), std::move(more)});
  }
  for (std::vector<AgainItem>& items : out.boxes)
    std::stable_sort(items.begin(), items.end(), [](const AgainItem& a, const AgainItem& b) {
      return a.finding->severity < b.finding->severity;
    });
  return out;
}

}  // namespace boxproof
