// Factors for the ambient, against public copies of the NFPA 70-2014 and 2023 tables (30 °C base) and, for PV
// wire, of the 2022 California Electrical Code; and against the square-root rule, which every printed factor
// rounds at the top of its band. Which bands 2008 prints (from 21 °C on, two wide ones at the hot end) is
// from memory, unverified.
#include <cmath>
#include <optional>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

constexpr std::nullopt_t none = std::nullopt;

struct Band {
  double up_to;
  std::vector<std::optional<double>> factors;
};

// clang-format off
// 60, 75 and 90 °C
const std::vector<Band> from_2011{
    {10, {1.29, 1.2, 1.15}},
    {15, {1.22, 1.15, 1.12}},
    {20, {1.15, 1.11, 1.08}},
    {25, {1.08, 1.05, 1.04}},
    {30, {1.0, 1.0, 1.0}},
    {35, {0.91, 0.94, 0.96}},
    {40, {0.82, 0.88, 0.91}},
    {45, {0.71, 0.82, 0.87}},
    {50, {0.58, 0.75, 0.82}},
    {55, {0.41, 0.67, 0.76}},
    {60, {none, 0.58, 0.71}},
    {65, {none, 0.47, 0.65}},
    {70, {none, 0.33, 0.58}},
    {75, {none, none, 0.5}},
    {80, {none, none, 0.41}},
    {85, {none, none, 0.29}},
};

const std::vector<Band> of_2008{
    {25, {1.08, 1.05, 1.04}},
    {30, {1.0, 1.0, 1.0}},
    {35, {0.91, 0.94, 0.96}},
    {40, {0.82, 0.88, 0.91}},
    {45, {0.71, 0.82, 0.87}},
    {50, {0.58, 0.75, 0.82}},
    {55, {0.41, 0.67, 0.76}},
    {60, {none, 0.58, 0.71}},
    {70, {none, 0.33, 0.58}},
    {80, {none, none, 0.41}},
};

// 105 and 125 °C
const std::vector<Band> pv_wire{
    {30, {1.0, 1.0}},
    {35, {0.97, 0.97}},
    {40, {0.93, 0.95}},
    {45, {0.89, 0.92}},
    {50, {0.86, 0.89}},
    {55, {0.82, 0.86}},
    {60, {0.77, 0.83}},
    {65, {0.73, 0.79}},
    {70, {0.68, 0.76}},
    {75, {0.63, 0.73}},
    {80, {0.58, 0.69}},
    {85, {0.52, 0.65}},
    {90, {0.45, 0.61}},
    {95, {0.37, 0.56}},
    {100, {0.26, 0.51}},
    {105, {none, 0.46}},
    {110, {none, 0.4}},
    {115, {none, 0.32}},
    {120, {none, 0.23}},
};
// clang-format on

void check_bands(const boxproof::CorrectionTable& table, const std::vector<int>& columns,
                 const std::vector<Band>& expected) {
  CHECK(table.columns == columns);
  REQUIRE(table.bands.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CAPTURE(expected[i].up_to);
    CHECK(table.bands[i].up_to.value() == expected[i].up_to);
    CHECK(table.bands[i].factors == expected[i].factors);
  }
}

// The rule behind the table: the square root of the room left for heating, over that at the table's base, to
// two decimals. A column ends where the top of the band reaches the conductor's own temperature.
void check_formula(const boxproof::CorrectionTable& table, double base) {
  for (const boxproof::CorrectionTable::Band& band : table.bands) {
    CAPTURE(band.up_to.value());
    REQUIRE(band.factors.size() == table.columns.size());
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      const double conductor = table.columns[c];
      CAPTURE(conductor);
      const double room = conductor - band.up_to.value();
      REQUIRE(band.factors[c].has_value() == (room > 0));
      if (room > 0) CHECK(*band.factors[c] == std::round(100 * std::sqrt(room / (conductor - base))) / 100);
    }
  }
}

}  // namespace

TEST_CASE("correction factors from 2011 on") {
  for (const std::string_view edition : {"2011", "2014", "2017", "2020", "2023"}) {
    CAPTURE(edition);
    check_bands(edition_of(edition).correction, {60, 75, 90}, from_2011);
  }
}

TEST_CASE("correction factors of 2008") {
  check_bands(edition_of("2008").correction, {60, 75, 90}, of_2008);
}

TEST_CASE("correction factors of PV wire, 2020 and 2023 only") {
  for (const std::string_view edition : {"2008", "2011", "2014", "2017"}) {
    CAPTURE(edition);
    CHECK_FALSE(edition_of(edition).pv_wire_correction.has_value());
  }
  for (const std::string_view edition : {"2020", "2023"}) {
    CAPTURE(edition);
    REQUIRE(edition_of(edition).pv_wire_correction.has_value());
    check_bands(*edition_of(edition).pv_wire_correction, {105, 125}, pv_wire);
  }
}

TEST_CASE("every factor is the square-root rule at the top of its band") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::Edition& edition = edition_of(name);
    CHECK(edition.correction_method == boxproof::CorrectionMethod::table);
    CHECK(edition.correction_reference.value() == 30);
    check_formula(edition.correction, 30);
    if (edition.pv_wire_correction) check_formula(*edition.pv_wire_correction, 30);
  }
}
