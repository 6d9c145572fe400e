#include "tests/support/random_json.hpp"

#include <array>

namespace boxproof::test {

std::string RandomJson::space() {
  static constexpr std::array<const char*, 8> spaces{"", "", "", " ", "\r\n", "\t", "\n  ", " \r\n\t "};
  return spaces[below(spaces.size())];
}

std::string RandomJson::text() {
  static constexpr std::array<const char*, 20> pieces{
      "a", "Z", "boxes",          " ", "é", "€",      "🌞", "\\\"", "\\\\", "\\/", "\\u00e9", "\\n", "[", "]",
      "{", "}", "\\ud83c\\udf1e", ",", ":", "\\u0022"};
  std::string out = "\"";
  for (std::size_t n = below(7); n-- > 0;) out += pieces[below(pieces.size())];
  return out + "\"";
}

std::string RandomJson::number() {
  static constexpr std::array<const char*, 12> numbers{"0",      "-0",      "7",      "-12",
                                                       "3.25",   "1e3",     "1E-3",   "2e+2",
                                                       "-0.5e1", "1234567", "0.0001", "9007199254740991"};
  return numbers[below(numbers.size())];
}

std::string RandomJson::object(int depth, std::size_t members) {
  std::string out = "{" + space();
  for (std::size_t i = 0; i < members; ++i) {
    std::string key = text();
    key.insert(1, std::to_string(i) + "_");  // each key once
    out += (i == 0 ? "" : "," + space()) + key + space() + ":" + space() + value(depth - 1) + space();
  }
  return out + "}";
}

std::string RandomJson::value(int depth) {
  const std::size_t kind = below(depth > 0 ? 8 : 6);
  if (kind == 0) return "null";
  if (kind == 1) return below(2) == 0 ? "true" : "false";
  if (kind <= 3) return number();
  if (kind <= 5) return text();
  if (kind == 6) return object(depth, below(5));
  std::string out = "[" + space();
  const std::size_t elements = below(5);
  for (std::size_t i = 0; i < elements; ++i)
    out += (i == 0 ? "" : "," + space()) + value(depth - 1) + space();
  return out + "]";
}

}  // namespace boxproof::test
