// Equipment grounding conductors: Table 250.122 against public copies of the NFPA 70-2014 (copper) and 2023
// tables, and the rating to assume where there is no overcurrent device (from memory, unverified; uncertain
// for 2014).
#include <map>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

struct Row {
  double up_to;
  std::string_view copper, aluminum;
};

// clang-format off
const std::vector<Row> table_250_122{
    {15, "14 AWG", "12 AWG"},
    {20, "12 AWG", "10 AWG"},
    {60, "10 AWG", "8 AWG"},
    {100, "8 AWG", "6 AWG"},
    {200, "6 AWG", "4 AWG"},
    {300, "4 AWG", "2 AWG"},
    {400, "3 AWG", "1 AWG"},
    {500, "2 AWG", "1/0 AWG"},
    {600, "1 AWG", "2/0 AWG"},
    {800, "1/0 AWG", "3/0 AWG"},
    {1000, "2/0 AWG", "4/0 AWG"},
    {1200, "3/0 AWG", "250 kcmil"},
    {1600, "4/0 AWG", "350 kcmil"},
    {2000, "250 kcmil", "400 kcmil"},
    {2500, "350 kcmil", "600 kcmil"},
    {3000, "400 kcmil", "600 kcmil"},
    {4000, "500 kcmil", "750 kcmil"},
};
// clang-format on

}  // namespace

TEST_CASE("Table 250.122 in every edition") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::GroundingTable& table = edition_of(name).grounding;
    REQUIRE(table.rows.size() == table_250_122.size());
    for (std::size_t i = 0; i < table_250_122.size(); ++i) {
      CAPTURE(table_250_122[i].up_to);
      CHECK(table.rows[i].up_to.value() == table_250_122[i].up_to);
      CHECK(table.rows[i].copper.name() == table_250_122[i].copper);
      CHECK(table.rows[i].aluminum.name() == table_250_122[i].aluminum);
    }
    CHECK(table.least_copper.name() == "14 AWG");
    CHECK(table.least_aluminum.name() == "12 AWG");
  }
}

TEST_CASE("rating to assume without an overcurrent device, times Isc") {
  const std::map<std::string_view, double> expected{{"2008", 1},      {"2011", 1},      {"2014", 1.25},
                                                    {"2017", 1.5625}, {"2020", 1.5625}, {"2023", 1.5625}};
  for (const auto& [name, factor] : expected) {
    CAPTURE(name);
    CHECK(edition_of(name).grounding.assumed_factor == factor);
  }
}

TEST_CASE("from 2017 on the assumed rating is what an overcurrent device would need") {
  for (const std::string_view name : {"2017", "2020", "2023"}) {
    CAPTURE(name);
    const boxproof::Edition& edition = edition_of(name);
    CHECK(edition.grounding.assumed_factor == edition.maximum_current_factor * edition.overcurrent_factor);
  }
}
