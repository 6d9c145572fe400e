// What differs between two editions, as data.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace boxproof {

struct Difference {
  std::string path;      // "voltage.limits.ground.max_v"
  std::string one, two;  // the values as they stand in the data; empty: the edition does not have the key
};

// Every value, sources aside, that the merged data of the two editions state differently, in the order of the
// base.
std::vector<Difference> differences(std::string_view one, std::string_view two);

}  // namespace boxproof
