// The settings of a folder and what is under it (.boxproof.json, boxproof-settings/1): what the command line
// would say each time.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/finding.hpp"
#include "boxproof/read.hpp"

namespace boxproof {

inline constexpr std::string_view settings_name = ".boxproof.json";

// The formats of a check's reports.
inline constexpr std::array<std::string_view, 7> report_formats{"text",  "html",  "markdown",   "json",
                                                                "sarif", "junit", "annotations"};

// What is not stated is left open. Paths are as the file has them: from the folder in which it stands.
struct Settings {
  std::optional<std::string> edition, fail_on, exceptions, amendments, baseline;
  std::optional<double> low, high;  // degrees Celsius
  std::optional<bool> show_work;
  std::vector<std::string> designs;  // files, folders, patterns; empty: none stated
  struct Report {
    std::string format, path;  // - is standard output; with / at its end, a folder
  };
  std::vector<Report> formats;  // at most one of them to standard output; empty: none stated
  FilePlace formats_place;      // of all of them
};

// Reads settings (boxproof-settings/1). Throws InputError with every problem of the file.
Settings read_settings(const Document& document);

}  // namespace boxproof
