#include "src/report/junit_cases.hpp"

#include <algorithm>
#include <iterator>
#include <map>

namespace boxproof::report {
namespace {

bool nobody_was_there(const ReportInput& r, const BoxResult& box) {
  return r.record != nullptr && (!box.visited || r.record->record.boxes[*box.visited].says_nothing());
}

}  // namespace

std::vector<JunitCase> junit_cases(const ReportInput& r) {
  const Judgement& j = r.judgement;
  JunitCase site;
  site.name = "site";
  std::vector<JunitCase> boxes(j.boxes.size());
  std::map<std::string_view, JunitCase> strangers;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    boxes[i].name = r.design.design.combiners[j.boxes[i].index].id;
    boxes[i].unvisited = nobody_was_there(r, j.boxes[i]);
    if (boxes[i].name == site.name) site.name = "site (not the box of this id)";
  }
  const auto case_of = [&](const Finding& f) -> JunitCase& {
    if (f.box) {
      const auto at =
          std::lower_bound(j.boxes.begin(), j.boxes.end(), *f.box,
                           [](const BoxResult& box, std::uint32_t index) { return box.index < index; });
      return boxes[static_cast<std::size_t>(at - j.boxes.begin())];
    }
    if (f.box_id.empty()) return site;
    JunitCase& stranger = strangers[f.box_id];
    stranger.name = f.box_id + " (not on the plan)";
    return stranger;
  };
  for (const Finding& f : j.findings) case_of(f).findings.push_back(&f);
  for (const AgreedFinding& a : j.agreed) case_of(a.finding).agreed.push_back(&a);

  std::vector<JunitCase> out;
  if (!j.selected || !site.findings.empty()) out.push_back(std::move(site));
  std::move(boxes.begin(), boxes.end(), std::back_inserter(out));
  for (auto& [id, stranger] : strangers) out.push_back(std::move(stranger));
  return out;
}

}  // namespace boxproof::report
