// Correction of ampacity for heat and adjustment for company. Factors of NFPA 70 Table 310.15(B)(2)(a)
// (310.15(B)(1), 310.15(B)(1)(1)) and 310.15(B)(3)(a), as tests/published holds them; roof adders by code
// change summaries (2017 on), heights of 2008 to 2014 from memory, unverified.
#include <cmath>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/laid.hpp"

using namespace boxproof;
using boxproof::test::Laid;

namespace {

double correction(std::string_view edition, double rating, double ambient,
                  std::string insulation = "THWN-2") {
  Laid laid("10 AWG", Material::copper, std::move(insulation), rating);
  laid.run.ambient = Celsius(ambient);
  return laid.ampacity(edition_of(edition)).correction;
}

double hot_ambient(std::string_view edition, double height_mm, std::string insulation) {
  Laid laid("10 AWG", Material::copper, std::move(insulation), 90);
  laid.run.above_roof = Millimetres(height_mm);
  return laid.ampacity(edition_of(edition)).ambient.value();
}

}  // namespace

TEST_CASE("a temperature between two bands takes the hotter one") {
  struct Row {
    double rating, ambient, factor;
  };
  const std::vector<Row> rows{
      {90, -40, 1.15},  {90, 10, 1.15},   {90, 10.5, 1.12}, {90, 11, 1.12},          {90, 30, 1.0},
      {90, 30.1, 0.96}, {90, 31, 0.96},   {90, 36, 0.91},   {90, 40, 0.91},          {90, 40.5, 0.87},
      {90, 41, 0.87},   {90, 45, 0.87},   {75, 40, 0.88},   {75, 40.5, 0.82},        {75, 41, 0.82},
      {60, 40, 0.82},   {60, 40.5, 0.71}, {60, 41, 0.71},   {90, 85, 0.29},          {90, 85.5, 0},
      {90, 90, 0},      {90, 100, 0},     {75, 70, 0.33},   {75, 70.5, 0},           {75, 75, 0},
      {60, 55, 0.41},   {60, 55.5, 0},    {60, 60, 0},      {90, 40.00000001, 0.91},
  };
  for (std::string_view edition : {"2011", "2014", "2017", "2020", "2023"})
    for (const Row& row : rows) {
      CAPTURE(edition, row.rating, row.ambient);
      CHECK(correction(edition, row.rating, row.ambient) == row.factor);
    }
}

TEST_CASE("the bands of 2008 start at 25 degrees and are wider at the hot end") {
  struct Row {
    double ambient, factor;
  };
  const std::vector<Row> rows{{0, 1.04},    {25, 1.04}, {25.5, 1.0}, {40, 0.91}, {40.5, 0.87}, {60, 0.71},
                              {60.5, 0.58}, {65, 0.58}, {70, 0.58},  {71, 0.41}, {80, 0.41},   {80.5, 0}};
  for (const Row& row : rows) {
    CAPTURE(row.ambient);
    CHECK(correction("2008", 90, row.ambient) == row.factor);
  }
}

TEST_CASE("hotter PV wire has its own factors in 2020 and 2023") {
  struct Row {
    double rating, ambient, factor;
  };
  const std::vector<Row> rows{{105, 30, 1},     {105, 40, 0.93}, {105, 40.5, 0.89}, {105, 100, 0.26},
                              {105, 100.5, 0},  {105, 105, 0},   {125, 40, 0.95},   {125, 41, 0.92},
                              {125, 120, 0.23}, {125, 120.5, 0}, {125, 125, 0}};
  for (std::string_view edition : {"2020", "2023"})
    for (const Row& row : rows) {
      CAPTURE(edition, row.rating, row.ambient);
      CHECK(correction(edition, row.rating, row.ambient, "PV wire") == row.factor);
    }
  CHECK(correction("2017", 125, 41, "PV wire") == 0.87);
}

TEST_CASE("past the end of the table nothing is left") {
  Laid laid("10 AWG", Material::copper, "THWN-2", 90);
  laid.run.ambient = Celsius(90);
  const RunAmpacity a = laid.ampacity(edition_of("2017"));
  CHECK(a.lack == Lack::nothing);
  CHECK(a.in_use->value() == 0);
  CHECK(a.terminal->value() == 40);
}

TEST_CASE("an ambient at the conductor's own temperature leaves nothing, even in a table that runs on") {
  Edition e = edition_of("2017");
  e.correction.bands.back().up_to = Celsius(120);  // 0.29 at 90 °C
  Laid laid("10 AWG", Material::copper, "THWN-2", 90);
  for (const auto& [ambient, factor] : {std::pair{89.9, 0.29}, std::pair{90.0, 0.0}, std::pair{100.0, 0.0}}) {
    CAPTURE(ambient);
    laid.run.ambient = Celsius(ambient);
    CHECK(laid.ampacity(e).correction == factor);
  }
}

TEST_CASE("an amendment may ask for the formula in place of the table") {
  const auto amended = test::judge(test::with(
      {{"code",
        {{"edition", "2023"}, {"amendments", {{"conductor", {{"correction", {{"method", "formula"}}}}}}}}}}));
  const Edition& e = amended->edition;
  REQUIRE(e.correction_method == CorrectionMethod::formula);
  struct Row {
    std::string insulation;
    double rating;
    int column;
  };
  for (const Row& row : std::vector<Row>{{"THWN-2", 60, 60},
                                         {"THWN-2", 75, 75},
                                         {"THWN-2", 90, 90},
                                         {"PV wire", 105, 105},
                                         {"PV wire", 125, 125}})
    for (double ambient :
         {0.0, 25.0, 30.0, 33.3, 40.0, 40.5, 41.0, 55.0, 59.9, 60.0, 74.9, 75.0, 89.0, 90.0, 130.0}) {
      CAPTURE(row.insulation, row.column, ambient);
      Laid laid("10 AWG", Material::copper, row.insulation, row.rating);
      laid.run.ambient = Celsius(ambient);
      const RunAmpacity a = laid.ampacity(e);
      const double tc = row.column;
      const double expected = ambient >= tc ? 0 : std::sqrt((tc - ambient) / (tc - 30));
      CHECK(std::abs(a.correction - expected) < 1e-12);
    }
  // sqrt(54 / 60) by hand, where the table says 0.91.
  Laid laid("10 AWG", Material::copper, "THWN-2", 90);
  laid.run.ambient = Celsius(36);
  CHECK(std::abs(laid.ampacity(e).correction - 0.9486832980505138) < 1e-12);
}

TEST_CASE("more than three conductors that carry current") {
  struct Row {
    unsigned carrying;
    double factor;
  };
  const std::vector<Row> rows{{1, 1},     {2, 1},    {3, 1},    {4, 0.8},   {6, 0.8},
                              {7, 0.7},   {9, 0.7},  {10, 0.5}, {20, 0.5},  {21, 0.45},
                              {30, 0.45}, {31, 0.4}, {40, 0.4}, {41, 0.35}, {200, 0.35}};
  for (std::string_view edition : edition_names)
    for (const Row& row : rows) {
      CAPTURE(edition, row.carrying);
      Laid laid("10 AWG", Material::copper, "THWN-2", 90);
      laid.run.current_carrying = row.carrying;
      const RunAmpacity a = laid.ampacity(edition_of(edition));
      CHECK(a.adjustment == row.factor);
      CHECK(a.in_use->value() == 40 * row.factor);
      CHECK(a.terminal->value() == 40);  // terminals do not mind the company
    }
}

TEST_CASE("heat over a sunlit roof, by height and edition, on 30 degrees") {
  struct Row {
    std::string_view edition;
    double height, adder;
  };
  std::vector<Row> rows{{"2017", 0, 33},    {"2017", 22.9, 33}, {"2017", 23, 0},  {"2017", 23.1, 0},
                        {"2020", 22.9, 33}, {"2020", 23, 0},    {"2020", 900, 0}, {"2023", 0, 33},
                        {"2023", 18.9, 33}, {"2023", 19, 0},    {"2023", 22, 0}};
  for (std::string_view edition : {"2008", "2011", "2014"})
    for (const Row& row : std::vector<Row>{{"", 0, 33},
                                           {"", 13, 33},
                                           {"", 13.1, 22},
                                           {"", 90, 22},
                                           {"", 90.1, 17},
                                           {"", 300, 17},
                                           {"", 300.1, 14},
                                           {"", 900, 14},
                                           {"", 900.1, 0}})
      rows.push_back({edition, row.height, row.adder});
  for (const Row& row : rows) {
    CAPTURE(row.edition, row.height);
    CHECK(hot_ambient(row.edition, row.height, "THWN-2") == 30 + row.adder);
    const bool exempts = row.edition >= "2014";  // XHHW-2, from 2014 on
    CHECK(hot_ambient(row.edition, row.height, "XHHW-2") == 30 + (exempts ? 0 : row.adder));
    for (const char* print : {"xhhw-2", "XHHW-2/RHW-2", "RHW-2 or Xhhw-2"})
      CHECK(hot_ambient(row.edition, row.height, print) == 30 + (exempts ? 0 : row.adder));
    CHECK(hot_ambient(row.edition, row.height, "XHHW") == 30 + row.adder);
  }
}

TEST_CASE("the adder goes to raceways and cables alike, and only where a height is stated") {
  for (Method method : {Method::raceway, Method::free_air}) {
    Laid laid("10 AWG", Material::copper, "PV wire", 90, method);
    laid.run.ambient = Celsius(36);
    CHECK(laid.ampacity(edition_of("2011")).ambient == Celsius(36));
    laid.run.above_roof = Millimetres(50);
    const RunAmpacity a = laid.ampacity(edition_of("2011"));
    CHECK(a.ambient == Celsius(58));
    CHECK(a.correction == 0.71);
  }
}

TEST_CASE("the ambient of the run goes before that of the site") {
  Laid laid("10 AWG", Material::copper, "THWN-2", 90);
  const Edition& e = edition_of("2017");
  laid.run.ambient = Celsius(50);
  CHECK(run_ampacity(&laid.run, Amps(10), Celsius(36), e).ambient == Celsius(50));
  CHECK(run_ampacity(&laid.run, Amps(10), Celsius(60), e).correction == 0.82);
  laid.run.ambient.reset();
  CHECK(run_ampacity(&laid.run, Amps(10), Celsius(36), e).ambient == Celsius(36));
  CHECK(run_ampacity(&laid.run, Amps(10), Celsius(36), e).correction == 0.91);
}
