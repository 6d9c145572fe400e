// Factors for more than three conductors that carry current, against public copies of the NFPA 70-2014 and
// 2023 tables.
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

const std::vector<std::pair<std::optional<unsigned>, double>> bands{
    // up to so many, factor
    {3U, 1.0}, {6U, 0.80}, {9U, 0.70}, {20U, 0.50}, {30U, 0.45}, {40U, 0.40}, {std::nullopt, 0.35}};

}  // namespace

TEST_CASE("adjustment for the number of conductors in every edition") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::AdjustmentTable& table = edition_of(name).adjustment;
    REQUIRE(table.bands.size() == bands.size());
    for (std::size_t i = 0; i < bands.size(); ++i) {
      CAPTURE(i);
      CHECK(table.bands[i].up_to == bands[i].first);
      CHECK(table.bands[i].factor == bands[i].second);
    }
  }
}
