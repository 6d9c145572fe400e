// The first row of a CSV file, which names the columns, and the rows below it.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "src/read/csv.hpp"
#include "src/read/problems.hpp"

namespace boxproof::read {

struct KnownColumns {
  std::span<const std::string_view> names;
  std::span<const std::string_view> required;  // some of them
  std::string_view listed_by = {};             // a command, where they are too many for a message
};

// Which cell of a row holds what, as the first row says.
struct CsvHeader {
  static constexpr std::size_t absent = SIZE_MAX;
  std::vector<std::size_t> place;     // of each known column in a row
  std::vector<std::size_t> nameless;  // a spreadsheet may leave empty columns behind
  std::size_t cells = 0;

  bool has(std::size_t column) const { return place[column] != absent; }
};

// Reads the first row. Throws the problems where there is none.
CsvHeader read_header(CsvRows& rows, std::string_view source, const KnownColumns& known, Problems& problems);

// Whether the row can be told apart into the columns of the header; if not, or if something stands below no
// name, the problem is told.
bool told_apart(const CsvRows& rows, const CsvHeader& header, Problems& problems);

}  // namespace boxproof::read
