// Local amendments: may change any value of an edition, may add no key and change no type.
#pragma once

#include <string>
#include <vector>

#include "src/read/object.hpp"

namespace boxproof::read {

struct Amended {
  std::string path;  // dotted
  std::string to;    // "1.5 in place of 2"
};

// Checks an amendment against the edition it is laid on; returns the values that it changes.
std::vector<Amended> check_amendment(const Value& amendment, const Field& edition, Problems& problems);

}  // namespace boxproof::read
