// What else of the field record a finding of a box as found was computed from, besides the value at its
// place.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/finding.hpp"

namespace boxproof {

// Keys of the record among those that were looked at (ReportedBox::looked_at). A finding is not shown to be
// gone by a look at its place alone: where 19 modules in series were over the rating of a fuse, the rating
// seen again says nothing while nobody counted the modules again.
std::vector<std::string> record_inputs(const Finding& finding, std::string_view looked_at);

// Those among them that a later look does not have again.
std::vector<std::string> not_again(std::string_view group, std::string_view looked_at,
                                   std::string_view later);

}  // namespace boxproof
