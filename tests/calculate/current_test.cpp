// Currents of a box, by hand: 1.25 · p · Isc for an input, their sum for the output, and what the others push
// back. The factor 1.25 is 690.8(A) in every edition (see published/limits_test.cpp).
#include <cstdint>
#include <string>
#include <vector>

#include "boxproof/calculate.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

using namespace boxproof;
using Catch::Matchers::WithinRel;

namespace {

constexpr double exactly = 1e-15;

Module module_of(double isc, double isc_rear = 0) {
  Module m;
  m.id = "M";
  m.isc = Amps(isc);
  if (isc_rear > 0) m.isc_front_and_rear = Amps(isc_rear);
  return m;
}

Circuit group(const Module& m, std::uint32_t strings, std::uint32_t per_fuse = 1, std::string id = "1") {
  Circuit c;
  c.id = std::move(id);
  c.module = &m;
  c.series = 18;
  c.strings = strings;
  c.strings_per_fuse = per_fuse;
  return c;
}

}  // namespace

TEST_CASE("maximum current of one input") {
  struct Row {
    double isc, rear;
    std::uint32_t per_fuse;
    double amps;
  };
  for (const Row& r : std::vector<Row>{{9.6, 0, 1, 12},
                                       {9.6, 0, 2, 24},
                                       {9.6, 0, 3, 36},
                                       {9.6, 10.4, 1, 13},  // front and rear together, in place of the front
                                       {9.6, 10.4, 2, 26},
                                       {9.6, 9.6, 1, 12},
                                       {11.37, 0, 1, 14.2125}})
    for (const std::string_view edition : edition_names) {
      CAPTURE(edition, r.isc, r.rear, r.per_fuse);
      const Module m = module_of(r.isc, r.rear);
      CHECK_THAT(input_current(group(m, 12, r.per_fuse), edition_of(edition)).value(),
                 WithinRel(r.amps, exactly));
    }
}

TEST_CASE("the output adds up every input of every group") {
  const Module a = module_of(9.6), b = module_of(8), rear = module_of(9.6, 10.4);
  struct Row {
    std::vector<Circuit> circuits;
    double amps;
  };
  for (const Row& r : std::vector<Row>{{{}, 0},
                                       {{group(a, 1)}, 12},
                                       {{group(a, 9)}, 108},
                                       {{group(a, 8, 2)}, 96},                   // 4 inputs of 24 A
                                       {{group(a, 9), group(b, 3)}, 138},        // 108 + 3 · 10
                                       {{group(a, 6, 3), group(b, 4, 2)}, 112},  // 2 · 36 + 2 · 20
                                       {{group(rear, 4), group(a, 1)}, 64}})     // 4 · 13 + 12
    for (const std::string_view edition : edition_names) {
      CAPTURE(edition, r.amps);
      Combiner box;
      box.circuits = r.circuits;
      CHECK_THAT(output_current(box, edition_of(edition)).value(), WithinRel(r.amps, exactly));
    }
}

TEST_CASE("back current: the other inputs, the inverter, and strings joined on the same input") {
  const Module a = module_of(9.6), b = module_of(8), rear = module_of(9.6, 10.4);
  struct Row {
    const char* what;
    std::vector<Circuit> circuits;
    std::size_t faulted;
    double backfeed, amps;
  };
  for (const Row& r : std::vector<Row>{
           {"a string alone", {group(a, 1)}, 0, 0, 0},
           {"a string alone on an inverter that feeds back", {group(a, 1)}, 0, 7.5, 7.5},
           {"two strings", {group(a, 2)}, 0, 0, 12},
           {"nine strings", {group(a, 9)}, 0, 0, 96},
           {"nine strings, backfeed", {group(a, 9)}, 0, 3, 99},
           {"two joined strings alone", {group(a, 2, 2)}, 0, 0, 12},                     // (2 − 1) · 12
           {"three joined, two inputs", {group(a, 6, 3)}, 0, 0, 60},                     // 36 + 2 · 12
           {"three joined, two inputs, backfeed", {group(a, 6, 3)}, 0, 5, 65},           // 36 + 24 + 5
           {"the larger of two groups", {group(a, 3), group(b, 2)}, 0, 0, 44},           // 24 + 20
           {"the smaller of two groups", {group(a, 3), group(b, 2)}, 1, 0, 46},          // 36 + 10
           {"joined in one group only", {group(a, 4, 2), group(b, 2)}, 0, 1, 57},        // 24 + 20 + 12 + 1
           {"joined in the other group only", {group(a, 4, 2), group(b, 2)}, 1, 1, 59},  // 48 + 10 + 1
           {"bifacial, joined", {group(rear, 4, 2)}, 0, 0, 39}})                         // 26 + 13
    for (const std::string_view edition : edition_names) {
      CAPTURE(r.what, edition);
      Inverter inverter;
      inverter.backfeed = Amps(r.backfeed);
      Combiner box;
      box.inverter = &inverter;
      box.circuits = r.circuits;
      CHECK_THAT(back_current(box, box.circuits[r.faulted], edition_of(edition)).value(),
                 WithinRel(r.amps, exactly));
    }
}

TEST_CASE("strings joined ahead of a fuse add all but one of themselves") {
  struct Row {
    double isc, rear;
    std::uint32_t per_fuse;
    double amps;
  };
  for (const Row& r : std::vector<Row>{
           {9.6, 0, 1, 0}, {9.6, 0, 2, 12}, {9.6, 0, 3, 24}, {9.6, 10.4, 2, 13}, {8, 0, 5, 40}}) {
    CAPTURE(r.isc, r.per_fuse);
    const Module m = module_of(r.isc, r.rear);
    CHECK_THAT(joined_current(group(m, 30, r.per_fuse), edition_of("2017")).value(),
               WithinRel(r.amps, exactly));
  }
}

TEST_CASE("the workings of the currents") {
  const Module a = module_of(9.6), b = module_of(8);
  Inverter inverter;
  inverter.backfeed = Amps(3);
  Combiner box;
  box.inverter = &inverter;
  box.circuits = {group(a, 6, 2, "1"), group(b, 4, 1, "2")};
  Working working;
  const Amps back = back_current(box, box.circuits[0], edition_of("2017"), &working);
  REQUIRE(working.size() == 3);
  CHECK(working[0].symbol == "Iout");
  CHECK(working[0].formula == "N1 · I1 + N2 · I2");
  CHECK(working[0].numbers == "3 · 24 + 4 · 10");
  CHECK(working[0].value == 112);
  CHECK(working[0].section == "690.8(A)(2)");
  CHECK(working[1].symbol == "Imax");
  CHECK(working[1].formula == "k · p · Isc");
  CHECK(working[1].numbers == "1.25 · 2 · 9.6");
  CHECK(working[1].value == 24);
  CHECK(working[1].section == "690.8(A)(1)(1)");
  CHECK(working[2].symbol == "Iback");
  CHECK(working[2].numbers == "112 − 24 + 3 + 1.25 · (2 − 1) · 9.6");
  CHECK(working[2].value == back.value());
  CHECK(back.value() == 103);
  for (const Step& step : working) CHECK(step.unit == "A");
}
