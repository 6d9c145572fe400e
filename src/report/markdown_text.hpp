// Words put into Markdown so that they are read as words.
#pragma once

#include <string>
#include <string_view>

namespace boxproof::report {

// Every character that Markdown (CommonMark, and the tables and struck-out text of its common extension)
// could take for markup gets a backslash. For text within a line: not for one that starts a line.
inline std::string markdown(std::string_view text) {
  constexpr std::string_view special = "\\`*_<>[]|&~$";
  std::string out;
  for (const char c : text) {
    if (special.find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

// A name in fixed-width type; names hold no backtick and no stroke of a table.
inline std::string markdown_name(std::string_view name) {
  return "`" + std::string(name) + "`";
}

}  // namespace boxproof::report
