// Cells that a spreadsheet would run as a formula, and the apostrophe that keeps them a text.
//
// The guard goes on with one apostrophe and comes off with one, whatever the text: a text that already has
// apostrophes in front of such a character gets one more, so that it comes back as it was.
#pragma once

#include <string_view>

namespace boxproof::text {

inline constexpr char formula_guard = '\'';

// Whether a formula would begin behind the apostrophes that the text starts with, if any.
inline bool wants_formula_guard(std::string_view text) {
  const auto first = text.find_first_not_of(formula_guard);
  return first != std::string_view::npos &&
         std::string_view("=+-@\t\r").find(text[first]) != std::string_view::npos;
}

inline std::string_view without_formula_guard(std::string_view text) {
  return text.substr(text.starts_with(formula_guard) && wants_formula_guard(text) ? 1 : 0);
}

}  // namespace boxproof::text
