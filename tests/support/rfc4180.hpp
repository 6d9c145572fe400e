// A reader of CSV that is strict: CRLF behind each record, a quote only at a cell's start or doubled (RFC
// 4180).
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"

namespace boxproof::test {

using Cells = std::vector<std::string>;

inline std::vector<Cells> read_csv(std::string_view text) {
  std::vector<Cells> rows;
  std::size_t at = 0;
  while (at < text.size()) {
    Cells& row = rows.emplace_back();
    for (bool more = true; more;) {
      std::string& cell = row.emplace_back();
      if (at < text.size() && text[at] == '"') {
        for (++at; at < text.size(); ++at) {
          if (text[at] == '"' && (at + 1 == text.size() || text[at + 1] != '"')) break;
          if (text[at] == '"') ++at;
          cell += text[at];
        }
        ++at;
      } else {
        while (at < text.size() && text[at] != ',' && text[at] != '\r') cell += text[at++];
        const bool bare = cell.find_first_of("\"\n") == std::string::npos;
        if (!bare) FAIL_CHECK("a quote or an end of a line in a bare cell: " << cell);
      }
      more = at < text.size() && text[at] == ',';
      if (!more && text.substr(std::min(at, text.size()), 2) != "\r\n") FAIL("no CRLF behind a record");
      at += more ? 1 : 2;
    }
  }
  return rows;
}

}  // namespace boxproof::test
