// What somebody must look at again before a finding of a box as found can be called corrected.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/compare.hpp"

namespace boxproof {

// Keys of the field record behind a finding of the earlier report: the value that made it appear or, of a
// finding of plan and box alike, what the record said of the same value. Empty where it is of the plan alone,
// or where any visit would show it. `box` is its box in that report; null: a box that is not on the plan.
std::vector<std::string> evidence(const Finding& finding, const ReportedBox* box);

// Keys of the record that can show a finding of the plan to be otherwise on the box itself, whether or not
// anybody looked at them. Empty where only the plan can be corrected.
std::vector<std::string> keys_on_site(const Finding& finding);

// Whether the record states the key ("fuse/a"), anything of the group ("fuse") or of any string
// ("measured/*/voc_v").
bool states(std::string_view looked_at, std::string_view key);

}  // namespace boxproof
