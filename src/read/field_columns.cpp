#include "src/read/field_columns.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>

#include "src/read/tree.hpp"
#include "src/text/nearest.hpp"
#include "src/text/place.hpp"

namespace boxproof::read {
namespace {

// "Fuse A" as a column would be called.
std::string like_a_name(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = c == ' ' ? '_' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

void unknown_column(const Cell& cell, Problems& problems) {
  problems.add(
      cell.offset, "",
      fmt::format("found the column {}, which is not known here{}; known columns are {}",
                  in_quotes(cell.text), text::did_you_mean(like_a_name(cell.text), field_column_names),
                  fmt::join(field_column_names, ", ")));
}

}  // namespace

FieldHeader read_header(CsvRows& rows, std::string_view source, Problems& problems) {
  if (!rows.next()) {
    problems.add(0, "",
                 fmt::format("found an empty file, expected a row with the names of columns; they are {}",
                             fmt::join(field_column_names, ", ")));
    problems.raise();
  }
  const std::vector<Cell>& cells = rows.cells();
  FieldHeader header;
  header.cells = cells.size();
  header.place.fill(FieldHeader::absent);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Cell& cell = cells[i];
    if (cell.broken) continue;
    if (cell.text.empty()) {
      header.nameless.push_back(i);
      continue;
    }
    const auto found = std::find(field_column_names.begin(), field_column_names.end(), cell.text);
    if (found == field_column_names.end()) {
      unknown_column(cell, problems);
      continue;
    }
    std::size_t& place = header.place[static_cast<std::size_t>(found - field_column_names.begin())];
    if (place == FieldHeader::absent) {
      place = i;
      continue;
    }
    const text::LineColumn first = text::line_column(source, cells[place].offset);
    problems.add(cell.offset, "",
                 fmt::format("found the column \"{}\" a second time (first at line {}, column {}), expected "
                             "each column once; remove one of the two",
                             cell.text, first.line, first.column));
  }
  if (header.place[0] == FieldHeader::absent && !rows.broken())
    problems.add(cells.front().offset, "",
                 "found no column \"id\" in the first row, expected it; it is required");
  return header;
}

}  // namespace boxproof::read
