// The box as found: what the record states replaces the plan's, and nothing else changes.
#include "src/check/as_built.hpp"

#include <fmt/format.h>

#include "tests/support/catch.hpp"
#include "tests/support/visit.hpp"

using namespace boxproof;

namespace {

// Groups as planned: near 8 × 18 at 11.6 A, far 4 × 18 at 13 A.
constexpr std::string_view two_groups = R"("circuits": [
  { "id": "near", "module": "M", "series": 18, "strings": 8, "run": { "conductor": "pv-10" } },
  { "id": "far", "module": "M-13", "series": 18, "strings": 4, "run": { "conductor": "pv-12" } } ])";
constexpr std::string_view joined = R"("circuits": [
  { "id": "rows", "module": "M", "series": 10, "strings": 24, "strings_per_fuse": 2 } ])";

std::vector<std::uint32_t> strings_of(const Combiner& box) {
  std::vector<std::uint32_t> out;
  for (const Circuit& c : box.circuits) out.push_back(c.strings);
  return out;
}

using Strings = std::vector<std::uint32_t>;

}  // namespace

TEST_CASE("a record that states nothing leaves the plan as it is, parts shared") {
  const VisitedPlan v("", "");
  CHECK(v.found.enclosure == v.plan.enclosure);
  CHECK(v.found.mounting == v.plan.mounting);
  CHECK(v.found.fuse == v.plan.fuse);
  CHECK(v.found.output == v.plan.output);
  CHECK(v.found.disconnect == v.plan.disconnect);
  CHECK(v.found.egc->size == v.plan.egc->size);
  CHECK(v.found.circuits.size() == 1);
  CHECK(v.found.circuits[0].strings == 12);
  CHECK(v.found.circuits[0].run->conductor == v.plan.circuits[0].run->conductor);
  CHECK(v.found.odd_fuses.empty());
  CHECK(v.own.conductors.empty());
}

TEST_CASE("a record that agrees with the plan keeps the parts shared, too") {
  const VisitedPlan v("", R"("count": { "positive": 12, "negative": 12, "fuses": 12, "series": 18 },
      "fuse": { "a": 20, "v": 1500, "dc": true, "pv_listed": true, "poles": "one" },
      "enclosure": { "type": "4x", "cover": "side", "air_gap_mm": 10, "listed": true },
      "disconnect": { "present": true, "rated_v": 1500 },
      "output": { "size": "300 kcmil", "insulation": "rhw-2" }, "source": { "size": "10 AWG" })");
  CHECK(v.found.fuse == v.plan.fuse);
  CHECK(v.found.enclosure == v.plan.enclosure);
  CHECK(v.found.mounting == v.plan.mounting);
  CHECK(v.found.disconnect == v.plan.disconnect);
  CHECK(v.found.output == v.plan.output);
  CHECK(v.own.conductors.empty());
}

TEST_CASE("the count of strings") {
  const auto counted = [](std::string_view box, std::string_view seen) {
    const VisitedPlan v(box, seen);
    return counted_strings(v.plan, v.visited);
  };
  CHECK_FALSE(counted("", ""));
  CHECK(counted("", R"("count": { "positive": 13 })")->strings == 13);
  CHECK(counted("", R"("count": { "negative": 11 })")->key == "negative");
  CHECK(counted("", R"("count": { "positive": 11, "negative": 13 })")->strings == 13);
  CHECK(counted("", R"("count": { "positive": 13, "negative": 11 })")->key == "positive");
  // Two strings to a fuse: 12 inputs or 24 strings are both as planned; else whichever is nearer, and inputs
  // at 18, which is as near to both. Two strings an input.
  CHECK(counted(joined, R"("count": { "positive": 12 })")->strings == 24);
  CHECK(counted(joined, R"("count": { "positive": 24 })")->strings == 24);
  CHECK(counted(joined, R"("count": { "positive": 11 })")->strings == 22);
  CHECK(counted(joined, R"("count": { "positive": 18 })")->strings == 36);
  CHECK(counted(joined, R"("count": { "positive": 19 })")->strings == 19);
  CHECK(counted(joined, R"("count": { "positive": 23 })")->strings == 23);
  CHECK(counted(joined, R"("count": { "positive": 11 })")->as_inputs);
  CHECK_FALSE(counted(joined, R"("count": { "positive": 23 })")->as_inputs);
  CHECK_FALSE(counted("", R"("count": { "positive": 13 })")->as_inputs);
  CHECK(counted(joined, R"("count": { "positive": 18, "negative": 19 })")->key == "positive");  // 36 strings
}

TEST_CASE("inputs more or fewer go by the strings that the group of the highest current joins") {
  // near: 8 strings on 4 inputs at 11.6 A; far: 6 on 2 inputs at 13 A. In all 14 strings on 6 inputs.
  constexpr std::string_view groups = R"("circuits": [
      { "id": "near", "module": "M", "series": 18, "strings": 8, "strings_per_fuse": 2 },
      { "id": "far", "module": "M-13", "series": 18, "strings": 6, "strings_per_fuse": 3 } ])";
  struct {
    int counted;
    Strings strings;
  } const rows[] = {{7, {8, 9}}, {6, {8, 6}}, {5, {8, 3}},   {4, {8, 0}},
                    {3, {6, 0}}, {0, {0, 0}}, {10, {8, 18}},  // as near to 6 as to 14: four inputs more
                    {11, {8, 3}}};                            // strings, three fewer
  for (const auto& row : rows) {
    CAPTURE(row.counted);
    CHECK(
        strings_of(VisitedPlan(groups, fmt::format(R"("count": {{ "positive": {} }})", row.counted)).found) ==
        row.strings);
  }
}

TEST_CASE("a count replaces the strings of the one group") {
  const VisitedPlan v("", R"("count": { "positive": 14 })");
  CHECK(strings_of(v.found) == Strings{14});
  CHECK(v.plan.circuits[0].strings == 12);
}

TEST_CASE("strings to a fuse stay, and an odd string takes an input of its own") {
  const VisitedPlan v(joined, R"("count": { "positive": 23 })");
  CHECK(v.found.circuits[0].strings_per_fuse == 2);
  CHECK(v.found.circuits[0].inputs() == 12);
}

TEST_CASE("with several groups the difference goes where the current is highest") {
  CHECK(strings_of(VisitedPlan(two_groups, R"("count": { "positive": 14 })").found) == Strings{8, 6});
  CHECK(strings_of(VisitedPlan(two_groups, R"("count": { "positive": 9 })").found) == Strings{8, 1});
  CHECK(strings_of(VisitedPlan(two_groups, R"("count": { "positive": 6 })").found) == Strings{6, 0});
  CHECK(strings_of(VisitedPlan(two_groups, R"("count": { "positive": 0 })").found) == Strings{0, 0});
  CHECK(surplus_group(VisitedPlan(two_groups, "").plan) == 1);
}

TEST_CASE("one number of modules in series goes to every group") {
  const VisitedPlan v(two_groups, R"("count": { "series": 19 })");
  CHECK(v.found.circuits[0].series == 19);
  CHECK(v.found.circuits[1].series == 19);
  CHECK(v.found.circuits[0].id == "near");
}

TEST_CASE("a list of modules in series splits groups up") {
  const VisitedPlan v(two_groups,
                      R"("count": { "series": [18, 19, 18, 18, 19, 18, 18, 18, 17, 17, 17, 17] })");
  REQUIRE(v.found.circuits.size() == 3);
  CHECK(v.found.circuits[0].id == "near");
  CHECK(v.found.circuits[0].strings == 6);
  CHECK(v.found.circuits[0].series == 18);
  CHECK(v.found.circuits[1].id == "far");  // all alike: it keeps its id
  CHECK(v.found.circuits[1].series == 17);
  CHECK(v.found.circuits[1].strings == 4);
  CHECK(v.found.circuits[2].id == "near, 19 in series");
  CHECK(v.found.circuits[2].strings == 2);
  CHECK(v.found.circuits[2].module == v.plan.circuits[0].module);
}

TEST_CASE("a list in which no string is as planned names every part after its number") {
  const VisitedPlan v("", R"("count": { "positive": 3, "series": [19, 20, 19] })");
  REQUIRE(v.found.circuits.size() == 2);
  CHECK(v.found.circuits[0].id == "rows, 19 in series");
  CHECK(v.found.circuits[0].strings == 2);
  CHECK(v.found.circuits[1].id == "rows, 20 in series");
}

TEST_CASE("strings beyond the list are as planned; of entries beyond the strings the longest count") {
  const VisitedPlan shorter("", R"("count": { "series": [19, 19] })");
  REQUIRE(shorter.found.circuits.size() == 2);
  CHECK(shorter.found.circuits[0].series == 18);
  CHECK(shorter.found.circuits[0].strings == 10);
  CHECK(shorter.found.circuits[1].strings == 2);
  const VisitedPlan longer("", R"("count": { "positive": 2, "series": [18, 18, 25] })");
  REQUIRE(longer.found.circuits.size() == 2);
  CHECK(longer.found.circuits[0].series == 18);
  CHECK(longer.found.circuits[0].strings == 1);
  CHECK(longer.found.circuits[1].series == 25);
  CHECK(longer.found.circuits[1].strings == 1);
  // In the order of the list, the last of the shortest left out: near 18 (8), far 17, 16, 17, 19.
  const VisitedPlan two(two_groups, R"("count": { "series": [18,18,18,18,18,18,18,18,17,16,17,19,16] })");
  REQUIRE(two.found.circuits.size() == 4);
  CHECK(two.found.circuits[0].strings == 8);
  CHECK(two.found.circuits[1].id == "far, 17 in series");
  CHECK(two.found.circuits[1].strings == 2);
  CHECK(two.found.circuits[2].id == "far, 16 in series");
  CHECK(two.found.circuits[2].strings == 1);
  CHECK(two.found.circuits[3].id == "far, 19 in series");
  CHECK(VisitedPlan("", R"("count": { "positive": 0, "series": [25] })").found.circuits[0].strings == 0);
}

TEST_CASE("the list runs on after the strings were counted") {
  const VisitedPlan v(two_groups,
                      R"("count": { "positive": 10, "series": [18,18,18,18,18,18,18,18,17,16] })");
  REQUIRE(v.found.circuits.size() == 3);
  CHECK(v.found.circuits[1].id == "far, 17 in series");
  CHECK(v.found.circuits[2].id == "far, 16 in series");
}

TEST_CASE("fuses as found") {
  const VisitedPlan other("", R"("fuse": { "a": 15 })");
  CHECK(other.found.fuse->rating == Amps(15));
  CHECK(other.found.fuse->voltage == Volts(1500));  // nobody looked at it
  CHECK(other.plan.fuse->rating == Amps(20));
  CHECK(VisitedPlan("", R"("count": { "fuses": 0 }, "fuse": { "a": 15 })").found.fuse == nullptr);
  const VisitedPlan extra(R"("fuse": null)", R"("fuse": { "a": 15, "dc": false })");
  REQUIRE(extra.found.fuse);
  CHECK(extra.found.fuse->rating == Amps(15));
  CHECK(extra.found.fuse->dc == false);
  CHECK_FALSE(extra.found.fuse->voltage);
  CHECK(VisitedPlan(R"("fuse": null)", "").found.fuse == nullptr);
  CHECK(VisitedPlan(R"("fuse": null)", R"("count": { "fuses": 12 })").found.fuse != nullptr);
}

TEST_CASE("odd fuses are those that differ from the common rating") {
  const VisitedPlan v("", R"("mixed_fuses": [ { "position": 5, "a": 15 }, { "position": 6, "a": 20 } ])");
  CHECK(v.found.odd_fuses == std::vector<Amps>{Amps(15)});
  // One whose rating nobody read is a fuse, but not one to judge by.
  CHECK(VisitedPlan("", R"("mixed_fuses": [ { "position": 5 } ])").found.odd_fuses.empty());
  CHECK(VisitedPlan(R"("fuse": null)", R"("mixed_fuses": [ {} ])").found.fuse != nullptr);
}

TEST_CASE("enclosure, mounting and disconnect as found") {
  const VisitedPlan v("", R"("enclosure": { "type": "3R", "cover": "up", "air_gap_mm": 2, "listed": false },
                              "disconnect": { "rated_a": 200, "load_break": false, "distance_m": 4 })");
  CHECK(v.found.enclosure->type == "3R");
  CHECK(v.found.enclosure->listed == false);
  CHECK(v.found.enclosure->rated_current == Amps(250));
  CHECK(v.found.mounting->cover == Cover::up);
  CHECK(v.found.mounting->air_gap == Millimetres(2));
  CHECK(v.found.mounting->place == Place::ground);
  CHECK(v.found.disconnect->rated_current == Amps(200));
  CHECK(v.found.disconnect->load_break == false);
  CHECK(v.found.disconnect->distance == Metres(4));
  CHECK(v.found.disconnect->rated_voltage == Volts(1500));
  CHECK(VisitedPlan("", R"("disconnect": { "present": false })").found.disconnect == nullptr);
  const VisitedPlan extra(R"("disconnect": null)", R"("disconnect": { "present": true })");
  REQUIRE(extra.found.disconnect);
  CHECK_FALSE(extra.found.disconnect->rated_current);
  CHECK(VisitedPlan(R"("disconnect": null)", "").found.disconnect == nullptr);
  CHECK(VisitedPlan(R"("disconnect": null)", R"("disconnect": { "works": false })").found.disconnect !=
        nullptr);
}

TEST_CASE("the output conductor as found is a copy of the box's own") {
  const VisitedPlan v("", R"("output": { "material": "aluminum" })");
  const Conductor& found = *v.found.output->run->conductor;
  CHECK(found.id == "rhw-300 as found");
  CHECK(found.material == Material::aluminum);
  CHECK(found.size == v.plan.output->run->conductor->size);
  CHECK(found.insulation_temperature == 90);
  CHECK(v.plan.output->run->conductor->material == Material::copper);
  CHECK(v.found.output->ocpd == v.plan.output->ocpd);
}

TEST_CASE("another insulation takes the planned one's ratings with it") {
  const VisitedPlan v("", R"("output": { "insulation": "THW" })");
  const Conductor& found = *v.found.output->run->conductor;
  CHECK(found.insulation == "THW");
  CHECK_FALSE(found.insulation_temperature);
  CHECK_FALSE(found.rated);
}

TEST_CASE("source conductors as found go to all circuits, one copy a planned conductor") {
  const VisitedPlan v(two_groups, R"("source": { "size": "12 AWG" })");
  CHECK(v.found.circuits[0].run->conductor->id == "pv-10 as found");
  CHECK(v.found.circuits[0].run->conductor->size->name() == "12 AWG");
  CHECK(v.found.circuits[1].run->conductor == v.plan.circuits[1].run->conductor);  // it is 12 AWG already
  CHECK(v.own.conductors.size() == 1);
  const VisitedPlan split("", R"("source": { "size": "12 AWG" }, "count": { "series": [19] })");
  REQUIRE(split.found.circuits.size() == 2);
  CHECK(split.found.circuits[0].run->conductor == split.found.circuits[1].run->conductor);
  CHECK(split.own.conductors.size() == 1);
}

TEST_CASE("the grounding conductor as found") {
  const VisitedPlan v("", R"("egc": { "size": "8 AWG" })");
  CHECK(v.found.egc->size->name() == "8 AWG");
  CHECK(v.found.egc->material == Material::copper);
  const VisitedPlan extra(R"("egc": null)", R"("egc": { "size": "8 AWG" })");
  REQUIRE(extra.found.egc);
  CHECK_FALSE(extra.found.egc->material);
  CHECK_FALSE(VisitedPlan(R"("egc": null)", "").found.egc);
}
