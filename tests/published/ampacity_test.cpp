// Ampacities from 2011 on, against the numbers of a public copy of the NFPA 70-2023 tables (raceway: Table
// 310.16, the same in public copies of 2014 and 2020; free air: Table 310.17), and of PV wire at 105 and 125
// °C against a public copy of the 2022 California Electrical Code (Table 690.31(A)(b)).
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

// One row of a table: amperes in the columns of 60, 75 and 90 °C; no values where the table has no such
// conductor.
struct Row {
  std::string_view size;
  std::vector<double> copper, aluminum;
};

// clang-format off
const std::vector<Row> raceway{
    {"14 AWG", {15, 20, 25}, {}},
    {"12 AWG", {20, 25, 30}, {15, 20, 25}},
    {"10 AWG", {30, 35, 40}, {25, 30, 35}},
    {"8 AWG", {40, 50, 55}, {35, 40, 45}},
    {"6 AWG", {55, 65, 75}, {40, 50, 55}},
    {"4 AWG", {70, 85, 95}, {55, 65, 75}},
    {"3 AWG", {85, 100, 115}, {65, 75, 85}},
    {"2 AWG", {95, 115, 130}, {75, 90, 100}},
    {"1 AWG", {110, 130, 145}, {85, 100, 115}},
    {"1/0 AWG", {125, 150, 170}, {100, 120, 135}},
    {"2/0 AWG", {145, 175, 195}, {115, 135, 150}},
    {"3/0 AWG", {165, 200, 225}, {130, 155, 175}},
    {"4/0 AWG", {195, 230, 260}, {150, 180, 205}},
    {"250 kcmil", {215, 255, 290}, {170, 205, 230}},
    {"300 kcmil", {240, 285, 320}, {195, 230, 260}},
    {"350 kcmil", {260, 310, 350}, {210, 250, 280}},
    {"400 kcmil", {280, 335, 380}, {225, 270, 305}},
    {"500 kcmil", {320, 380, 430}, {260, 310, 350}},
    {"600 kcmil", {350, 420, 475}, {285, 340, 385}},
    {"700 kcmil", {385, 460, 520}, {315, 375, 425}},
    {"750 kcmil", {400, 475, 535}, {320, 385, 435}},
    {"800 kcmil", {410, 490, 555}, {330, 395, 445}},
    {"900 kcmil", {435, 520, 585}, {355, 425, 480}},
    {"1000 kcmil", {455, 545, 615}, {375, 445, 500}},
};

const std::vector<Row> free_air{
    {"14 AWG", {25, 30, 35}, {}},
    {"12 AWG", {30, 35, 40}, {25, 30, 35}},
    {"10 AWG", {40, 50, 55}, {35, 40, 45}},
    {"8 AWG", {60, 70, 80}, {45, 55, 60}},
    {"6 AWG", {80, 95, 105}, {60, 75, 85}},
    {"4 AWG", {105, 125, 140}, {80, 100, 115}},
    {"3 AWG", {120, 145, 165}, {95, 115, 130}},
    {"2 AWG", {140, 170, 190}, {110, 135, 150}},
    {"1 AWG", {165, 195, 220}, {130, 155, 175}},
    {"1/0 AWG", {195, 230, 260}, {150, 180, 205}},
    {"2/0 AWG", {225, 265, 300}, {175, 210, 235}},
    {"3/0 AWG", {260, 310, 350}, {200, 240, 270}},
    {"4/0 AWG", {300, 360, 405}, {235, 280, 315}},
    {"250 kcmil", {340, 405, 455}, {265, 315, 355}},
    {"300 kcmil", {375, 445, 500}, {290, 350, 395}},
    {"350 kcmil", {420, 505, 570}, {330, 395, 445}},
    {"400 kcmil", {455, 545, 615}, {355, 425, 480}},
    {"500 kcmil", {515, 620, 700}, {405, 485, 545}},
    {"600 kcmil", {575, 690, 780}, {455, 545, 615}},
    {"700 kcmil", {630, 755, 850}, {500, 595, 670}},
    {"750 kcmil", {655, 785, 885}, {515, 620, 700}},
    {"800 kcmil", {680, 815, 920}, {535, 645, 725}},
    {"900 kcmil", {730, 870, 980}, {580, 700, 790}},
    {"1000 kcmil", {780, 935, 1055}, {625, 750, 845}},
};

// Columns of 105 and 125 °C, copper.
const std::vector<Row> pv_wire{
    {"14 AWG", {29, 31}, {}},
    {"12 AWG", {36, 39}, {}},
    {"10 AWG", {46, 50}, {}},
    {"8 AWG", {64, 69}, {}},
    {"6 AWG", {81, 87}, {}},
    {"4 AWG", {109, 118}, {}},
    {"3 AWG", {129, 139}, {}},
    {"2 AWG", {143, 154}, {}},
    {"1 AWG", {168, 181}, {}},
    {"1/0 AWG", {193, 208}, {}},
    {"2/0 AWG", {229, 247}, {}},
    {"3/0 AWG", {263, 284}, {}},
    {"4/0 AWG", {301, 325}, {}},
};
// clang-format on

void check_table(const boxproof::AmpacityTable& table, const std::vector<Row>& expected) {
  CHECK(table.columns == std::vector<int>{60, 75, 90});
  REQUIRE(expected.size() == boxproof::Size::count);
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CAPTURE(expected[i].size);
    REQUIRE(boxproof::Size(i).name() == expected[i].size);
    CHECK(table.rows[0][i] == expected[i].copper);
    CHECK(table.rows[1][i] == expected[i].aluminum);
  }
}

}  // namespace

TEST_CASE("ampacity in a raceway, 2011 to 2023") {
  for (const std::string_view edition : {"2011", "2014", "2017", "2020", "2023"}) {
    CAPTURE(edition);
    check_table(edition_of(edition).raceway, raceway);
  }
}

TEST_CASE("ampacity in free air, 2011 to 2023") {
  for (const std::string_view edition : {"2011", "2014", "2017", "2020", "2023"}) {
    CAPTURE(edition);
    check_table(edition_of(edition).free_air, free_air);
  }
}

TEST_CASE("PV wire has columns of its own in 2020 and 2023 only") {
  for (const std::string_view edition : {"2008", "2011", "2014", "2017"}) {
    CAPTURE(edition);
    CHECK_FALSE(edition_of(edition).pv_wire_raceway.has_value());
  }
  for (const std::string_view edition : {"2020", "2023"}) {
    CAPTURE(edition);
    REQUIRE(edition_of(edition).pv_wire_raceway.has_value());
    const boxproof::AmpacityTable& table = *edition_of(edition).pv_wire_raceway;
    CHECK(table.columns == std::vector<int>{105, 125});
    for (std::size_t i = 0; i < boxproof::Size::count; ++i) {
      CAPTURE(boxproof::Size(i).name());
      CHECK(table.rows[0][i] == (i < pv_wire.size() ? pv_wire[i].copper : std::vector<double>{}));
      CHECK(table.rows[1][i].empty());
    }
  }
  CHECK(boxproof::Size(pv_wire.size() - 1).name() == pv_wire.back().size);
}
