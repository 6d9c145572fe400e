// Maximum voltage of a string, by hand: n · Voc · (1 + β/100 · (T − 25)), n · (Voc + βv · (T − 25)), n · Voc
// · K. The factors K are those of Table 690.7(A) (see published/cold_table_test.cpp).
#include <optional>
#include <utility>
#include <vector>

#include "boxproof/calculate.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

using namespace boxproof;
using Catch::Matchers::WithinRel;

namespace {

constexpr double exactly = 1e-15;  // relative: nothing is rounded but by the arithmetic itself

Module module_of(double voc) {
  Module m;
  m.id = "M";
  m.voc = Volts(voc);
  m.cell = Cell::mono_si;
  return m;
}

Module with_percent(double voc, double percent) {
  Module m = module_of(voc);
  m.voc_coefficient = PercentPerKelvin(percent);
  return m;
}

StringVoltage of(const Module& m, unsigned n, double low, std::string_view edition = "2017") {
  return string_voltage(m, n, Celsius(low), edition_of(edition));
}

void check_voltage(const StringVoltage& v, double volts, double factor) {
  CHECK(v.lack == Lack::nothing);
  REQUIRE(v.max);
  CHECK_THAT(v.max->value(), WithinRel(volts, exactly));
  CHECK_THAT(v.factor, WithinRel(factor, exactly));
}

}  // namespace

TEST_CASE("a coefficient in percent corrects in a straight line down from 25 °C") {
  struct Row {
    double low, factor, volts;  // 18 modules of 40 V at −0.3 %/°C: 720 V rated
  };
  for (const Row& r : std::vector<Row>{{-40, 1.195, 860.4},
                                       {-10, 1.105, 795.6},
                                       {0, 1.075, 774},
                                       {20, 1.015, 730.8},
                                       {24.9, 1.0003, 720.216},
                                       {25, 1, 720},
                                       {25.1, 1, 720},
                                       {30, 1, 720}}) {
    CAPTURE(r.low);
    check_voltage(of(with_percent(40, -0.3), 18, r.low), r.volts, r.factor);
  }
}

TEST_CASE("a coefficient in volts is that of one module") {
  struct Row {
    double low, factor, volts;  // 18 modules of 40 V at −0.12 V/°C, which is −0.3 %/°C
  };
  Module m = module_of(40);
  m.voc_coefficient_absolute = VoltsPerKelvin(-0.12);
  for (const Row& r : std::vector<Row>{{-40, 1.195, 860.4},  // 18 · (40 + 7.8)
                                       {-10, 1.105, 795.6},  // 18 · (40 + 4.2)
                                       {24.9, 1.0003, 720.216},
                                       {25, 1, 720},
                                       {28, 1, 720}}) {
    CAPTURE(r.low);
    check_voltage(of(m, 18, r.low), r.volts, r.factor);
  }
}

TEST_CASE("the table's factor at both ends of every band, and between two bands the colder") {
  const std::vector<std::pair<double, double>> expected{{40, 1},
                                                        {25, 1},
                                                        {24.999, 1.02},
                                                        {24, 1.02},
                                                        {20, 1.02},
                                                        {19.999, 1.04},
                                                        {19.5, 1.04},
                                                        {19, 1.04},
                                                        {15, 1.04},
                                                        {14.5, 1.06},
                                                        {14, 1.06},
                                                        {10, 1.06},
                                                        {9.5, 1.08},
                                                        {9, 1.08},
                                                        {5, 1.08},
                                                        {4.5, 1.10},
                                                        {4, 1.10},
                                                        {0, 1.10},
                                                        {-0.5, 1.12},
                                                        {-1, 1.12},
                                                        {-5, 1.12},
                                                        {-5.5, 1.14},
                                                        {-6, 1.14},
                                                        {-10, 1.14},
                                                        {-10.5, 1.16},
                                                        {-11, 1.16},
                                                        {-15, 1.16},
                                                        {-15.5, 1.18},
                                                        {-16, 1.18},
                                                        {-20, 1.18},
                                                        {-20.5, 1.20},
                                                        {-21, 1.20},
                                                        {-25, 1.20},
                                                        {-25.5, 1.21},
                                                        {-26, 1.21},
                                                        {-30, 1.21},
                                                        {-30.5, 1.23},
                                                        {-31, 1.23},
                                                        {-35, 1.23},
                                                        {-35.5, 1.25},
                                                        {-36, 1.25},
                                                        {-40, 1.25},
                                                        {-5 - 2e-9, 1.12} /* within the slack of 1e-9 */,
                                                        {-5 - 1e-8, 1.14}};
  for (const std::string_view edition : edition_names)
    for (const auto& [low, factor] : expected) {
      CAPTURE(edition, low);
      check_voltage(of(module_of(40), 18, low, edition), 720 * factor, factor);
    }
}

TEST_CASE("multicrystalline silicon has the same table") {
  Module m = module_of(40);
  m.cell = Cell::poly_si;
  check_voltage(of(m, 10, -10), 456, 1.14);  // 400 · 1.14
}

TEST_CASE("without a factor there is no voltage, and the lack says why") {
  Module thin = module_of(40), unknown = module_of(40);
  thin.cell = Cell::thin_film;
  unknown.cell.reset();
  struct Row {
    const char* what;
    Module module;
    std::optional<Celsius> low;
    Lack lack;
  };
  for (const Row& r :
       std::vector<Row>{{"colder than the table", module_of(40), Celsius(-40.001), Lack::coefficient},
                        {"far colder", module_of(40), Celsius(-60), Lack::coefficient},
                        {"thin film", thin, Celsius(-10), Lack::coefficient},
                        {"thin film, warm", thin, Celsius(30), Lack::coefficient},
                        {"no cell stated", unknown, Celsius(-10), Lack::cell},
                        {"no cell stated, warm", unknown, Celsius(30), Lack::cell},
                        {"no low temperature", module_of(40), std::nullopt, Lack::low_temperature},
                        {"no low temperature, but a coefficient", with_percent(40, -0.3), std::nullopt,
                         Lack::low_temperature}})
    for (const std::string_view edition : edition_names) {
      CAPTURE(r.what, edition);
      Working working;
      const StringVoltage v = string_voltage(r.module, 18, r.low, edition_of(edition), &working);
      CHECK_FALSE(v.max);
      CHECK(v.lack == r.lack);
      CHECK(working.empty());
    }
}

TEST_CASE("a coefficient goes before the table, always") {
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    check_voltage(of(with_percent(40, -0.3), 18, -10, edition), 795.6, 1.105);  // the table says 1.14
    check_voltage(of(with_percent(40, -0.3), 18, -50, edition), 882, 1.225);    // the table ends at −40 °C
    check_voltage(of(with_percent(40, 0), 18, -10, edition), 720, 1);           // zero is a coefficient too
    Module thin = with_percent(40, -0.3);
    thin.cell = Cell::thin_film;
    check_voltage(of(thin, 18, -10, edition), 795.6, 1.105);
    thin.cell.reset();
    check_voltage(of(thin, 18, -10, edition), 795.6, 1.105);
  }
}

TEST_CASE("no intermediate value is rounded") {
  // 19 · 49.53 · (1 + 0.0027 · 34.4) = 941.07 · 1.09288
  check_voltage(of(with_percent(49.53, -0.27), 19, -9.4), 1028.4765816, 1.09288);
  // 23 · 37.89 · 1.23 = 871.47 · 1.23
  check_voltage(of(module_of(37.89), 23, -32.7), 1071.9081, 1.23);
}

TEST_CASE("the working shows the formula that was used") {
  struct Row {
    Module module;
    double low;
    const char *formula, *numbers;
    std::size_t steps;
  };
  Module volts = module_of(40);
  volts.voc_coefficient_absolute = VoltsPerKelvin(-0.12);
  for (const Row& r :
       std::vector<Row>{{with_percent(40, -0.3), -10, "n · Voc · (1 + β / 100 · (T − 25))",
                         "18 · 40 · (1 + (−0.3) / 100 · ((−10) − 25))", 1},
                        {volts, -10, "n · (Voc + βv · (T − 25))", "18 · (40 + (−0.12) · ((−10) − 25))", 1},
                        {volts, 26, "n · Voc", "18 · 40", 1},
                        {module_of(40), -10, "n · Voc · K", "18 · 40 · 1.14", 2}}) {
    CAPTURE(r.formula);
    Working working;
    const StringVoltage v = string_voltage(r.module, 18, Celsius(r.low), edition_of("2017"), &working);
    REQUIRE(working.size() == r.steps);
    CHECK(working.back().symbol == "Vmax");
    CHECK(working.back().formula == r.formula);
    CHECK(working.back().numbers == r.numbers);
    CHECK(working.back().value == v.max->value());
    CHECK(working.back().unit == "V");
    CHECK(working.back().section == "690.7(A)");
    if (r.steps == 2) CHECK(working.front().section == "Table 690.7(A)");
    if (r.steps == 2) CHECK(working.front().value == 1.14);
  }
}
