// Cells of a spreadsheet, written as RFC 4180 has them.
#pragma once

#include <string>
#include <string_view>

namespace boxproof::report {

// A cell and what stands behind it. A text that a spreadsheet would take for a formula stays a text: an
// apostrophe goes before it.
inline void put_cell(std::string& out, std::string_view text, char end = ',') {
  if (!text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos)
    return put_cell(out, "'" + std::string(text), end);
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) {
    out += text;
  } else {
    out += '"';
    for (const char c : text) {
      if (c == '"') out += '"';
      out += c;
    }
    out += '"';
  }
  out += end;
}

}  // namespace boxproof::report
