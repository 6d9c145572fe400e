// The correction list of one design, for a text of its own or as a part of a longer one.
#pragma once

#include "boxproof/report.hpp"

namespace boxproof::report {

// All of it but the title and the caution; headings are of the second level.
void write_corrections(const ReportInput& report, const Write& write);

}  // namespace boxproof::report
