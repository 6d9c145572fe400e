// What to do where a part differs from the plan and the plan's own part breaks a rule: not what the tally
// rules say, for the part of the plan must not be fitted. Likewise of strings that are longer on the plan
// than a limit lets them be, and of a label that says what is there.
#pragma once

#include <span>

#include "boxproof/finding.hpp"

namespace boxproof {

// Findings of one box: of the plan and standing on the box as found, too (`both`), of the plan alone
// (`gone`), of the box as found alone (`built`). Gives those of `tally` that such a breach concerns another
// `ask`.
void ask_for_another_plan(std::span<Finding> tally, std::span<const Finding> both,
                          std::span<const Finding> gone, std::span<const Finding> built);

}  // namespace boxproof
