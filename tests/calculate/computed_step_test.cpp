// How a formula gets its numbers, and that the steps of one working follow from each other.
#include <algorithm>
#include <cctype>
#include <map>
#include <string>
#include <string_view>

#include "boxproof/rule.hpp"
#include "boxproof/working.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::string numbers(std::string_view formula, std::initializer_list<Term> terms) {
  return computed("X", formula, terms, 0, "", "").numbers;
}

bool is_symbol_byte(char c) {
  const auto u = static_cast<unsigned char>(c);
  return std::isalnum(u) || c == '_' || u == 0xCE || u == 0xCF;  // and the lead byte of Greek letters
}

// Length of the name of a function that stands here, 0 for anything else.
std::size_t function_length(std::string_view formula, std::size_t at) {
  for (const std::string_view name : {"sqrt(", "ln("})
    if (formula.substr(at).starts_with(name)) return name.size() - 1;
  return 0;
}

// What the numbers have in place of each symbol of the formula.
std::map<std::string, std::string> put_in(const Step& s) {
  std::map<std::string, std::string> out;
  std::size_t f = 0, n = 0;
  while (f < s.formula.size() && n < s.numbers.size()) {
    if (!is_symbol_byte(s.formula[f]) || std::isdigit(static_cast<unsigned char>(s.formula[f])) ||
        function_length(s.formula, f) > 0) {
      const std::size_t length = std::max<std::size_t>(function_length(s.formula, f), 1);
      f += length, n += length;
      continue;
    }
    std::size_t end = f;
    while (end < s.formula.size() && is_symbol_byte(s.formula[end]))
      end += static_cast<unsigned char>(s.formula[end]) >= 0x80 ? 2 : 1;
    const bool bracketed = s.numbers.compare(n, 4, "(−") == 0;
    std::size_t stop = bracketed ? s.numbers.find(')', n) + 1 : s.numbers.find_first_of(" )", n);
    if (stop == std::string::npos) stop = s.numbers.size();
    out[s.formula.substr(f, end - f)] = s.numbers.substr(n, stop - n);
    f = end, n = stop;
  }
  return out;
}

}  // namespace

TEST_CASE("numbers in place of symbols") {
  CHECK(numbers("n · Voc · K", {{"n", 18}, {"Voc", 49.3}, {"K", 1.14}}) == "18 · 49.3 · 1.14");
  // A negative number is bracketed, with a minus that is one.
  CHECK(numbers("1 + b · (T − 25)", {{"b", -0.27}, {"T", -9}}) == "1 + (−0.27) · ((−9) − 25)");
  CHECK(numbers("a − b", {{"a", 0}, {"b", -0.5}}) == "0 − (−0.5)");
  // Greek letters, alone and in front of a Latin one, are symbols of their own.
  CHECK(numbers("β / 100 + βv + v", {{"β", -0.3}, {"βv", 2}, {"v", 3}}) == "(−0.3) / 100 + 2 + 3");
  CHECK(numbers("γ · ω", {{"γ", 1}, {"ω", 2}}) == "1 · 2");
  // A symbol that begins another is not put into it, in whatever order they are given.
  CHECK(numbers("I · Isc · Isc2", {{"I", 1}, {"Isc", 2}, {"Isc2", 3}}) == "1 · 2 · 3");
  CHECK(numbers("I · Isc · Isc2", {{"Isc2", 3}, {"Isc", 2}, {"I", 1}}) == "1 · 2 · 3");
  CHECK(numbers("Isc + sc", {{"sc", 5}}) == "Isc + 5");
  // Numbers of the formula stay whole, a symbol without a number stays, a function stays.
  CHECK(numbers("1.25 · 1000 · L", {{"L", 40}, {"5", 7}}) == "1.25 · 1000 · 40");
  CHECK(numbers("100 · 2 · L", {{"L", 30}}) == "100 · 2 · 30");
  CHECK(numbers("sqrt((Tc − Ta) / (Tc − Tb))", {{"Tc", 90}, {"Ta", 41}, {"Tb", 30}}) ==
        "sqrt((90 − 41) / (90 − 30))");
  CHECK(numbers("", {}) == "");
}

TEST_CASE("a number is printed with all its digits, and no more") {
  CHECK(exact(1.5625) == "1.5625");
  CHECK(exact(20) == "20");
  CHECK(exact(0.1 + 0.2) == "0.30000000000000004");
  CHECK(exact(-9) == "-9");
  for (const double value : {1.0 / 3, 968.92, 1e-5, 123456789.125}) CHECK(std::stod(exact(value)) == value);
}

TEST_CASE("a value that was read keeps its words as formula and numbers") {
  const Step s = taken("K", "Table 690.7(A), at -9 °C", 1.14, "", "Table 690.7(A)");
  CHECK(s.formula == "Table 690.7(A), at -9 °C");
  CHECK(s.numbers == s.formula);
  CHECK(s.value == 1.14);
  CHECK(s.section == "Table 690.7(A)");
}

TEST_CASE("a step that uses the symbol of a step above it uses its value") {
  std::size_t links = 0;
  for (const Example& example : examples) {
    const auto judged = judge_example(example, {{}, true});
    for (const Finding& f : judged->findings()) {
      std::map<std::string, std::string> above;
      for (const Step& s : f.working) {
        if (s.numbers != s.formula)
          for (const auto& [symbol, number] : put_in(s))
            if (const auto known = above.find(symbol); known != above.end()) {
              CAPTURE(std::string(f.rule->id), f.box_id, s.symbol, s.formula, s.numbers, symbol);
              CHECK(number == known->second);
              ++links;
            }
        above[s.symbol] = s.value < 0 ? "(−" + exact(-s.value) + ")" : exact(s.value);
      }
    }
  }
  CHECK(links > 10);
}
