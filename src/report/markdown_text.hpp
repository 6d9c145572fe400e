// Words put into Markdown so that they are read as words.
#pragma once

#include <string>
#include <string_view>

namespace boxproof::report {

// Every character that Markdown (CommonMark, and the tables and struck-out text of its common extension)
// could take for markup gets a backslash. For text of our own, within a line: not for one that starts a line,
// nor for text from a file.
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

// Text from a file, for within a line or the start of one: made plain() first, so that it stays on its line,
// and nothing in it is a heading, a list, a link that makes itself, or a call to somebody by name.
std::string markdown_line(std::string_view text);

// Text from a file in fixed-width type, whatever is in it. Not for tables.
std::string markdown_code(std::string_view text);

// Lines of text as a block in fixed-width type, each behind `indent` blanks. None of them can end the block.
std::string markdown_block(std::string_view lines, std::size_t indent);

}  // namespace boxproof::report
