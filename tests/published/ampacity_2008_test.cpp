// Ampacities of 2008, against public source code that states the tables as before 2011 (21 sizes). That copy
// has no 700, 800 and 900 kcmil: copper there is as from 2011 on, aluminium in a raceway from memory,
// unverified, and 785 A at 900 kcmil in free air is the older number that a copy of the 2022 California code
// still prints.
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
    {"14 AWG", {20, 20, 25}, {}},
    {"12 AWG", {25, 25, 30}, {20, 20, 25}},
    {"10 AWG", {30, 35, 40}, {25, 30, 35}},
    {"8 AWG", {40, 50, 55}, {30, 40, 45}},
    {"6 AWG", {55, 65, 75}, {40, 50, 60}},
    {"4 AWG", {70, 85, 95}, {55, 65, 75}},
    {"3 AWG", {85, 100, 110}, {65, 75, 85}},
    {"2 AWG", {95, 115, 130}, {75, 90, 100}},
    {"1 AWG", {110, 130, 150}, {85, 100, 115}},
    {"1/0 AWG", {125, 150, 170}, {100, 120, 135}},
    {"2/0 AWG", {145, 175, 195}, {115, 135, 150}},
    {"3/0 AWG", {165, 200, 225}, {130, 155, 175}},
    {"4/0 AWG", {195, 230, 260}, {150, 180, 205}},
    {"250 kcmil", {215, 255, 290}, {170, 205, 230}},
    {"300 kcmil", {240, 285, 320}, {190, 230, 255}},
    {"350 kcmil", {260, 310, 350}, {210, 250, 280}},
    {"400 kcmil", {280, 335, 380}, {225, 270, 305}},
    {"500 kcmil", {320, 380, 430}, {260, 310, 350}},
    {"600 kcmil", {355, 420, 475}, {285, 340, 385}},
    {"700 kcmil", {385, 460, 520}, {310, 375, 420}},
    {"750 kcmil", {400, 475, 535}, {320, 385, 435}},
    {"800 kcmil", {410, 490, 555}, {330, 395, 445}},
    {"900 kcmil", {435, 520, 585}, {355, 425, 480}},
    {"1000 kcmil", {455, 545, 615}, {375, 445, 500}},
};

const std::vector<Row> free_air{
    {"14 AWG", {25, 30, 35}, {}},
    {"12 AWG", {30, 35, 40}, {25, 30, 35}},
    {"10 AWG", {40, 50, 55}, {35, 40, 40}},
    {"8 AWG", {60, 70, 80}, {45, 55, 60}},
    {"6 AWG", {80, 95, 105}, {60, 75, 80}},
    {"4 AWG", {105, 125, 140}, {80, 100, 110}},
    {"3 AWG", {120, 145, 165}, {95, 115, 130}},
    {"2 AWG", {140, 170, 190}, {110, 135, 150}},
    {"1 AWG", {165, 195, 220}, {130, 155, 175}},
    {"1/0 AWG", {195, 230, 260}, {150, 180, 205}},
    {"2/0 AWG", {225, 265, 300}, {175, 210, 235}},
    {"3/0 AWG", {260, 310, 350}, {200, 240, 275}},
    {"4/0 AWG", {300, 360, 405}, {235, 280, 315}},
    {"250 kcmil", {340, 405, 455}, {265, 315, 355}},
    {"300 kcmil", {375, 445, 505}, {290, 350, 395}},
    {"350 kcmil", {420, 505, 570}, {330, 395, 445}},
    {"400 kcmil", {455, 545, 615}, {355, 425, 480}},
    {"500 kcmil", {515, 620, 700}, {405, 485, 545}},
    {"600 kcmil", {575, 690, 780}, {455, 540, 615}},
    {"700 kcmil", {630, 755, 850}, {500, 595, 670}},
    {"750 kcmil", {655, 785, 885}, {515, 620, 700}},
    {"800 kcmil", {680, 815, 920}, {535, 645, 725}},
    {"900 kcmil", {730, 870, 980}, {580, 700, 785}},
    {"1000 kcmil", {780, 935, 1055}, {625, 750, 845}},
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

TEST_CASE("ampacity in a raceway, 2008") {
  check_table(edition_of("2008").raceway, raceway);
}

TEST_CASE("ampacity in free air, 2008") {
  check_table(edition_of("2008").free_air, free_air);
}
