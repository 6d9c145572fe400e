// The steps behind a value, so that a reviewer can follow it with a pencil.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace boxproof {

struct Step {
  std::string symbol;   // "Vmax"
  std::string formula;  // "n · Voc · K", or where the value was read: "Table 690.7(A), −6 to −10 °C"
  std::string numbers;  // the formula with the numbers put in; equal to the formula where the value was read
  double value = 0;
  std::string unit;
  std::string section;
};

using Working = std::vector<Step>;

struct Term {
  std::string_view symbol;
  double value;
};

// A computed step. `numbers` is made from the formula by putting each term's value in place of its symbol, so
// the two cannot drift apart; the value is the caller's, and a test recomputes it from `numbers`.
Step computed(std::string_view symbol, std::string_view formula, std::initializer_list<Term> terms,
              double value, std::string_view unit, std::string_view section);

// A value taken from a table, the design or a data sheet; `from` says which cell.
Step taken(std::string_view symbol, std::string from, double value, std::string_view unit,
           std::string_view section);

// A number as the report prints it in formulas: shortest form that reads back to the same double.
std::string exact(double value);

}  // namespace boxproof
