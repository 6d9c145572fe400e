// A report over one run: any number of designs, told together.
//
// The program asks for the piece of each design from several threads, takes the pieces in the order of the
// run and then finishes. Nothing is written before all is known: where a consumer has a limit, the worst
// stands first.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/input_error.hpp"
#include "boxproof/report.hpp"

namespace boxproof {

// One design of a run: judged, or not read.
struct RunDesign {
  std::string_view path;                // as messages show it
  const ReportInput* judged = nullptr;  // null: the design or an input beside it could not be read
  const InputError* unread = nullptr;   // then why
};

// What a design gives to the report of the run. Each report uses what it needs.
struct RunPiece {
  std::string text;  // about the design as a whole
  // A finding each, in report order, by severity: so that the worst of all designs can stand first.
  std::array<std::vector<std::string>, severity_names.size()> findings;
  // Likewise those that are no news: on the baseline, or agreed. Only where a report keeps them apart.
  std::array<std::vector<std::string>, severity_names.size()> set_aside;
  // Findings for which a report with a limit has no room in any case, by severity.
  std::array<std::size_t, severity_names.size()> left_out{};
  std::vector<std::size_t> numbers;  // what the report adds up
  std::string row;                   // of a table of all designs
};

// What the whole run came to.
struct RunTotals {
  std::size_t designs = 0;                                  // judged
  std::size_t unread = 0;                                   // designs that could not be judged
  std::size_t skipped = 0;                                  // files that nobody named and that are no designs
  std::array<std::size_t, severity_names.size()> counts{};  // findings by severity, those on the baseline too
  std::array<std::size_t, severity_names.size()> known{};   // of them on the baseline
  // What the run says of the exceptions and the baseline beside it, a sentence each; words of files are in
  // it.
  std::vector<std::string> remarks;
  std::array<std::size_t, verdict_names.size()> verdicts{};  // judged designs by verdict
};

class RunReport {
 public:
  virtual ~RunReport() = default;
  // Called from several threads at once.
  virtual RunPiece piece(const RunDesign& design) const = 0;
  // In the order of the run. Nothing is kept that finish() does not need.
  virtual void take(RunPiece piece, const Write& write) = 0;
  virtual void finish(const RunTotals& totals, const Write& write) = 0;
};

// SARIF 2.1.0 (OASIS), for code hosts.
std::unique_ptr<RunReport> sarif_report();

// JUnit XML: a suite a design, a case a box. A case fails where it makes the run fail: by a finding at or
// above `fail_on` that is not on the baseline.
std::unique_ptr<RunReport> junit_report(Severity fail_on);

// Workflow-command lines, worst first.
std::unique_ptr<RunReport> annotations_report();

// For people: the designs that have findings, one by one, and a table of all of them last.
std::unique_ptr<RunReport> text_report(bool colour);

// The correction lists of all designs in one text.
std::unique_ptr<RunReport> markdown_report();

// boxproof-reports/1: a boxproof-report/1 a design.
std::unique_ptr<RunReport> json_report();

}  // namespace boxproof
