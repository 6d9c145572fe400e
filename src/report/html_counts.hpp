// Plan, label and box side by side: what somebody counts who stands in front of it.
#pragma once

#include <string>

#include "boxproof/report.hpp"

namespace boxproof::report {

// A table. `found` are the facts of the box as found; where nobody was there, those of the plan.
std::string count_table(const ReportInput& report, const BoxResult& box, const BoxFacts& found);

}  // namespace boxproof::report
