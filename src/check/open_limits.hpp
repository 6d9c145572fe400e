// Of which kind a limit of a box, or what is held against it, is not stated: such a box must not pass for one
// that is far from all of its limits.
#pragma once

#include "boxproof/calculate.hpp"

namespace boxproof {

struct OpenLimits {
  bool voltage = false;   // a string's voltage, or the voltage that a part or a wire is rated for
  bool current = false;   // the amperes of the box, of its switch or of its fuses
  bool ampacity = false;  // a run does not say enough
  bool any() const { return voltage || current || ampacity; }
};
OpenLimits open_limits(const BoxFacts& facts);

}  // namespace boxproof
