#include "src/report/markdown_text.hpp"

#include <algorithm>
#include <cctype>

#include "src/report/layout.hpp"

namespace boxproof::report {
namespace {

bool is_digit(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

// How many characters from `at` on make a link out of the text around them, though nobody marked it as one:
// addresses of pages and of mail; where the letter is an issue, also names of people and numbers of issues.
// A backslash does not keep every reader from that, fixed-width type does.
std::size_t starts_link(std::string_view text, std::size_t at) {
  constexpr std::string_view scheme = "://", web = "www";
  if (text[at] == '@') return 1;
  if (text.substr(at).starts_with(scheme)) return scheme.size();
  if (text[at] == '#') return at + 1 < text.size() && is_digit(text[at + 1]) ? 1 : 0;
  if (text[at] != '.' || at < web.size()) return 0;
  return std::all_of(text.begin() + static_cast<std::ptrdiff_t>(at - web.size()),
                     text.begin() + static_cast<std::ptrdiff_t>(at),
                     [](char c) { return c == 'w' || c == 'W'; })
             ? 1
             : 0;
}

// Where a backslash is wanted only because the text starts a line: "-", "+", "=" and ":", and the point
// behind the number of a list. npos: nowhere.
std::size_t starts_block(std::string_view text) {
  if (text.empty()) return std::string_view::npos;
  if (std::string_view("-+=:").find(text.front()) != std::string_view::npos) return 0;
  std::size_t digits = 0;
  while (digits < text.size() && is_digit(text[digits])) ++digits;
  // "1. " is an item's number, "690.7" is a section.
  const bool number = digits > 0 && digits < text.size() && (text[digits] == '.' || text[digits] == ')') &&
                      (digits + 1 == text.size() || text[digits + 1] == ' ');
  return number ? digits : std::string_view::npos;
}

std::size_t longest_run(std::string_view text, char of) {
  std::size_t longest = 0, run = 0;
  for (const char c : text) longest = std::max(longest, run = c == of ? run + 1 : 0);
  return longest;
}

}  // namespace

std::string markdown_line(std::string_view from) {
  constexpr std::string_view special = "\\`*_<>[]|&~$#!";
  std::string text = plain(from);
  text.erase(text.find_last_not_of(' ') + 1);  // two blanks at the end would break the line, four at its
  text.erase(0, text.find_first_not_of(' '));  // start make it code
  const std::size_t block = starts_block(text);
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at;
    while (end < text.size() && starts_link(text, end) > 0) end += starts_link(text, end);
    if (end > at) {
      out += '`' + text.substr(at, end - at) + '`';
      at = end;
      continue;
    }
    if (at == block || special.find(text[at]) != std::string_view::npos) out += '\\';
    out += text[at++];
  }
  return out;
}

std::string markdown_code(std::string_view from) {
  const std::string text = plain(from);
  if (text.empty()) return {};
  const std::string fence(longest_run(text, '`') + 1, '`');
  // One blank on either side is taken off again.
  const bool ticks = text.front() == '`' || text.back() == '`';
  const bool blanks = text.front() == ' ' && text.back() == ' ' && text.find_first_not_of(' ') < text.size();
  const std::string pad = ticks || blanks ? " " : "";
  return fence + pad + text + pad + fence;
}

std::string markdown_block(std::string_view lines, std::size_t indent) {
  constexpr std::size_t least = 3;  // backticks of a fence
  const std::string blanks(indent, ' ');
  const std::string fence = blanks + std::string(std::max(least, longest_run(lines, '`') + 1), '`') + "\n";
  std::string out = fence;
  while (!lines.empty()) {
    const auto end = lines.find('\n');
    out += blanks + plain(lines.substr(0, end)) + "\n";
    lines = end == std::string_view::npos ? std::string_view() : lines.substr(end + 1);
  }
  return out + fence;
}

}  // namespace boxproof::report
