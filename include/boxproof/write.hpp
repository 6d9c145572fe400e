// Where a report goes.
#pragma once

#include <functional>
#include <string_view>

namespace boxproof {

// Takes a report piece by piece, so that a long one never stands in memory whole.
using Write = std::function<void(std::string_view)>;

}  // namespace boxproof
