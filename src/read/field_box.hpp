// One box of a field record.
#pragma once

#include "boxproof/asbuilt.hpp"
#include "src/read/problems.hpp"
#include "src/read/tree.hpp"

namespace boxproof::read {

VisitedBox read_visited_box(const Value& value, Problems& problems);

}  // namespace boxproof::read
