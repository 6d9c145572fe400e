// The rules that judge what was measured on the strings of a visited box.
#pragma once

#include "boxproof/rule.hpp"

namespace boxproof {

extern const Rule measured_series_count, measured_spread, measured_reversed, measured_current,
    measured_insulation;

}  // namespace boxproof
