#include "tests/support/region.hpp"

#include <fmt/format.h>

#include <sstream>

#include "tests/support/catch.hpp"

namespace boxproof::test {
namespace {

constexpr std::string_view mark = "\xEF\xBB\xBF";

bool is_continuation(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

// Counts from the top; npos where there is no such place.
std::size_t offset_of(std::string_view text, std::size_t line, std::size_t column) {
  std::size_t at = text.starts_with(mark) ? mark.size() : 0;
  for (; line > 1; --line) {
    at = text.find('\n', at);
    if (at++ == std::string_view::npos) return std::string_view::npos;
  }
  for (; column > 1; --column) {
    if (at == text.size() || text[at] == '\n') return std::string_view::npos;
    ++at;
    while (at < text.size() && is_continuation(text[at])) ++at;
  }
  return at;
}

void walk(const Json& value, const std::string& pointer, std::vector<std::pair<std::string, Json>>& out) {
  if (!pointer.empty()) out.emplace_back(pointer, value);
  if (!value.is_structured()) return;
  for (const auto& [key, member] : value.items()) {
    std::string token;
    for (const char c : key) token += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
    walk(member, pointer + "/" + token, out);
  }
}

// Spaces where JSON allows them, more and less.
std::string oddly_spaced(const std::string& compact) {
  static constexpr std::string_view spaces[] = {"", " ", "\n", "  ", "\r\n\t", "", "\n\n ", "\t"};
  std::string out;
  bool in_text = false;
  std::size_t next = 0;
  for (std::size_t i = 0; i < compact.size(); ++i) {
    const char c = compact[i];
    if (in_text) {
      out += c;
      if (c == '\\')
        out += compact[++i];
      else if (c == '"')
        in_text = false;
      continue;
    }
    in_text = c == '"';
    const bool between = std::string_view("{}[],:").find(c) != std::string_view::npos;
    if (between) out += spaces[next++ % 8];
    out += c;
    if (between) out += spaces[(next * next + 3) % 8];
  }
  return out + " \n";
}

}  // namespace

Region region_of(const FilePlace& place) {
  return {place.line, place.column, place.end_line, place.end_column};
}

Region region_of(const Json& region) {
  return {region.at("startLine"), region.at("startColumn"), region.at("endLine"), region.at("endColumn")};
}

std::string cut(std::string_view text, const Region& region) {
  const auto start = offset_of(text, region.line, region.column);
  const auto end = offset_of(text, region.end_line, region.end_column);
  if (start == std::string_view::npos || end == std::string_view::npos || start > end)
    FAIL("no such place: " << region.line << ":" << region.column << " to " << region.end_line << ":"
                           << region.end_column);
  return std::string(text.substr(start, end - start));
}

namespace {

// What is wrong with the region; empty: nothing.
std::string about(std::string_view text, const Region& region, const Json& value) {
  const std::string piece = cut(text, region);
  if (region.line != region.end_line) return "more than one line";
  if (piece.empty()) return "nothing";
  if (Json::accept(piece)) {
    constexpr std::string_view space = " \t\r\n";
    if (space.find(piece.front()) != std::string_view::npos ||
        space.find(piece.back()) != std::string_view::npos)
      return "spaces around " + piece;
    return Json::parse(piece) == value ? "" : "another value, " + piece;
  }
  if (!value.is_structured()) return "no value, " + piece;
  const std::string_view rest = text.substr(offset_of(text, region.line, region.column));
  const std::string_view behind = rest.substr(piece.size());
  const auto end = behind.find_first_not_of(" \t\r");
  if (end == std::string_view::npos || behind[end] != '\n') return "not the whole of a first line, " + piece;
  std::istringstream in{std::string(rest)};
  Json whole;
  in >> whole;
  return whole == value ? "" : "the first line of another value, " + piece;
}

}  // namespace

void check_region(std::string_view text, const Region& region, const Json& value) {
  const std::string wrong = about(text, region, value);
  CAPTURE(region.line, region.column, value.dump());
  CHECK(wrong == "");
}

std::vector<std::pair<std::string, Json>> all_values(const Json& document) {
  std::vector<std::pair<std::string, Json>> out;
  walk(document, "", out);
  return out;
}

std::vector<std::string> layouts(const Json& document) {
  const std::string indented = document.dump(2);
  std::string dos;
  for (const char c : indented) dos += c == '\n' ? "\r\n" : std::string(1, c);
  return {indented,
          document.dump(),
          dos,
          document.dump(1, '\t'),
          std::string(mark) + indented,
          std::string(mark) + document.dump(),
          document.dump(4, ' ', true),
          oddly_spaced(document.dump())};
}

}  // namespace boxproof::test
