// The command line, without a process around it: the tests call run() as the program does.
#pragma once

#include <chrono>
#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "boxproof/date.hpp"

namespace boxproof::cli {

// Exit statuses.
inline constexpr int done = 0;             // nothing at or above --fail-on
inline constexpr int found_something = 1;  // a finding at or above --fail-on
inline constexpr int wrong_use = 2;        // also: the output cannot be written
inline constexpr int bad_input = 3;        // an input cannot be read, or is invalid

struct Console {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  bool out_is_terminal = false;
  std::function<std::optional<std::string>(const char*)> environment = [](const char*) {
    return std::nullopt;
  };
  // The clock: asked only for the day on which agreed exceptions count, and only if nothing else says it.
  std::function<Date()> today = {};
  bool err_is_terminal = false;
  // Time gone by since whenever; and how many columns the terminal of `err` has (0: not known). Without the
  // former no progress is shown.
  std::function<std::chrono::milliseconds()> elapsed = {};
  std::function<std::size_t()> columns = {};
  std::string working_folder = {};  // where settings are looked for, and above it; empty: nowhere
  bool out_is_pipe = false;         // whoever reads it, such as a pager, may write on the terminal
};

// Runs the program with the arguments behind its name; returns the exit status.
int run(const std::vector<std::string>& arguments, Console& console);

}  // namespace boxproof::cli
