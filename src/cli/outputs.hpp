// Where the reports of a run go: one or more formats, each to standard output, a file or a folder.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "src/cli/options.hpp"

namespace boxproof::cli {

inline constexpr std::array<std::string_view, 7> check_formats{"text",  "html",  "markdown",   "json",
                                                               "sarif", "junit", "annotations"};

struct Output {
  std::string format;
  std::string path;  // empty: standard output; with / at its end: a folder, a file a design
  bool is_folder() const { return path.ends_with("/"); }
};

// What is wrong with a value of --report; empty: nothing.
std::string about_report(const std::string& value);

// --format and --output first, then each --report. Throws WrongUse where two go to one place.
std::vector<Output> outputs_of(const Options& o);

}  // namespace boxproof::cli
