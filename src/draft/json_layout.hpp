// JSON laid out to be read by people: what fits on a line is one line, and short values share lines.
#pragma once

#include "src/read/tree.hpp"
#include "src/report/json_text.hpp"

namespace boxproof::draft {

// Writes a value that starts behind `column` columns of a line; its further lines, if there are any, are
// indented by more than `indent`.
void lay_out(report::Buffer& out, const read::Value& value, std::size_t indent, std::size_t column);

// Writes a value on one line.
void put_one_line(report::Buffer& out, const read::Value& value);

}  // namespace boxproof::draft
