// A rule that holds one value against one limit: tried with the limit at the value, a hair inside the slack
// of the comparisons, a hair outside it, and far off.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tests/support/judge.hpp"

namespace boxproof::test {

enum class Stated { at_least, at_most };  // how the value that the plan states must stand to the other

struct LimitCase {
  std::string_view rule, part, severity, unit, section;
  Json design;
  std::string stated;  // JSON Pointer of the value that the plan states
  Stated must_be;
  double bound;                           // the other value, worked out by hand
  double far;                             // a stated value that is clearly wrong
  std::vector<std::string_view> numbers;  // both, as the message prints them then
  bool stated_is_found = false;           // else the plan's value is the finding's `required`
  std::string_view edition = "2017";
};

// Whether the finding's message holds the text.
bool says(const Finding& finding, std::string_view text);

// The design with one value put in, or one taken out (which must be there).
Json put(Json design, const std::string& pointer, const Json& value);
Json without(Json design, const std::string& pointer);

// Fails the test where the rule does not turn at the bound, or says anything else of its finding.
void check_limit(const LimitCase& limit);

// Takes each value out of its design and expects exactly one finding in all: `query`, by this rule, about
// this part.
struct MissingCase {
  std::string pointer;
  std::string_view rule, part;
};
void check_missing(const Json& design, const std::vector<MissingCase>& cases, std::string_view edition = {});

}  // namespace boxproof::test
