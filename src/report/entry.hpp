// Findings as entries of a text report.
#pragma once

#include "boxproof/report.hpp"

namespace boxproof::report {

// Groups the findings and writes an entry for each, under a heading a severity. Says so where there are none.
void write_entries(const ReportInput& report, const std::vector<Finding>& findings, const Write& write);

// What the plan has and the box as found has no longer.
void write_gone(const ReportInput& r, const std::vector<Finding>& gone, const Write& write);

}  // namespace boxproof::report
