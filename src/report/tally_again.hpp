// The sheet of a second visit in words: what its head says of the report behind it, and the lines of a box.
#pragma once

#include <string>
#include <vector>

#include "src/check/again.hpp"
#include "src/report/tally.hpp"

namespace boxproof::report {

std::vector<AgainLine> again_lines(const std::vector<AgainItem>& items);

SecondVisit second_visit(const ReportFile& report, const Again& again, const DesignFile& design,
                         const Edition& edition);

// How the boxes of the sheet were chosen: those of the report with something open, of them those of the
// patterns (empty: all). `sheet` has its boxes.
std::vector<std::string> how_again(const ReportFile& report, const Again& again, const TallySheet& sheet,
                                   const std::vector<std::string>& patterns);

// What a field record in CSV cannot close, since it has no column for it; empty: nothing.
std::string beyond_csv(const TallySheet& sheet);

}  // namespace boxproof::report
