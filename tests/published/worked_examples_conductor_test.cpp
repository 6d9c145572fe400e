// Published worked examples: ampacity, terminals, grounding conductors, voltage drop.
#include "tests/published/worked_examples.hpp"
#include "tests/support/approx.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;
using namespace boxproof::test;
using namespace boxproof::test::worked;

namespace {

RunAmpacity ampacity(std::string_view size, double ambient, unsigned carrying, std::string_view edition,
                     Method method = Method::raceway, double insulation = 90) {
  const Conductor wire = copper(size, insulation);
  const Run run = run_of(wire, ambient, carrying, method);
  return run_ampacity(&run, Amps(1), std::nullopt, edition_of(edition));
}

// The edition with this resistance of its stranded 12 AWG copper.
Edition with_resistance(double ohm_per_km) {
  Edition e = edition_of("2017");
  e.resistance.stranded_ohm_per_km[0][Size::parse("12 AWG")->index()] = ohm_per_km;
  return e;
}

double drop(const Edition& e, double length, double current, double voltage) {
  const Conductor wire = copper("12 AWG");
  Run run = run_of(wire, 30);
  run.length = Metres(length);
  return *drop_pct(run, Amps(current), Volts(voltage), e);
}

constexpr double foot = 0.3048;             // m
constexpr double per_km_of_kft = 1 / foot;  // Ω/km of one Ω/kft

}  // namespace

TEST_CASE("largest module on source conductors, nine of them in a raceway at 47 °C") {
  // Sizing PV source circuit conductors with all NEC correction factors, a public training page (the table
  // stood in a permit guide of 2009 to 2012): ampacity at 90 °C · 0.82 · 0.70 / 1.25, printed with two
  // digits.
  struct Row {
    std::string_view size;
    double at_90, published, exact;
  };
  const std::vector<Row> rows{
      {"10 AWG", 40, 18.37, 18.368}, {"12 AWG", 30, 13.78, 13.776}, {"14 AWG", 25, 11.48, 11.48}};
  for (const std::string_view edition : {"2011", "2014"})
    for (const Row& r : rows) {
      CAPTURE(std::string(edition), std::string(r.size));
      const RunAmpacity a = ampacity(r.size, 47, 9, edition);
      CHECK(a.correction == 0.82);
      CHECK(a.adjustment == 0.70);
      CHECK(a.in_use->value() == Approx(r.at_90 * 0.82 * 0.70).epsilon(1e-12));
      CHECK(a.in_use->value() / 1.25 == Approx(r.exact).epsilon(1e-12));
      CHECK(std::abs(r.exact - r.published) < 0.005);
    }
}

TEST_CASE("10 AWG for 13.87 A at 40 °C, four conductors, terminals of 75 °C") {
  // Plan sheet PV-4.1 in a city's public documents, 2024: 13.87 · 1.56 = 21.64 A (exactly 21.671875), 40 ·
  // 0.91 · 0.8 = 29.12 A, terminals 35 A.
  CHECK(least_fuse(13.87) == Approx(21.671875).epsilon(1e-12));
  CHECK(13.87 * 1.56 == Approx(21.64).margin(0.005));
  for (const std::string_view edition : {"2017", "2020"}) {
    const RunAmpacity a = ampacity("10 AWG", 40, 4, edition);
    CHECK(a.in_use->value() == Approx(29.12).epsilon(1e-12));
    CHECK(a.terminal->value() == 35);
    CHECK_FALSE(exceeds(least_fuse(13.87), a.in_use->value()));
  }
}

TEST_CASE("smallest conductor for 8.8 A") {
  // PV Circuit Sizing & Current Calculations, a magazine on home power, 2014 edition: 14 AWG carries 13.75 A
  // at 75 °C.
  const Conductor wire = copper("10 AWG");
  const Run run = run_of(wire, 30);
  CHECK(smallest_size(run, Amps(1.25 * 8.8), std::nullopt, edition_of("2014"))->name() == "14 AWG");
}

TEST_CASE("terminals of 75 °C under a 40 A device") {
  // Mailing list, 2014, on temperature compensation: 10 AWG has 35 A at 75 °C and is too small, 8 AWG has 50
  // A. It holds the terminal against the device; the program holds it against the duty of the circuit, which
  // is smaller.
  CHECK(ampacity("10 AWG", 30, 2, "2011").terminal->value() == 35);
  CHECK(ampacity("8 AWG", 30, 2, "2011").terminal->value() == 50);
  CHECK(ampacity("10 AWG", 30, 2, "2011").in_use->value() == 40);  // the wire alone would do
}

TEST_CASE("factors for heat, read by band") {
  // Q&A of an inspectors' magazine, 2008: no factor above 80 °C for 90 °C insulation. The tables since 2011
  // go to 85.
  CHECK(ampacity("10 AWG", 80, 2, "2008").correction == 0.41);
  for (const double ambient : {80.5, 81.0, 85.0}) {
    CHECK(ampacity("10 AWG", ambient, 2, "2008").correction == 0);
    CHECK(ampacity("10 AWG", ambient, 2, "2008").in_use->value() == 0);
  }
  CHECK(ampacity("10 AWG", 85, 2, "2011").correction == 0.29);
  CHECK(ampacity("10 AWG", 85.5, 2, "2011").correction == 0);
  // Mailing list, 2014: 62 °C is in the band 61 to 65 of the table with a 30 °C base. The other table (40 °C
  // base, 0.71) does not go with Table 310.15(B)(16).
  CHECK(ampacity("10 AWG", 62, 2, "2011").correction == 0.65);
  // Newsletter on rooftop conduit, 2008: 75 °F and 30 °F for the roof make 105 °F, 40.6 °C: 0.87, and 100 A
  // become 87 A. Cut down to 40 °C it would be 0.91.
  CHECK(ampacity("10 AWG", (105 - 32) / 1.8, 2, "2008").correction == 0.87);
  CHECK(ampacity("10 AWG", 40, 2, "2008").correction == 0.91);
}

TEST_CASE("equipment grounding conductors") {
  struct Row {
    std::string_view source, edition;
    double device;
    std::string_view size;
  };
  const std::vector<Row> rows{
      {"trade magazine on 690.45(A), three strings", "2008", 15, "14 AWG"},
      {"same passage: 30, 40 and 60 A alike", "2008", 30, "10 AWG"},
      {"same passage: 30, 40 and 60 A alike", "2008", 40, "10 AWG"},
      {"same passage: 30, 40 and 60 A alike", "2008", 60, "10 AWG"},
      {"Code Quiz of an electrical contractors' magazine, 2008 to 2014", "2008", 30, "10 AWG"},
      {"Code Quiz of an electrical contractors' magazine, 2008 to 2014", "2011", 30, "10 AWG"},
      {"Code Quiz of an electrical contractors' magazine, 2008 to 2014", "2014", 30, "10 AWG"},
      {"study question on PV EGC, 2014 and later", "2014", 20, "12 AWG"},
      {"study question on PV EGC, 2014 and later", "2023", 20, "12 AWG"},
  };
  for (const Row& r : rows) {
    CAPTURE(std::string(r.source), std::string(r.edition), r.device);
    CHECK(grounding_size(Amps(r.device), Material::copper, edition_of(r.edition))->name() == r.size);
  }
}

TEST_CASE("voltage drop, there and back") {
  // Run length and power loss sheet for 12 AWG: 5 A over 10 ft at 1.6 Ω/kft drop 0.16 V, 1.33 % of 12 V
  // (exactly 4/3).
  const double sheet = drop(with_resistance(1.6 * per_km_of_kft), 10 * foot, 5, 12);
  CHECK(sheet == Approx(4.0 / 3).epsilon(1e-12));
  CHECK(std::abs(sheet - 1.33) < 0.005);
  // Its 1.6 Ω/kft is cold copper; the 75 °C of Chapter 9 Table 8, which the program reads, gives a fifth
  // more.
  CHECK(drop(edition_of("2017"), 10 * foot, 5, 12) > 1.2 * sheet);
  // Forum: 2 Ω/kft, 30 ft, 10 A: 0.6 V one way, 1.2 V both.
  CHECK(drop(with_resistance(2 * per_km_of_kft), 30 * foot, 10, 100) == Approx(1.2).epsilon(1e-12));
}

TEST_CASE("lengths for 1 % loss: 5 kW at 700 V, as loop lengths of 4 and 6 mm²") {
  // Inverter manual, PV cable dimensions and layout (IEC): 0.98 Ω; 4.8 Ω/km gives 204 m, printed 200; 3.4
  // Ω/km gives 288 m, printed 300, which is more than 1 %.
  const double current = 5000.0 / 700;
  CHECK(drop(with_resistance(4.8), 0.98 / 4.8 * 1000 / 2, current, 700) == Approx(1).epsilon(1e-12));
  CHECK(drop(with_resistance(3.4), 0.98 / 3.4 * 1000 / 2, current, 700) == Approx(1).epsilon(1e-12));
  CHECK_FALSE(exceeds(drop(with_resistance(4.8), 100, current, 700), 1.0));
  CHECK(exceeds(drop(with_resistance(3.4), 150, current, 700), 1.0));
}

TEST_CASE("to recognise: an output of 35.5 A on 8 AWG called good enough") {
  // Off-grid notes in a public repository: about 55 A needed (35.5 · 1.56 = 55.38; exactly 55.46875), 50 A
  // there at 75 °C, and the shortfall accepted.
  CHECK(35.5 * 1.5625 == 55.46875);
  CHECK(std::floor(35.5 * 1.56) == 55);
  CHECK(exceeds(35.5 * 1.56, ampacity("8 AWG", 30, 2, "2017").terminal->value()));
  const Conductor wire = copper("8 AWG");
  const Run run = run_of(wire, 30);
  CHECK(smallest_size(run, Amps(1.25 * 35.5), std::nullopt, edition_of("2017"))->name() == "6 AWG");
}
