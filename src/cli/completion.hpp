// Scripts that complete the command line in a shell, made of the description of the commands.
#pragma once

#include <string>

namespace boxproof::cli {

std::string bash_completion();
std::string zsh_completion();

}  // namespace boxproof::cli
