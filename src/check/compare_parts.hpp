// Parts of a comparison that hang on the two reports alone, not on their findings.
#pragma once

#include <string>
#include <vector>

#include "boxproof/compare.hpp"

namespace boxproof {

// The computed values, and the disposition, that differ between two reports of a box.
std::vector<ValueChange> value_changes(const ReportedBox& before, const ReportedBox& after);

// What the reader must know before believing the comparison: what makes the two reports not comparable, or
// not wholly. A sentence each; names from the files stand in them as they are there.
std::vector<std::string> compare_remarks(const ReportFile& before, const ReportFile& after);

}  // namespace boxproof
