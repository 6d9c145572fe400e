// How far a long run has come, on one line of the terminal.
//
// The line stands on standard error, and only if that is a terminal that can take a line back, and only once
// the run has taken a second. It is wiped away at the end, whatever the end is.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "boxproof/progress.hpp"
#include "src/cli/run.hpp"

namespace boxproof::cli {

class Progress {
 public:
  explicit Progress(Console& console);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  // The hook of a stage ("reading") over so many `things`, which must not outlive this. Empty where nothing
  // is to be shown.
  ProgressHook stage(std::string_view name, std::string_view things = "boxes");
  // For a report that goes to `output`, or to standard output where that is empty: a report on a terminal, or
  // in a pager, takes the place of the line.
  ProgressHook writing(const std::string& output);
  // Wipes the line away; another call of a hook may draw it again.
  void clear();

 private:
  void draw(std::string_view stage, std::size_t come, std::size_t total, std::string_view things);

  Console& console_;
  bool shown_, utf8_;
  std::chrono::milliseconds start_{};
  std::optional<std::chrono::milliseconds> last_;  // when the line was drawn
  std::size_t drawn_ = 0;                          // columns of the line that stands there
};

// The line, in fewer columns than the terminal has: what does not fit is left out, the percentage last.
std::string progress_line(std::string_view stage, std::size_t come, std::size_t total, std::size_t columns,
                          bool utf8, std::string_view things = "boxes");

// Whether the locale that the environment names writes UTF-8.
bool writes_utf8(const Console& console);

}  // namespace boxproof::cli
