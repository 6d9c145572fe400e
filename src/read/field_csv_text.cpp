// What can be said of a text in CSV before any row is read: whether it is a field record, and of a kind that
// can be read.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "src/read/csv.hpp"
#include "src/read/field_columns.hpp"
#include "src/read/field_csv.hpp"

namespace boxproof::read {
namespace {

// Calls visit(character, offset) for what stands outside of quotes in the first line that is not empty.
template <class Visit>
void first_line(std::string_view source, Visit&& visit) {
  std::size_t at = source.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  at = std::min(source.find_first_not_of("\r\n", at), source.size());
  bool quoted = false;
  for (; at < source.size() && source[at] != '\n'; ++at) {
    if (source[at] == '"')
      quoted = !quoted;
    else if (!quoted)
      visit(source[at], at);
  }
  visit('\n', at);
}

// The character between cells that the first line seems to use, and where it stands first.
struct Separator {
  char character = ',';
  std::uint32_t offset = 0;
};

Separator separator_of(std::string_view source) {
  Separator other;
  bool comma = false;
  first_line(source, [&](char c, std::size_t at) {
    if (c == ',') comma = true;
    if ((c == ';' || c == '\t') && other.character == ',') other = {c, static_cast<std::uint32_t>(at)};
  });
  return comma ? Separator() : other;
}

// Whether the first line names such a column, whatever stands between its cells.
bool first_line_names(std::string_view source, std::string_view column) {
  std::size_t start = source.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  bool found = false;
  first_line(source, [&](char c, std::size_t at) {
    if (c != ',' && c != ';' && c != '\t' && c != '\n') return;
    std::string_view name = trimmed(source.substr(start, at - start));
    if (name.size() >= 2 && name.front() == '"' && name.back() == '"') name = name.substr(1, name.size() - 2);
    found = found || name == column;
    start = at + 1;
  });
  return found;
}

}  // namespace

bool is_field_csv(const Document& document) {
  const std::string_view text = document.text;
  std::size_t at = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  at = text.find_first_not_of(" \t\r\n", at);
  if (at != std::string_view::npos && text[at] == '{') return false;
  std::string ending =
      document.name.substr(document.name.size() - std::min<std::size_t>(document.name.size(), 4));
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return ending == ".csv" || first_line_names(text, field_column_names[0]);
}

void check_csv_text(std::string_view source, Problems& problems) {
  // A byte becomes less than 32 in JSON, where each box has its keys, and an offset has four bytes.
  constexpr std::size_t most = std::size_t{1} << 27;
  if (source.size() >= most)
    problems.add(0, "", "found a file of 128 MiB or more, expected less; split it into several files");
  else if (source.starts_with("\xFF\xFE") || source.starts_with("\xFE\xFF"))
    problems.add(0, "", "found text in UTF-16, expected UTF-8; save the file as CSV in UTF-8");
  else if (const auto zero = source.find('\0'); zero != std::string_view::npos)
    problems.add(static_cast<std::uint32_t>(zero), "",
                 "found a byte of value zero, expected CSV text in UTF-8; is this the right file?");
  else if (const Separator separator = separator_of(source); separator.character != ',')
    problems.add(
        separator.offset, "",
        fmt::format("found the separator {}, expected ,; save the file with commas between the cells "
                    "and decimal points in numbers",
                    separator.character == '\t' ? "tab" : std::string(1, separator.character)));
  problems.raise();
}

}  // namespace boxproof::read
