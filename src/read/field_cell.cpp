#include "src/read/field_cell.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "src/read/csv.hpp"
#include "src/read/tree.hpp"
#include "src/text/words.hpp"

namespace boxproof::read {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

}  // namespace

void put_text(std::string& out, std::string_view text) {
  constexpr unsigned char first_printable = 0x20;
  out += '"';
  for (const char c : text) {
    if (static_cast<unsigned char>(c) < first_printable) {
      out += fmt::format("\\u{:04x}", c);
      continue;
    }
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  out += '"';
}

bool put_number(std::string& out, std::string_view text) {
  text = trimmed(text);
  constexpr std::size_t few = 9;  // digits of a count
  const bool count = !text.empty() && text.size() <= few && std::all_of(text.begin(), text.end(), is_digit);
  if (count && (text.front() != '0' || text.size() == 1)) {
    out += text;
    return true;
  }
  const std::string_view unsigned_text = text.substr(text.starts_with('-') ? 1 : 0);
  double value = 1;
  const auto parsed = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool number = parsed.ec == std::errc() && parsed.ptr == text.data() + text.size() &&
                      (is_digit(unsigned_text.front()) || unsigned_text.front() == '.');  // no "inf"
  out += fmt::format("{}", number ? value : 1);
  return number;
}

bool put_truth(std::string& out, std::string_view text) {
  const bool yes = text::same_word(trimmed(text), "true");
  out += yes ? "true" : "false";
  return yes || text::same_word(trimmed(text), "false");
}

std::string not_a_number(std::string_view text) {
  return fmt::format(
      "found text {}, expected a number; write digits, a decimal point where one is needed, and no unit",
      in_quotes(text));
}

std::string not_truth(std::string_view text, std::string_view empty_where) {
  return fmt::format("found text {}, expected true or false; leave the cell empty where {}", in_quotes(text),
                     empty_where);
}

}  // namespace boxproof::read
