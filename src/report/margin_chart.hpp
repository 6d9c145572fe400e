// How near the boxes of a site come to their limits, as a chart that shows the near misses below what is
// worse.
#pragma once

#include "src/report/html_sections.hpp"

namespace boxproof::report {

// An element of the page: a figure with its caption. Nothing in it needs a script or a style sheet other than
// "drawing". Links go to "#box-N", N the index of the box in the design, and to "#finding-N".
void write_margin_chart(const PageIndex& page, const Write& write);

}  // namespace boxproof::report
