// What becomes of the boxes in which something was seen.
#pragma once

#include "boxproof/report.hpp"

namespace boxproof::report {

// A line a box: its one disposition and all that was seen. Nothing where nothing was seen.
void write_dispositions(const ReportInput& report, const Write& write);

}  // namespace boxproof::report
