// The rules on what the system behind the box must have: ground-fault and arc-fault protection, rapid
// shutdown.
#pragma once

#include "boxproof/rule.hpp"

namespace boxproof {

extern const Rule protection_ground_fault, protection_arc_fault, protection_rapid_shutdown;

}  // namespace boxproof
