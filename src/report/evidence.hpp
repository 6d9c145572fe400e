// What whoever corrects a finding hands in, or shows on site.
#pragma once

#include <string>

#include "boxproof/report.hpp"
#include "src/report/groups.hpp"

namespace boxproof::report {

// Whether it is settled at the box and not on the plan.
bool is_on_site(const Finding& finding, const ReportInput& report);

// "sheet E-201, revised"; on site the evidence that it was done. One phrase for all findings of the group.
std::string evidence(const Group& group, const ReportInput& report);

}  // namespace boxproof::report
