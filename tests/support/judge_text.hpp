// Judgements of texts as they stand, and under an edition that is in memory already: for tests that judge
// hundreds of designs.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "tests/support/judge.hpp"

namespace boxproof::test {

// An empty record: the plan alone.
std::unique_ptr<Judged> judge_text(std::string design, const Edition& edition, std::string record = {});

// Everything that is said, a line a finding: fingerprint, basis, severity, section, message. Sorted; without
// places, and without what a finding adds of the box as found where `as_found` is false.
std::vector<std::string> said(const std::vector<Finding>& findings, bool as_found = true);

// The lines that only one of two such lists has: "- " of the first, "+ " of the second.
std::vector<std::string> differences(const std::vector<std::string>& a, const std::vector<std::string>& b);
inline const std::vector<std::string> no_difference;

}  // namespace boxproof::test
