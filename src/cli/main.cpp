#include <unistd.h>

#include <cstdlib>
#include <iostream>

#include "src/cli/run.hpp"

int main(int argc, char** argv) {
  std::ios::sync_with_stdio(false);
  boxproof::cli::Console console{std::cin, std::cout, std::cerr, isatty(STDOUT_FILENO) == 1,
                                 [](const char* name) -> std::optional<std::string> {
                                   const char* value = std::getenv(name);
                                   return value != nullptr ? std::optional<std::string>(value) : std::nullopt;
                                 }};
  return boxproof::cli::run({argv + 1, argv + argc}, console);
}
