// How near the boxes of a site come to their limits, as a chart that shows the near misses.
#pragma once

#include "boxproof/report.hpp"

namespace boxproof::report {

// An element of the page: a figure with its caption. Nothing in it needs a script or a style sheet other than
// "drawing". Links go to "#box-N", N the index of the box in the design.
void write_margin_chart(const ReportInput& report, const Write& write);

}  // namespace boxproof::report
