// Words of a file that mean the same though they are not written alike.
#pragma once

#include <string_view>
#include <vector>

namespace boxproof::text {

// Whether two words mean the same ("4x" is 4X).
bool same_word(std::string_view a, std::string_view b);

// The names of a dual print, as conductors carry it: "USE-2/RHW-2" and "RHW-2 or USE-2" are two. At least
// one.
std::vector<std::string_view> printed_names(std::string_view print);

// Whether one of the names of a print is this one.
bool prints(std::string_view print, std::string_view name);

}  // namespace boxproof::text
