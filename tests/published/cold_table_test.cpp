// Factors on the open-circuit voltage of crystalline silicon by low temperature: Table 690.7(A) (Table 690.7
// to 2014), against a public copy of the 2022 California Electrical Code. An article of 2009 on the 2008
// edition says that the same table, from 1.02 upwards, came in then.
#include <string_view>
#include <utility>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

// clang-format off
const std::vector<std::pair<double, double>> bands{  // down to °C, factor
    {20, 1.02},
    {15, 1.04},
    {10, 1.06},
    {5, 1.08},
    {0, 1.10},
    {-5, 1.12},
    {-10, 1.14},
    {-15, 1.16},
    {-20, 1.18},
    {-25, 1.20},
    {-30, 1.21},
    {-35, 1.23},
    {-40, 1.25},
};
// clang-format on

}  // namespace

TEST_CASE("cold factors in every edition") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::ColdTable& table = edition_of(name).cold;
    CHECK(table.reference.value() == 25);
    REQUIRE(table.bands.size() == bands.size());
    for (std::size_t i = 0; i < bands.size(); ++i) {
      CAPTURE(bands[i].first);
      CHECK(table.bands[i].down_to.value() == bands[i].first);
      CHECK(table.bands[i].factor == bands[i].second);
    }
  }
}

TEST_CASE("the cold factors stand for 0.38 to 0.40 % a degree") {
  const boxproof::ColdTable& table = edition_of("2017").cold;
  for (const boxproof::ColdTable::Band& band : table.bands) {
    const double percent_per_degree = 100 * (band.factor - 1) / (table.reference - band.down_to).value();
    CAPTURE(band.down_to.value(), percent_per_degree);
    CHECK(percent_per_degree > 0.38);
    CHECK(percent_per_degree < 0.401);
  }
}
