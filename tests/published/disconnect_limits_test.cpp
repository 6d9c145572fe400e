// What each edition asks for at the output of a box: nothing in 2008; 690.16(B) in 2011 and 2014 (a label
// maker's page); 690.15(C) for roofs in 2014 (a code change summary); 690.15 with its 30 A line from 2017 on
// (trade press).
#include <optional>
#include <string_view>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

using boxproof::DisconnectKind;

struct Case {
  DisconnectKind kind;
  bool only_if_fused;
  std::optional<double> within_m;
  bool or_lockable, external_handle, lockable;
};

constexpr Case nothing{DisconnectKind::none, false, std::nullopt, false, false, false};
constexpr Case at_fuses{DisconnectKind::isolating, true, 15, false, true, false};
constexpr Case on_roof{DisconnectKind::load_break, false, 1.8, false, true, false};
constexpr Case isolating{DisconnectKind::isolating, false, std::nullopt, false, false, false};
constexpr Case within_3_m{DisconnectKind::load_break, false, 3, false, true, true};
constexpr Case in_sight_or_lockable{DisconnectKind::load_break, false, std::nullopt, true, true, true};

void check_case(const boxproof::DisconnectCase& found, const Case& expected) {
  CHECK(found.kind == expected.kind);
  CHECK(found.only_if_fused == expected.only_if_fused);
  REQUIRE(found.within.has_value() == expected.within_m.has_value());
  if (expected.within_m) CHECK(found.within->value() == *expected.within_m);
  CHECK(found.or_lockable == expected.or_lockable);
  CHECK(found.external_handle == expected.external_handle);
  CHECK(found.lockable == expected.lockable);
}

void check_rules(std::string_view name, double large_above, const Case& large, const Case& small) {
  CAPTURE(name);
  const boxproof::DisconnectRules& rules = edition_of(name).disconnect;
  CHECK(rules.large_above.value() == large_above);
  CHECK(rules.roof.has_value() == (name == "2014"));
  check_case(rules.large, large);
  check_case(rules.small, small);
}

}  // namespace

TEST_CASE("disconnect: nothing in 2008") {
  check_rules("2008", 0, nothing, nothing);
}

TEST_CASE("disconnect: at fuses, in 2011 and 2014") {
  check_rules("2011", 0, at_fuses, at_fuses);
  check_rules("2014", 0, at_fuses, at_fuses);
}

TEST_CASE("disconnect: load-break on roofs, in 2014 only") {
  REQUIRE(edition_of("2014").disconnect.roof.has_value());
  check_case(*edition_of("2014").disconnect.roof, on_roof);
}

TEST_CASE("disconnect: load-break above 30 A, from 2017 on") {
  check_rules("2017", 30, within_3_m, isolating);
  check_rules("2020", 30, within_3_m, isolating);
  check_rules("2023", 30, in_sight_or_lockable, isolating);
}
