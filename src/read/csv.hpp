// Rows and cells of a CSV text (RFC 4180), each cell with its place.
//
// Commas between cells; LF or CRLF behind rows, the last one may go without; a cell in quotes may hold
// commas, line ends, and quotes, which are doubled. Beyond the RFC: the spaces around an unquoted cell are no
// part of it, and a row of nothing but empty cells is passed over.
#pragma once

#include <cstdint>
#include <list>
#include <string>
#include <string_view>
#include <vector>

#include "src/read/problems.hpp"

namespace boxproof::read {

struct Cell {
  std::string_view text;     // without its quotes, a doubled one inside is one
  std::uint32_t offset = 0;  // of its first character, which may be a quote
  std::uint32_t end = 0;     // behind its last one
  bool as_written = true;    // the text stands in the source as it is
  bool broken = false;       // its text is not what was meant, and that has been told

  // Where a part of the text stands; the start of the cell where that cannot be said.
  std::uint32_t offset_of(std::string_view part, std::string_view source) const {
    return as_written ? static_cast<std::uint32_t>(part.data() - source.data()) : offset;
  }
  // And where it ends; the end of the cell likewise.
  std::uint32_t end_of(std::string_view part, std::string_view source) const {
    return as_written ? offset_of(part, source) + static_cast<std::uint32_t>(part.size()) : end;
  }
};

class CsvRows {
 public:
  CsvRows(std::string_view source, Problems& problems);

  // Reads the next row that has something in it; false at the end.
  bool next();
  // Of the row read last; they stay until the next one is read.
  const std::vector<Cell>& cells() const { return cells_; }
  // Its number, from 1, as a spreadsheet counts: empty rows count, line ends within cells do not.
  std::uint32_t row() const { return row_; }
  // One of its cells is.
  bool broken() const;

 private:
  bool cell();
  void plain_cell(Cell& cell);
  void quoted_cell(Cell& cell);
  void line_end();
  void check_utf8(Cell& cell, std::size_t start);
  void problem(std::size_t at, std::string message);

  std::string_view source_;
  Problems& problems_;
  std::size_t at_ = 0;
  std::uint32_t row_ = 0;
  std::vector<Cell> cells_;
  std::list<std::string> decoded_;  // texts of the row that do not stand in the source as they are
  bool all_utf8_, told_of_return_ = false;
};

inline constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// Without the spaces, tabs and line ends around it.
std::string_view trimmed(std::string_view text);

}  // namespace boxproof::read
