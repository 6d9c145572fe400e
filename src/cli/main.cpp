#include <sys/ioctl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <iostream>

#include "src/cli/run.hpp"

namespace {

// The day where the user is.
boxproof::Date local_day() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  constexpr int first_year = 1900, first_month = 1;  // as std::tm counts
  return {std::chrono::year(local.tm_year + first_year),
          std::chrono::month(static_cast<unsigned>(local.tm_mon + first_month)),
          std::chrono::day(static_cast<unsigned>(local.tm_mday))};
}

std::chrono::milliseconds elapsed() {
  return std::chrono::duration_cast<std::chrono::milliseconds>(
      std::chrono::steady_clock::now().time_since_epoch());
}

std::size_t columns() {
  winsize size{};
  return ioctl(STDERR_FILENO, TIOCGWINSZ, &size) == 0 ? size.ws_col : 0;
}

std::string working_folder() {
  std::error_code unknown;  // a folder that is gone has no settings
  return std::filesystem::current_path(unknown).string();
}

bool is_pipe(int descriptor) {
  struct stat status {};
  return fstat(descriptor, &status) == 0 && S_ISFIFO(status.st_mode);
}

}  // namespace

int main(int argc, char** argv) {
  std::ios::sync_with_stdio(false);
  boxproof::cli::Console console{std::cin,
                                 std::cout,
                                 std::cerr,
                                 isatty(STDOUT_FILENO) == 1,
                                 [](const char* name) -> std::optional<std::string> {
                                   const char* value = std::getenv(name);
                                   return value != nullptr ? std::optional<std::string>(value) : std::nullopt;
                                 },
                                 local_day,
                                 isatty(STDERR_FILENO) == 1,
                                 elapsed,
                                 columns,
                                 working_folder(),
                                 is_pipe(STDOUT_FILENO)};
  return boxproof::cli::run({argv + 1, argv + argc}, console);
}
