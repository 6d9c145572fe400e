// Where the reports of a run go: one or more formats, each to standard output, a file or a folder.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/settings.hpp"
#include "src/cli/inputs.hpp"
#include "src/cli/options.hpp"

namespace boxproof::cli {

inline constexpr auto& check_formats = report_formats;

struct Output {
  std::string format;
  std::string path;  // empty: standard output; with / at its end: a folder, a file a design
  bool is_folder() const { return path.ends_with("/"); }
};

// What is wrong with a value of --report; empty: nothing.
std::string about_report(const std::string& value);

// --format and --output first, then each --report. Throws WrongUse where two go to one place.
std::vector<Output> outputs_of(const Options& o);

// Where the report of one design goes in a folder of reports: its own path, with the ending of the format.
std::string path_in(const Output& output, std::string_view design);

// All files that a run writes, known before anything is read.
class Targets {
 public:
  // Throws WrongUse where two reports would be written to one file.
  Targets(const std::vector<Output>& outputs, const std::vector<DesignInput>& designs);

  // Throws WrongUse where the input would be overwritten; `real` is its path without links.
  void keep(const std::string& input, const std::string& real) const;
  // The same of an input by its path; nothing where there is none.
  void keep(const std::string& input) const;

  // Throws InputError where the settings file, which asks for the reports at that place, sends one of them,
  // by a link on the way, out of its own folder.
  void expect_under(const FilePlace& asked) const;

  // Takes out of the inputs what is left of an earlier run: a report that this one writes anew. Throws
  // WrongUse where such a file is a design after all.
  void leave_out(std::vector<DesignInput>& designs) const;

 private:
  void add(const std::string& path, std::string what);
  std::map<std::string, std::string, std::less<>> what_;  // goes there, by real path
};

}  // namespace boxproof::cli
