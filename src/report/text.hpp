// Parts of the report for people that a report over many designs has too.
#pragma once

#include "boxproof/report.hpp"

namespace boxproof::report {

// Name, place and size of the site, and what the reader must know before believing the report.
void write_site(const ReportInput& report, const Write& write);

// The verdict with the counts of boxes and findings.
void write_verdict(const ReportInput& report, const Write& write);

}  // namespace boxproof::report
