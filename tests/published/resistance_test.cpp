// DC resistance at 75 °C, uncoated conductors: Chapter 9 Table 8, against public copies of the NFPA 70-2014
// and 2023 tables (ohms per 1000 ft times 3.28084, to three figures), and against physics: resistance times
// area is one constant.
#include <cmath>
#include <optional>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

constexpr std::nullopt_t none = std::nullopt;

struct Row {
  std::string_view size;
  double circular_mils;
  double copper, aluminum;  // stranded, ohm/km
  std::optional<double> solid_copper, solid_aluminum;
};

// clang-format off
const std::vector<Row> table_8{
    {"14 AWG", 4110, 10.3, 17.0, 10.1, 16.6},
    {"12 AWG", 6530, 6.5, 10.7, 6.33, 10.4},
    {"10 AWG", 10380, 4.07, 6.69, 3.97, 6.56},
    {"8 AWG", 16510, 2.55, 4.2, 2.51, 4.13},
    {"6 AWG", 26240, 1.61, 2.65, none, none},
    {"4 AWG", 41740, 1.01, 1.67, none, none},
    {"3 AWG", 52620, 0.804, 1.32, none, none},
    {"2 AWG", 66360, 0.636, 1.05, none, none},
    {"1 AWG", 83690, 0.505, 0.83, none, none},
    {"1/0 AWG", 105600, 0.4, 0.659, none, none},
    {"2/0 AWG", 133100, 0.317, 0.522, none, none},
    {"3/0 AWG", 167800, 0.251, 0.413, none, none},
    {"4/0 AWG", 211600, 0.199, 0.328, none, none},
    {"250 kcmil", 250000, 0.169, 0.278, none, none},
    {"300 kcmil", 300000, 0.141, 0.232, none, none},
    {"350 kcmil", 350000, 0.12, 0.198, none, none},
    {"400 kcmil", 400000, 0.105, 0.174, none, none},
    {"500 kcmil", 500000, 0.0846, 0.139, none, none},
    {"600 kcmil", 600000, 0.0702, 0.116, none, none},
    {"700 kcmil", 700000, 0.0604, 0.0994, none, none},
    {"750 kcmil", 750000, 0.0561, 0.0925, none, none},
    {"800 kcmil", 800000, 0.0528, 0.0869, none, none},
    {"900 kcmil", 900000, 0.0469, 0.0771, none, none},
    {"1000 kcmil", 1000000, 0.0423, 0.0696, none, none},
};
// clang-format on

bool near(double a, double b, double relative) {
  return std::abs(a - b) <= relative * std::abs(b);
}

}  // namespace

TEST_CASE("resistance of every size in every edition") {
  REQUIRE(table_8.size() == boxproof::Size::count);
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::ResistanceTable& table = edition_of(name).resistance;
    CHECK(table.at.value() == 75);
    for (std::size_t i = 0; i < table_8.size(); ++i) {
      const Row& row = table_8[i];
      CAPTURE(row.size);
      REQUIRE(boxproof::Size(i).name() == row.size);
      CHECK(table.stranded_ohm_per_km[0][i] == row.copper);
      CHECK(table.stranded_ohm_per_km[1][i] == row.aluminum);
      CHECK(table.solid_ohm_per_km[0][i] == row.solid_copper);
      CHECK(table.solid_ohm_per_km[1][i] == row.solid_aluminum);
    }
  }
}

TEST_CASE("resistance times area is constant") {
  // 4 AWG gives the constant; the printed values are rounded to three figures and strands lie differently,
  // hence 1.5 %.
  const boxproof::ResistanceTable& table = edition_of("2017").resistance;
  const std::size_t four = boxproof::Size::parse("4 AWG")->index();
  for (std::size_t material = 0; material < 2; ++material) {
    const double constant = table.stranded_ohm_per_km[material][four].value() * table_8[four].circular_mils;
    for (std::size_t i = 0; i < table_8.size(); ++i) {
      CAPTURE(material, table_8[i].size);
      CHECK(near(table.stranded_ohm_per_km[material][i].value() * table_8[i].circular_mils, constant, 0.015));
    }
  }
}

TEST_CASE("aluminium has 1.64 times the resistance of copper, and solid a little less than stranded") {
  const boxproof::ResistanceTable& table = edition_of("2017").resistance;
  for (std::size_t i = 0; i < table_8.size(); ++i) {
    CAPTURE(table_8[i].size);
    const double copper = table.stranded_ohm_per_km[0][i].value();
    CHECK(near(table.stranded_ohm_per_km[1][i].value() / copper, 1.64, 0.015));
    for (std::size_t material = 0; material < 2; ++material)
      if (const std::optional<double> solid = table.solid_ohm_per_km[material][i]) {
        CHECK(*solid < table.stranded_ohm_per_km[material][i].value());
        CHECK(near(*solid, table.stranded_ohm_per_km[material][i].value(), 0.03));
      }
  }
}
