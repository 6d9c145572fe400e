// The rules on the enclosure: whether it suits its place, stands off the wall, and is listed.
#pragma once

#include "boxproof/rule.hpp"

namespace boxproof {

extern const Rule enclosure_type, enclosure_air_gap, enclosure_not_listed;

}  // namespace boxproof
