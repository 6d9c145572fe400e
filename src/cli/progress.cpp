#include "src/cli/progress.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "src/report/layout.hpp"

namespace boxproof::cli {
namespace {

using std::chrono::milliseconds;
constexpr milliseconds patience{1000};  // a shorter run shows nothing
constexpr milliseconds between{100};    // ten times a second is enough for an eye
constexpr std::size_t usual_columns = 80;

std::string repeated(std::string_view piece, std::size_t times) {
  std::string out;
  for (std::size_t i = 0; i < times; ++i) out += piece;
  return out;
}

}  // namespace

bool writes_utf8(const Console& console) {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {  // the first that says anything
    const auto value = console.environment(name);
    if (!value || value->empty()) continue;
    const std::string locale = report::upper(*value);
    return locale.find("UTF-8") != std::string::npos || locale.find("UTF8") != std::string::npos;
  }
  return false;
}

std::string progress_line(std::string_view stage, std::size_t come, std::size_t total, std::size_t columns,
                          bool utf8, std::string_view things) {
  const double share =
      total == 0 ? 1 : static_cast<double>(std::min(come, total)) / static_cast<double>(total);
  constexpr std::size_t hundred = 100, widest = 30, narrowest = 5;
  const std::string name(stage);
  // The last column stays free: some terminals go to the next line when it is written.
  const std::size_t room = columns > 0 ? columns - 1 : 0;
  const std::string part =
      fmt::format("{:>3} %", static_cast<std::size_t>(share * static_cast<double>(hundred)));
  const std::string boxes = fmt::format("  {} of {} {}", report::grouped(static_cast<double>(come)),
                                        report::grouped(static_cast<double>(total)), things);
  const std::size_t taken = name.size() + part.size() + boxes.size() + 4;  // two blanks on either side
  if (room >= taken + narrowest) {
    const std::size_t bar = std::min(widest, room - taken);
    const auto full = static_cast<std::size_t>(share * static_cast<double>(bar));
    return fmt::format("{}  {}{}  {}{}", name, repeated(utf8 ? "█" : "#", full),
                       repeated(utf8 ? "░" : "-", bar - full), part, boxes);
  }
  for (std::string line : {name + " " + part + boxes, name + " " + part, part})
    if (line.size() <= room) return line;
  return {};
}

Progress::Progress(Console& console)
    : console_(console),
      shown_(console.err_is_terminal && console.elapsed &&
             console.environment("TERM").value_or("") != "dumb"),
      utf8_(shown_ && writes_utf8(console)) {
  if (shown_) start_ = console_.elapsed();
}

Progress::~Progress() {
  clear();
}

ProgressHook Progress::stage(std::string_view name, std::string_view things) {
  if (!shown_) return {};
  return [this, stage = std::string(name), things = std::string(things)](
             std::size_t come, std::size_t total) { draw(stage, come, total, things); };
}

ProgressHook Progress::writing(const std::string& output) {
  clear();
  const bool on_terminal = console_.out_is_terminal || console_.out_is_pipe;
  return output.empty() && on_terminal ? ProgressHook() : stage("writing");
}

void Progress::draw(std::string_view stage, std::size_t come, std::size_t total, std::string_view things) {
  const milliseconds now = console_.elapsed();
  if (now - start_ < patience || (last_ && now - *last_ < between)) return;
  last_ = now;
  const std::size_t told = console_.columns ? console_.columns() : 0;
  const std::string line = progress_line(stage, come, total, told > 0 ? told : usual_columns, utf8_, things);
  const std::size_t width = report::width_of(line);
  console_.err << '\r' << line << std::string(drawn_ > width ? drawn_ - width : 0, ' ') << std::flush;
  drawn_ = width;
}

void Progress::clear() {
  if (drawn_ == 0) return;
  console_.err << '\r' << std::string(drawn_, ' ') << '\r' << std::flush;
  drawn_ = 0;
}

}  // namespace boxproof::cli
