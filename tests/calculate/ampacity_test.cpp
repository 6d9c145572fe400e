// Ampacity of a run: which column is read, terminals, parallel conductors, what is lacking. Values are cells
// of NFPA 70 Tables 310.15(B)(16) and (17) (310.16 and 310.17 from 2020 on) as tests/published holds them.
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/laid.hpp"

using namespace boxproof;
using boxproof::test::Laid;

namespace {

constexpr Material cu = Material::copper, al = Material::aluminum;
constexpr Method raceway = Method::raceway, free_air = Method::free_air;

}  // namespace

TEST_CASE("the column of the insulation, capped at 90 degrees") {
  struct Row {
    std::string_view size;
    Material material;
    double rating;
    Method method;
    int column;
    double amps;
  };
  const std::vector<Row> rows{
      {"10 AWG", cu, 60, raceway, 60, 30},      {"10 AWG", cu, 75, raceway, 75, 35},
      {"10 AWG", cu, 90, raceway, 90, 40},      {"10 AWG", cu, 105, raceway, 90, 40},
      {"10 AWG", cu, 250, free_air, 90, 55},    {"10 AWG", cu, 60, free_air, 60, 40},
      {"4/0 AWG", al, 75, raceway, 75, 180},    {"4/0 AWG", al, 90, free_air, 90, 315},
      {"1000 kcmil", cu, 90, raceway, 90, 615}, {"12 AWG", al, 60, raceway, 60, 15},
  };
  for (const Row& row : rows) {
    CAPTURE(row.size, row.rating, row.column);
    const RunAmpacity a =
        Laid(row.size, row.material, "THWN-2", row.rating, row.method).ampacity(edition_of("2017"));
    CHECK(a.insulation_column == row.column);
    REQUIRE(a.in_use.has_value());
    CHECK(a.in_use->value() == row.amps);
    CHECK(a.correction == 1);
    CHECK(a.adjustment == 1);
  }
}

TEST_CASE("hotter PV wire has its own columns in raceways of 2020 and 2023") {
  struct Row {
    std::string_view edition, insulation, size;
    Material material;
    double rating;
    Method method;
    int column;
    double amps;
  };
  // 10 AWG copper: 40 A at 90 °C, 46 at 105, 50 at 125; free air 55 at 90.
  const std::vector<Row> rows{
      {"2020", "PV wire", "10 AWG", cu, 90, raceway, 90, 40},
      {"2020", "PV wire", "10 AWG", cu, 104, raceway, 90, 40},
      {"2020", "PV wire", "10 AWG", cu, 105, raceway, 105, 46},
      {"2020", "PV wire", "10 AWG", cu, 124, raceway, 105, 46},
      {"2020", "PV wire", "10 AWG", cu, 125, raceway, 125, 50},
      {"2020", "PV wire", "10 AWG", cu, 150, raceway, 125, 50},
      {"2023", "PV wire", "10 AWG", cu, 105, raceway, 105, 46},
      {"2023", "PV wire", "4/0 AWG", cu, 125, raceway, 125, 325},
      {"2023", "PV wire", "10 AWG", cu, 125, free_air, 90, 55},     // no such column in free air
      {"2023", "THWN-2", "10 AWG", cu, 125, raceway, 90, 40},       // another wire
      {"2023", "PV wire", "250 kcmil", cu, 125, raceway, 90, 290},  // beyond the columns' last size
      {"2023", "PV wire", "10 AWG", al, 125, raceway, 90, 35},      // copper only
      {"2017", "PV wire", "10 AWG", cu, 125, raceway, 90, 40},      // before there were any
      {"2008", "PV wire", "10 AWG", cu, 105, raceway, 90, 40},
  };
  for (const Row& row : rows) {
    CAPTURE(row.edition, row.insulation, row.size, row.rating);
    const Laid laid(row.size, row.material, std::string(row.insulation), row.rating, row.method);
    const RunAmpacity a = laid.ampacity(edition_of(row.edition));
    CHECK(a.insulation_column == row.column);
    REQUIRE(a.in_use.has_value());
    CHECK(a.in_use->value() == row.amps);
    CHECK(a.terminal_column <= 90);
  }
}

TEST_CASE("terminals read the lower of their rating and the insulation's") {
  struct Row {
    double insulation;
    int terminal, column;
    double amps;
  };
  // 10 AWG copper in a raceway: 30, 35, 40 A at 60, 75, 90 °C.
  const std::vector<Row> rows{{90, 60, 60, 30}, {90, 75, 75, 35}, {90, 90, 90, 40},  {75, 60, 60, 30},
                              {75, 90, 75, 35}, {60, 75, 60, 30}, {125, 90, 90, 40}, {125, 75, 75, 35}};
  for (std::string_view edition : {"2011", "2023"})
    for (const Row& row : rows) {
      CAPTURE(edition, row.insulation, row.terminal);
      Laid laid("10 AWG", cu, "PV wire", row.insulation);
      laid.run.terminal = static_cast<std::uint8_t>(row.terminal);
      const RunAmpacity a = laid.ampacity(edition_of(edition));
      CHECK(a.terminal_column == row.column);
      CHECK(a.terminal->value() == row.amps);
    }
}

TEST_CASE("terminals without a rating: 60 degrees up to 100 A or 1 AWG, 75 above") {
  struct Row {
    std::string_view size;
    double max;
    int column;
    double amps;
  };
  const std::vector<Row> rows{
      {"10 AWG", 10, 60, 30},
      {"1 AWG", 150, 60, 110},
      {"1/0 AWG", 99.9, 60, 125},
      {"1/0 AWG", 100, 60, 125},
      {"1/0 AWG", 100.00000001, 60, 125},  // within the slack
      {"1/0 AWG", 100.001, 75, 150},
      {"1 AWG", 100.001, 60, 110},
      {"250 kcmil", 100, 60, 215},
      {"250 kcmil", 101, 75, 255},
  };
  for (std::string_view edition : {"2011", "2014", "2017", "2020", "2023"})
    for (const Row& row : rows) {
      CAPTURE(edition, row.size, row.max);
      Laid laid(row.size, cu, "THWN-2", 90);
      laid.run.terminal = 0;
      const RunAmpacity a = laid.ampacity(edition_of(edition), row.max);
      CHECK(a.terminal_column == row.column);
      CHECK(a.terminal->value() == row.amps);
    }
  Laid cool("1/0 AWG", cu, "TW", 60);  // a 60 °C insulation is no better on 75 °C terminals
  cool.run.terminal = 0;
  CHECK(cool.ampacity(edition_of("2017"), 150).terminal->value() == 125);
}

TEST_CASE("parallel conductors add up, at the terminals and where they lie") {
  Laid laid("1/0 AWG", cu, "XHHW-2", 90);  // 170 A at 90 °C, 150 at 75
  laid.run.terminal = 75;
  laid.run.ambient = Celsius(36);  // 0.91
  laid.run.current_carrying = 6;   // 0.8
  for (unsigned m : {1U, 2U, 3U, 4U}) {
    CAPTURE(m);
    laid.run.parallel = m;
    const RunAmpacity a = laid.ampacity(edition_of("2017"), 120);
    CHECK(a.terminal->value() == m * 150.0);
    CHECK(std::abs(a.in_use->value() - m * 123.76) < 1e-9);  // 170 · 0.91 · 0.8
  }
}

TEST_CASE("what is lacking is named, one thing at a time") {
  const Edition& e = edition_of("2017");
  const auto lack = [&](auto&& change) {
    Laid laid("10 AWG", cu, "PV wire", 90);
    change(laid);
    const RunAmpacity a = laid.ampacity(e);
    CHECK((a.lack == Lack::nothing) == a.in_use.has_value());
    CHECK(a.in_use.has_value() == a.terminal.has_value());
    return a.lack;
  };
  CHECK(run_ampacity(nullptr, Amps(10), Celsius(30), e).lack == Lack::run);
  CHECK(lack([](Laid&) {}) == Lack::nothing);
  CHECK(lack([](Laid& l) { l.run.conductor = nullptr; }) == Lack::conductor);
  CHECK(lack([](Laid& l) { l.conductor.size.reset(); }) == Lack::size);
  CHECK(lack([](Laid& l) { l.conductor.material.reset(); }) == Lack::material);
  CHECK(lack([](Laid& l) { l.conductor.insulation_temperature.reset(); }) == Lack::insulation_temperature);
  CHECK(lack([](Laid& l) { l.run.method.reset(); }) == Lack::method);
  CHECK(lack([](Laid& l) { l.run.ambient.reset(); }) == Lack::high_temperature);
  // 14 AWG aluminum is in no ampacity table.
  CHECK(lack([](Laid& l) {
          l.conductor.size = Size::parse("14 AWG");
          l.conductor.material = al;
        }) == Lack::table);
  CHECK(lack([](Laid& l) { l.conductor.insulation = ""; }) == Lack::nothing);  // the rating is what counts
}

TEST_CASE("the smallest size passes both tests, and the one below fails one of them") {
  struct Row {
    double max, ambient;
    Method method;
    std::string_view size;
  };
  // 75 °C terminals, 90 °C copper. Free air: 14 AWG 30/35, 12 AWG 35/40; raceway: 14 AWG 20/25, 12 AWG 25/30.
  const std::vector<Row> rows{
      {16, 30, raceway, "14 AWG"},       // 1.25 · 16 = 20
      {16.01, 30, raceway, "12 AWG"},    //
      {24, 30, free_air, "14 AWG"},      // 1.25 · 24 = 30
      {24.01, 30, free_air, "12 AWG"},   //
      {20.3, 50, free_air, "14 AWG"},    // 35 · 0.82 = 28.7
      {14.5, 60, raceway, "14 AWG"},     // 25 · 0.71 = 17.75
      {15, 70, raceway, "12 AWG"},       // 25 · 0.58 = 14.5 fails, 30 · 0.58 = 17.4
      {436, 30, raceway, "1000 kcmil"},  // 1.25 · 436 = 545
  };
  for (const Row& row : rows) {
    CAPTURE(row.max, row.ambient);
    Laid laid("6 AWG", cu, "PV wire", 90, row.method);
    laid.run.terminal = 75;
    laid.run.ambient = Celsius(row.ambient);
    const auto size = smallest_size(laid.run, Amps(row.max), std::nullopt, edition_of("2017"));
    REQUIRE(size.has_value());
    CHECK(size->name() == row.size);
  }
  Laid laid("6 AWG", cu, "PV wire", 90);
  laid.run.terminal = 75;
  CHECK_FALSE(smallest_size(laid.run, Amps(436.1), std::nullopt, edition_of("2017")));
  laid.run.ambient = Celsius(90);
  CHECK_FALSE(smallest_size(laid.run, Amps(1), std::nullopt, edition_of("2017")));
  laid.conductor.size.reset();  // what is suggested does not hang on the size that is planned
  laid.run.ambient = Celsius(30);
  CHECK(smallest_size(laid.run, Amps(16), std::nullopt, edition_of("2017"))->name() == "14 AWG");
  laid.conductor.material = al;  // aluminum starts at 12 AWG: 20 A at 75 °C
  CHECK(smallest_size(laid.run, Amps(16), std::nullopt, edition_of("2017"))->name() == "12 AWG");
  CHECK(smallest_size(laid.run, Amps(16.1), std::nullopt, edition_of("2017"))->name() == "10 AWG");
}
