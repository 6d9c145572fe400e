// Words put into HTML so that they are read as words.
#pragma once

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

}  // namespace boxproof::report
