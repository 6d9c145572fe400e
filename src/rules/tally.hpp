// The rules that hold a visited box against its plan and the label posted on it.
#pragma once

#include "boxproof/rule.hpp"

namespace boxproof {

extern const Rule tally_strings, tally_polarity, tally_series, tally_transposed, tally_label, tally_fuse,
    tally_mixed_fuses, tally_part, tally_not_visited, tally_not_on_plan;

}  // namespace boxproof
