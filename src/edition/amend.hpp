// Local amendments: may change any value of an edition, may add no key and change no type.
#pragma once

#include <string>
#include <vector>

#include "src/read/object.hpp"

namespace boxproof::read {

// Checks an amendment against the edition it is laid on; returns the dotted paths of the values it changes.
std::vector<std::string> check_amendment(const Value& amendment, const Field& edition, Problems& problems);

}  // namespace boxproof::read
