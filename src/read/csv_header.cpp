#include "src/read/csv_header.hpp"

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

// "they are id, fuses" or "boxproof draft --columns lists them".
std::string listed(const KnownColumns& known, std::string_view who) {
  return known.listed_by.empty() ? fmt::format("{} are {}", who, fmt::join(known.names, ", "))
                                 : fmt::format("{} lists them", known.listed_by);
}

}  // namespace

CsvHeader read_header(CsvRows& rows, std::string_view source, const KnownColumns& known, Problems& problems) {
  if (!rows.next()) {
    problems.add(0, "",
                 "found an empty file, expected a row with the names of columns; " + listed(known, "they"));
    problems.raise();
  }
  const std::vector<Cell>& cells = rows.cells();
  CsvHeader header;
  header.cells = cells.size();
  header.place.assign(known.names.size(), CsvHeader::absent);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Cell& cell = cells[i];
    if (cell.broken) continue;
    if (cell.text.empty()) {
      header.nameless.push_back(i);
      continue;
    }
    const auto found = std::find(known.names.begin(), known.names.end(), cell.text);
    if (found == known.names.end()) {
      problems.add(cell.offset, "",
                   fmt::format("found the column {}, which is not known here{}; {}", in_quotes(cell.text),
                               text::did_you_mean(like_a_name(cell.text), known.names),
                               listed(known, "known columns")));
      continue;
    }
    std::size_t& place = header.place[static_cast<std::size_t>(found - known.names.begin())];
    if (place == CsvHeader::absent) {
      place = i;
      continue;
    }
    const text::LineColumn first = text::line_column(source, cells[place].offset);
    problems.add(cell.offset, "",
                 fmt::format("found the column \"{}\" a second time (first at line {}, column {}), expected "
                             "each column once; remove one of the two",
                             cell.text, first.line, first.column));
  }
  if (rows.broken()) return header;  // else it may be for that
  for (const std::string_view name : known.required) {
    const auto index = std::find(known.names.begin(), known.names.end(), name) - known.names.begin();
    if (!header.has(static_cast<std::size_t>(index)))
      problems.add(cells.front().offset, "",
                   fmt::format("found no column \"{}\" in the first row, expected it; it is required", name));
  }
  return header;
}

bool told_apart(const CsvRows& rows, const CsvHeader& header, Problems& problems) {
  const std::vector<Cell>& cells = rows.cells();
  if (cells.size() != header.cells) {
    if (!rows.broken())  // else it may be for that
      problems.add(cells.front().offset, "",
                   fmt::format("found {} cell{} in row {}, expected {} as in the first row; put quotes "
                               "around a cell that holds a comma",
                               cells.size(), cells.size() == 1 ? "" : "s", rows.row(), header.cells));
    return false;
  }
  for (std::size_t i : header.nameless)
    if (!trimmed(cells[i].text).empty())
      problems.add(cells[i].offset, "",
                   fmt::format("found text {} in row {}, expected nothing in a column without a name",
                               in_quotes(cells[i].text), rows.row()));
  return true;
}

}  // namespace boxproof::read
