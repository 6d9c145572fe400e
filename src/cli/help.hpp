// What --help prints.
#pragma once

#include <string>
#include <string_view>

namespace boxproof::cli {

// Of a command, or of the program where the name is empty. No line is wider than the page.
std::string help_text(std::string_view command);

}  // namespace boxproof::cli
