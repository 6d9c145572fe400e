// Measurements of a visit to the box of VisitedPlan (12 strings of 18 modules of 49.3 V and 11.6 A, −0.27
// %/°C), for tests of the measured rules.
#pragma once

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/finding.hpp"
#include "tests/support/catch.hpp"

namespace boxproof::test {

// At 25 °C and 1000 W/m2, so that one module has 49.3 V and gives 11.6 A.
inline std::string at_stc(std::string_view strings) {
  return fmt::format(R"("measured": {{ "irradiance_w_m2": 1000, "cell_c": 25, "strings": [ {} ] }})",
                     strings);
}
inline std::string under(std::string_view conditions, std::string_view strings) {
  return fmt::format(R"("measured": {{ {} "strings": [ {} ] }})", conditions, strings);
}

inline std::string reading(int position, std::string_view key, double value) {
  return fmt::format(R"({{ "position": {}, "{}": {} }})", position, key, value);
}
// One string after the other, from position 1.
inline std::string list_of(std::string_view key, const std::vector<double>& values) {
  std::string out;
  for (std::size_t i = 0; i < values.size(); ++i)
    out += (i > 0 ? ", " : "") + reading(static_cast<int>(i + 1), key, values[i]);
  return out;
}

// "correction string 9" of every finding.
inline std::vector<std::string> told(const std::vector<Finding>& findings) {
  std::vector<std::string> out;
  for (const Finding& f : findings)
    out.push_back(std::string(severity_names[static_cast<std::size_t>(f.severity)]) + " " + f.part);
  return out;
}
using Told = std::vector<std::string>;

inline double number(const Amount& amount) {
  REQUIRE(std::holds_alternative<double>(amount));
  return std::get<double>(amount);
}

}  // namespace boxproof::test
