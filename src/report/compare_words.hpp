// What comparisons say for people, whatever their format. What comes from a file is made plain().
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/compare.hpp"
#include "src/report/groups.hpp"

namespace boxproof::report {

// "STILL OPEN" and what it means.
struct OutcomeWords {
  std::string_view heading, meaning;
};
OutcomeWords words_of(Outcome outcome);

// Why it became that; empty where the outcome says it all.
std::string reason_words(const Compared& compared, const Comparison& comparison);
// "was a query, now a correction; found was 1022.7 V, now 1012.4 V"; empty where nothing differs.
std::string change_words(const Compared& compared);

// "field check of 2027-03-18, NEC 2017: STOP"
std::string report_words(const ReportFile& report);
// Behind the two verdicts: what the later one means; or that it holds for what that report looked at, and
// what else is open.
std::string verdict_words(const Comparison& comparison);
// "Of 32 findings before, 25 are corrected, … 2 findings are new."
std::string summary(const Comparison& comparison);
// "1 hazard, 2 corrections"; "nothing" where there are none.
std::string counts_words(const Comparison::Counts& counts);

// The same finding on many boxes, become the same for the same reason.
struct ComparedGroup {
  Group group;
  std::vector<const Compared*> all;
  const Compared& first() const { return *all.front(); }
};
// Those of one outcome: worst first, then by rule.
std::vector<ComparedGroup> groups_of(const Comparison& comparison, Outcome outcome);
// How the findings of a group differ from before: one line, or one a box (a few of them).
std::vector<std::string> changes_of(const ComparedGroup& group);

// Boxes that changed alike.
struct ChangedGroup {
  std::string boxes, what;
  std::size_t count = 0;
  bool asked = false;
};
// Those first where nothing was asked for.
std::vector<ChangedGroup> changed_groups(const Comparison& comparison);

}  // namespace boxproof::report
