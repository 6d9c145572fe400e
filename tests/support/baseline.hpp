// Baselines made of judgements, and put beside others.
#pragma once

#include <string>
#include <vector>

#include "boxproof/baseline.hpp"
#include "tests/support/judge.hpp"

namespace boxproof::test {

// Of these findings, as read back from its file ("baseline.json", of 2027-03-18, "existing").
Baseline baseline_of(const Judgement& judgement, std::string_view design = "design.json");

// The judgement with the baseline beside it.
void hold_beside(Judged& judged, const Baseline& baseline, std::string_view design = "design.json");

// "rule severity part" of the findings that are not on the baseline, of those on it, and of entries.
std::vector<std::string> fresh(const Judged& judged);
std::vector<std::string> known(const Judged& judged);
std::vector<std::string> names_of(const std::vector<BaselineEntry>& entries);

}  // namespace boxproof::test
