// ISO 2859-1:1999, Table 1 (general inspection level II) and Table 2-A (single sampling, normal inspection),
// as MIL-STD-105E has them in Tables I and II-A: once more, from memory, unverified.
#include <string>

#include "src/edition/sampling_plan.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;

namespace {

struct Row {
  std::uint32_t from, to;
  std::string letter;
  std::uint32_t size;
};
const Row rows[] = {{2, 8, "A", 2},
                    {9, 15, "B", 3},
                    {16, 25, "C", 5},
                    {26, 50, "D", 8},
                    {51, 90, "E", 13},
                    {91, 150, "F", 20},
                    {151, 280, "G", 32},
                    {281, 500, "H", 50},
                    {501, 1200, "J", 80},
                    {1201, 3200, "K", 125},
                    {3201, 10000, "L", 200},
                    {10001, 35000, "M", 315},
                    {35001, 150000, "N", 500},
                    {150001, 500000, "P", 800},
                    {500001, 4294967295U, "Q", 1250}};

}  // namespace

TEST_CASE("ISO 2859-1: letter and size at both ends of each band") {
  const SamplingPlan plan = load_sampling_plan("iso2859");
  CHECK(plan.bands.size() == std::size(rows));
  for (const Row& row : rows)
    for (const std::uint32_t lot : {row.from, row.to}) {
      CAPTURE(lot);
      const SamplingPlan::Band* band = plan.band(lot);
      REQUIRE(band != nullptr);
      CHECK(band->letter == row.letter);
      CHECK(band->size == row.size);
    }
}

TEST_CASE("ISO 2859-1: its tables begin at a lot of two") {
  const SamplingPlan plan = load_sampling_plan("iso2859");
  CHECK(plan.band(0) == nullptr);
  CHECK(plan.band(1) == nullptr);
}

TEST_CASE("ISO 2859-1: says what it is and how well it is known") {
  const SamplingPlan plan = load_sampling_plan("iso2859");
  CHECK(plan.standard == "ISO 2859-1:1999");
  CHECK(plan.tables == "Tables 1 and 2-A");
  CHECK(plan.unverified);
  CHECK_THROWS_AS(load_sampling_plan("iso2858"), std::out_of_range);
}
