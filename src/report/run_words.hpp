// What the reports of many designs for people say in the same words.
#pragma once

#include <string>

#include "boxproof/run_report.hpp"

namespace boxproof::report {

// Whether a design has anything to be told by itself: findings, or some that were set aside.
bool has_section(const ReportInput& report);

// Whether it was judged otherwise than by its own values and the edition as published.
bool is_changed(const ReportInput& report);

// "3 designs, 1 not judged"
std::string designs_words(const RunTotals& totals);
// "1 to stop, 2 to accept; 1 not judged; 4 files skipped, which are no designs"
std::string verdicts_words(const RunTotals& totals);
// "10 hazards, 1 correction, 0 queries, 2 pieces of advice (of them 3 on the baseline)"
std::string counts_words(const RunTotals& totals);

}  // namespace boxproof::report
