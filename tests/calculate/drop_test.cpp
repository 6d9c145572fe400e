// Voltage drop: 100 · 2 · L · I · R / V, by hand. Resistances of NFPA 70 Chapter 9 Table 8 at 75 °C,
// uncoated, in ohm/km as the edition's data holds them (10 AWG copper: stranded 4.07, solid 3.97).
#include <cmath>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/laid.hpp"

using namespace boxproof;
using boxproof::test::Json;
using boxproof::test::Laid;

namespace {

constexpr Material cu = Material::copper, al = Material::aluminum;

bool near(double a, double b) {
  return std::abs(a - b) < 1e-9;
}

}  // namespace

TEST_CASE("voltage drop by hand") {
  struct Row {
    std::string_view size;
    Material material;
    Stranding stranding;
    double length, amps, volts;
    unsigned parallel;
    double pct;
  };
  const std::vector<Row> rows{
      // 2 · 20 m · 9 A · 4.07 Ω / 1000 m = 1.4652 V of 450 V
      {"10 AWG", cu, Stranding::coarse, 20, 9, 450, 1, 0.3256},
      {"10 AWG", cu, Stranding::fine, 20, 9, 450, 1, 0.3256},
      // 2 · 20 · 9 · 3.97 / 1000 = 1.4292 V
      {"10 AWG", cu, Stranding::solid, 20, 9, 450, 1, 0.3176},
      {"10 AWG", al, Stranding::solid, 20, 9, 450, 1, 0.5248},   // 6.56
      {"10 AWG", al, Stranding::coarse, 20, 9, 450, 1, 0.5352},  // 6.69
      // no solid conductor of 6 AWG in the table: stranded, 2 · 50 · 40 · 1.61 / 1000 = 6.44 V of 500 V
      {"6 AWG", cu, Stranding::solid, 50, 40, 500, 1, 1.288},
      // two and four in parallel: half and a quarter of 2 · 50 · 100 · 0.199 / 1000 = 1.99 V
      {"4/0 AWG", cu, Stranding::coarse, 50, 100, 500, 1, 0.398},
      {"4/0 AWG", cu, Stranding::coarse, 50, 100, 500, 2, 0.199},
      {"4/0 AWG", cu, Stranding::coarse, 50, 100, 500, 4, 0.0995},
      {"1000 kcmil", al, Stranding::coarse, 100, 400, 800, 2,
       0.348},  // 2 · 100 · 400 · 0.0696 / 1000 / 2 = 2.784 V
      {"10 AWG", cu, Stranding::coarse, 0, 9, 450, 1, 0},
  };
  for (std::string_view edition : edition_names)
    for (const Row& row : rows) {
      CAPTURE(edition, row.size, row.pct);
      Laid laid(row.size, row.material, "PV wire", 90);
      laid.conductor.stranding = row.stranding;
      laid.run.length = Metres(row.length);
      laid.run.parallel = row.parallel;
      const auto pct = drop_pct(laid.run, Amps(row.amps), Volts(row.volts), edition_of(edition));
      REQUIRE(pct.has_value());
      CHECK(near(*pct, row.pct));
    }
}

TEST_CASE("stranding that is not stated counts as stranded, the larger resistance") {
  Laid laid("10 AWG", cu, "PV wire", 90);
  laid.run.length = Metres(20);
  CHECK(near(*drop_pct(laid.run, Amps(9), Volts(450), edition_of("2017")), 0.3256));
}

TEST_CASE("a run that does not say enough has no drop") {
  const auto known = [](auto&& change) {
    Laid laid("10 AWG", cu, "PV wire", 90);
    laid.run.length = Metres(20);
    change(laid);
    return drop_pct(laid.run, Amps(9), Volts(450), edition_of("2017")).has_value();
  };
  CHECK(known([](Laid&) {}));
  CHECK_FALSE(known([](Laid& l) { l.run.length.reset(); }));
  CHECK_FALSE(known([](Laid& l) { l.run.conductor = nullptr; }));
  CHECK_FALSE(known([](Laid& l) { l.conductor.size.reset(); }));
  CHECK_FALSE(known([](Laid& l) { l.conductor.material.reset(); }));
  CHECK(known([](Laid& l) { l.run.method.reset(); }));  // how it is laid does not matter
}

TEST_CASE("the output carries the sum of Imp, at the lowest voltage of its strings") {
  Json design = test::sound_design();
  Json& box = design["combiners"][0];
  design["modules"]["N"] = {{"voc_v", 40}, {"isc_a", 8}, {"vmp_v", 32}, {"imp_a", 7.5}, {"pmax_w", 240}};
  Json second = box["circuits"][0];
  second["id"] = "2";
  second["module"] = "N";
  second["series"] = 14;  // 14 · 32 V = 448 V, below 18 · 25 V = 450 V
  second["strings"] = 4;
  second["strings_per_fuse"] = 2;
  box["circuits"].push_back(second);
  const auto judged = test::judge(design);
  const Design& d = judged->design.design;
  const auto point = operating_point(d.combiners[0]);
  REQUIRE(point.has_value());
  CHECK(point->current == Amps(9 * 9 + 4 * 7.5));  // every string, joined ahead of a fuse or not
  CHECK(point->voltage == Volts(448));

  BoxFacts facts;
  box_facts(d, d.combiners[0], judged->edition, facts);
  // 2 · 20 m · 111 A · 0.199 Ω / 1000 = 0.88356 V of 448 V
  REQUIRE(facts.output_drop_pct.has_value());
  CHECK(near(*facts.output_drop_pct, 0.88356 / 4.48));
  // 2 · 20 · 9 · 4.07 / 1000 of 450 V; two strings to a fuse: 2 · 20 · 15 · 4.07 / 1000 = 2.442 V of 448 V
  CHECK(near(*facts.circuits[0].drop_pct, 0.3256));
  CHECK(near(*facts.circuits[1].drop_pct, 2.442 / 4.48));
}

TEST_CASE("the order of the circuits does not matter to the lowest voltage") {
  for (const auto& [first, second, lowest] : {std::tuple{18, 17, 425.0}, {17, 18, 425.0}, {18, 18, 450.0}}) {
    CAPTURE(first, second);
    Json design = test::sound_design();
    Json& circuits = design["combiners"][0]["circuits"];
    circuits[0]["series"] = first;
    circuits.push_back(circuits[0]);
    circuits[1]["id"] = "2";
    circuits[1]["series"] = second;
    const auto judged = test::judge(design);
    CHECK(operating_point(judged->design.design.combiners[0])->voltage == Volts(lowest));
  }
}

TEST_CASE("one module without Imp or Vmp leaves the output without an operating point") {
  for (std::string_view key : {"imp_a", "vmp_v"}) {
    CAPTURE(key);
    Json design = test::sound_design();
    design["modules"]["M"].erase(std::string(key));
    design["modules"]["M"].erase("pmax_w");
    const auto judged = test::judge(design);
    const Design& d = judged->design.design;
    CHECK_FALSE(operating_point(d.combiners[0]).has_value());
    BoxFacts facts;
    box_facts(d, d.combiners[0], judged->edition, facts);
    CHECK_FALSE(facts.output_drop_pct.has_value());
    CHECK_FALSE(facts.circuits[0].drop_pct.has_value());
  }
}
