#include "boxproof/working.hpp"

#include <fmt/format.h>

namespace boxproof {
namespace {

bool is_word_byte(unsigned char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}
bool starts_greek(unsigned char c) {
  return c == 0xCE || c == 0xCF;
}  // U+0380 … U+03FF in UTF-8

// Length of the symbol at the start of the text: letters, digits and Greek letters, not starting with a
// digit.
std::size_t symbol_length(std::string_view text) {
  std::size_t n = 0;
  while (n < text.size()) {
    const auto c = static_cast<unsigned char>(text[n]);
    if (starts_greek(c) && n + 1 < text.size())
      n += 2;
    else if (is_word_byte(c) && !(n == 0 && c >= '0' && c <= '9'))
      ++n;
    else
      break;
  }
  return n;
}

}  // namespace

std::string exact(double value) {
  return fmt::format("{}", value);
}

Step computed(std::string_view symbol, std::string_view formula, std::initializer_list<Term> terms,
              double value, std::string_view unit, std::string_view section) {
  std::string numbers;
  std::string_view rest = formula;
  while (!rest.empty()) {
    const std::size_t length = symbol_length(rest);
    if (length == 0) {  // an operator, or a number with all its digits
      std::size_t n = 1;
      while (rest[0] >= '0' && rest[0] <= '9' && n < rest.size() &&
             ((rest[n] >= '0' && rest[n] <= '9') || rest[n] == '.'))
        ++n;
      numbers += rest.substr(0, n);
      rest.remove_prefix(n);
      continue;
    }
    const std::string_view word = rest.substr(0, length);
    std::string put(word);
    for (const Term& term : terms)
      if (term.symbol == word)
        put = term.value < 0 ? fmt::format("(−{})", exact(-term.value)) : exact(term.value);
    numbers += put;
    rest.remove_prefix(length);
  }
  return {std::string(symbol), std::string(formula), std::move(numbers), value,
          std::string(unit),   std::string(section)};
}

Step taken(std::string_view symbol, std::string from, double value, std::string_view unit,
           std::string_view section) {
  std::string numbers = from;
  return {std::string(symbol), std::move(from),     std::move(numbers), value,
          std::string(unit),   std::string(section)};
}

}  // namespace boxproof
