// The files of data/ that are compiled into the program.
#pragma once

#include <string_view>

namespace boxproof {

// The text of a data file by its path below data/ ("editions/base.json"); throws std::logic_error for any
// other name.
std::string_view embedded(std::string_view path);

}  // namespace boxproof
