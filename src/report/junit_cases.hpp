// What the cases of a JUnit report are about.
#pragma once

#include <string>
#include <vector>

#include "boxproof/report.hpp"

namespace boxproof::report {

struct JunitCase {
  std::string name;
  bool unvisited = false;  // in a field check: nobody was at the box
  std::vector<const Finding*> findings;
  std::vector<const AgreedFinding*> agreed;
};

// The site, unless only some boxes are shown; the boxes in the order of the plan; by their ids those that are
// not on it. Every finding is in one of them.
std::vector<JunitCase> junit_cases(const ReportInput& report);

}  // namespace boxproof::report
