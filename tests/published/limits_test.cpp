// Single numbers of every edition. Voltage limits: trade press and code change summaries for 2017 on, from
// memory and unverified before. Factors: an IAEI article on 2008 to 2014, EC&M on 2014 and 2017. What no code
// says is common practice (voltage drop, unequal strings, heat of a cell) or our own judgement (tolerance of
// the DC power).
#include <optional>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

struct Limits {
  std::string_view edition;
  double dwelling, building, ground;
  bool building_ban, ground_ban;  // false: a threshold
};

const std::vector<Limits> voltage_limits{
    {"2008", 600, 600, 600, false, false},   {"2011", 600, 600, 600, false, false},
    {"2014", 600, 1000, 1000, false, false}, {"2017", 600, 1000, 1500, true, false},
    {"2020", 600, 1000, 1500, true, false},  {"2023", 600, 1000, 1000, true, false},
};

}  // namespace

TEST_CASE("voltage limits by edition and use") {
  REQUIRE(voltage_limits.size() == boxproof::edition_names.size());
  for (const Limits& expected : voltage_limits) {
    CAPTURE(expected.edition);
    const boxproof::Edition& edition = edition_of(expected.edition);
    CHECK(edition.limit(boxproof::Use::dwelling).max.value() == expected.dwelling);
    CHECK(edition.limit(boxproof::Use::building).max.value() == expected.building);
    CHECK(edition.limit(boxproof::Use::ground).max.value() == expected.ground);
    CHECK(edition.limit(boxproof::Use::dwelling).ban);
    CHECK(edition.limit(boxproof::Use::building).ban == expected.building_ban);
    CHECK(edition.limit(boxproof::Use::ground).ban == expected.ground_ban);
  }
}

TEST_CASE("factors on current") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::Edition& edition = edition_of(name);
    CHECK(edition.maximum_current_factor == 1.25);
    CHECK(edition.overcurrent_factor == 1.25);
    CHECK(edition.before_factor == 1.25);
    CHECK(edition.after_factor == 1.0);
    CHECK(edition.disconnect.current_factor == 1.25);
  }
}

TEST_CASE("only 2008 can be read more strictly") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const std::optional<double> expected = name == "2008" ? std::optional<double>(1.25) : std::nullopt;
    CHECK(edition_of(name).strict_after_factor == expected);
  }
}

TEST_CASE("values of practice and judgement, alike in every edition") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::Edition& edition = edition_of(name);
    CHECK(edition.unequal_vmp_pct == 5);
    CHECK(edition.cell_rise.value() == 30);
    CHECK(edition.voltage_drop_max_pct == 2);
    CHECK(edition.dc_power_tolerance_pct == 0.5);
  }
}

TEST_CASE("fuses are asked about above 40 °C, and terminals without a mark are 60 or 75 °C") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::Edition& edition = edition_of(name);
    CHECK(edition.fuse_heat_above.value() == 40);
    CHECK(edition.terminal_default.small == 60);
    CHECK(edition.terminal_default.large == 75);
    CHECK(edition.terminal_default.up_to.value() == 100);
    CHECK(edition.terminal_default.up_to_size.name() == "1 AWG");
    CHECK(edition.smallest_aluminum.name() == "12 AWG");
  }
}
