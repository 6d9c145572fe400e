#include "src/report/evidence.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "boxproof/rule.hpp"
#include "src/report/layout.hpp"

namespace boxproof::report {
namespace {

// The sheets that the boxes are on, each once: "sheets E-201…E-203"; "the plan" where none is named.
std::string sheets_of(const Group& g, const ReportInput& r) {
  std::vector<std::string_view> sheets;
  for (const Finding* f : g.findings) {
    if (!f->box) continue;
    const std::string& sheet = r.design.design.combiners[*f->box].sheet;
    if (!sheet.empty() && std::find(sheets.begin(), sheets.end(), sheet) == sheets.end())
      sheets.emplace_back(sheet);
  }
  if (sheets.empty()) return "the plan";
  return fmt::format("{} {}", sheets.size() == 1 ? "sheet" : "sheets", run_together(sheets));
}

std::string answer_with(const std::string& sheets) {
  return fmt::format("the answer, and {} with it", sheets);
}

std::string proof(const Finding& f, const std::string& sheets) {
  const std::string_view topic = f.rule->id.substr(0, f.rule->id.find('/'));
  constexpr std::string_view photo = "with the id of the box in the picture";
  if (f.severity == Severity::query)
    return topic == "tally" || topic == "condition" || topic == "measured" || topic == "label"
               ? std::string("the answer, in a field record that has it")
               : answer_with(sheets);
  if (topic == "condition") return fmt::format("a photo of the part as it is then, {}", photo);
  if (topic == "label") return fmt::format("a photo of the label in its place, {}", photo);
  if (topic == "measured")
    return "readings of the same strings taken again, with irradiance and cell temperature";
  return fmt::format(
      "the box counted and read again in a field record; where the plan is changed instead, {}, revised",
      sheets);
}

}  // namespace

bool is_on_site(const Finding& f, const ReportInput& r) {
  return r.record != nullptr && f.basis == Basis::as_built;
}

std::string evidence(const Group& g, const ReportInput& r) {
  const std::string sheets = sheets_of(g, r);
  if (is_on_site(g.first(), r)) return proof(g.first(), sheets);
  return g.first().severity == Severity::query ? answer_with(sheets) : sheets + ", revised";
}

}  // namespace boxproof::report
