// Words put into HTML so that they are read as words.
#pragma once

#include <fmt/format.h>

#include <string>
#include <string_view>

#include "src/report/layout.hpp"

namespace boxproof::report {

// A text as the content of an element, or within the double quotes of an attribute. What could move, hide or
// turn other text is shown as an escape first, as on a terminal.
inline std::string html(std::string_view text) {
  std::string out;
  for (const char c : plain(text)) switch (c) {
      case '&': out += "&amp;"; break;
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '"': out += "&quot;"; break;
      case '\'': out += "&#39;"; break;
      default: out += c;
    }
  return out;
}

// A text as a string of a style sheet, with its quotes. What is not a letter, a digit or beyond ASCII is
// written as its code point and the blank that ends it, so that nothing ends the string or the style element.
inline std::string css_text(std::string_view text) {
  std::string out = "\"";
  for (const char c : plain(text)) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    if (letter || (c >= '0' && c <= '9') || c == ' ' || (c & 0x80) != 0)
      out += c;
    else
      out += fmt::format("\\{:x} ", static_cast<unsigned>(c));
  }
  return out + "\"";
}

}  // namespace boxproof::report
