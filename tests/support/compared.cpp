#include "tests/support/compared.hpp"

#include <algorithm>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"

namespace boxproof::test {

Json report_json(const Judged& judged) {
  return Json::parse(json_report(judged));
}

Json plan_report(const Json& design, const CheckOptions& options) {
  return report_json(*judge(design, {}, nullptr, options));
}

Json visit_report(const Json& design, const Json& boxes, const CheckOptions& options) {
  return report_json(*judge(design, {}, {{"format", "boxproof-asbuilt/1"}, {"boxes", boxes}}, options));
}

std::vector<std::string> ComparedReports::fates(std::string_view rule, std::string_view box) const {
  std::vector<std::string> out;
  for (const Compared& c : comparison.findings) {
    const Finding& f = c.finding();
    if (f.rule->id != rule || (!box.empty() && f.box_id != box)) continue;
    std::string& fate = out.emplace_back(outcome_names[static_cast<std::size_t>(c.outcome)]);
    if (c.reason != Reason::none) fate.append(" ").append(reason_names[static_cast<std::size_t>(c.reason)]);
    if (!c.detail.empty()) fate += " " + c.detail;
  }
  std::sort(out.begin(), out.end());
  return out;
}

std::string ComparedReports::fate(std::string_view rule, std::string_view box) const {
  const auto all = fates(rule, box);
  CAPTURE(std::string(rule), all);
  REQUIRE(all.size() <= 1);
  return all.empty() ? "none" : all.front();
}

bool ComparedReports::remarks(std::string_view text) const {
  return std::any_of(comparison.remarks.begin(), comparison.remarks.end(),
                     [&](const std::string& remark) { return remark.find(text) != std::string::npos; });
}

std::unique_ptr<ComparedReports> compare_reports(const Json& before, const Json& after) {
  auto out = std::make_unique<ComparedReports>();
  const Document one{"before.json", before.dump()}, two{"after.json", after.dump()};
  out->before = read_report(one);
  out->after = read_report(two);
  out->comparison = compare(out->before, out->after);
  return out;
}

}  // namespace boxproof::test
