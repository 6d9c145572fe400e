// Cells of a spreadsheet, written as RFC 4180 has them.
#pragma once

#include <string>
#include <string_view>

#include "src/text/formula_guard.hpp"

namespace boxproof::report {

// A cell and what stands behind it. A text that a spreadsheet would take for a formula stays a text: an
// apostrophe goes before it, which the reader of field records takes off again. Quotes keep the spaces
// around a text, which many readers drop.
inline void put_cell(std::string& out, std::string_view text, char end = ',') {
  const bool guard = text::wants_formula_guard(text);
  constexpr std::string_view space = " \t";
  const bool spaced = !text.empty() && (space.find(text.front()) != std::string_view::npos ||
                                        space.find(text.back()) != std::string_view::npos);
  const bool quoted = spaced || text.find_first_of(",\"\r\n") != std::string_view::npos;
  if (quoted) out += '"';
  if (guard) out += text::formula_guard;
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  if (quoted) out += '"';
  out += end;
}

}  // namespace boxproof::report
