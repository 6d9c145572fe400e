#include "src/text/pointer.hpp"

namespace boxproof::text {

std::string pointer_token(std::string_view key) {
  std::string out;
  for (const char c : key) {
    if (c == '~')
      out += "~0";
    else if (c == '/')
      out += "~1";
    else
      out += c;
  }
  return out;
}

}  // namespace boxproof::text
