// The manual pages, in the macros of man(7).
#pragma once

#include <string>
#include <string_view>

namespace boxproof::cli {

// The page of a command, or of the program where the name is empty. Throws std::out_of_range where there is
// no such command.
std::string man_page(std::string_view command);

}  // namespace boxproof::cli
