// Two reports, made by the program or changed by hand, and the comparison of them.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/compare.hpp"
#include "tests/support/judge.hpp"

namespace boxproof::test {

// The report of a judgement, to be changed before it is compared.
Json report_json(const Judged& judged);
// The same of a design, and of a visit to it: `boxes` of a field record.
Json plan_report(const Json& design, const CheckOptions& options = {});
Json visit_report(const Json& design, const Json& boxes, const CheckOptions& options = {});

// Owns the reports that a comparison points to.
struct ComparedReports {
  ReportFile before, after;
  Comparison comparison;

  // What became of the findings of a rule: "still-open", "corrected as-found", "not-looked-at-again
  // not-stated fuse/a"; of several sorted. Those of one box only, if it is named.
  std::vector<std::string> fates(std::string_view rule, std::string_view box = {}) const;
  // The one of them; fails the test if there are several, "none" if there is none.
  std::string fate(std::string_view rule, std::string_view box = {}) const;
  bool remarks(std::string_view text) const;  // whether one of the remarks has it
};
std::unique_ptr<ComparedReports> compare_reports(const Json& before, const Json& after);

}  // namespace boxproof::test
