// Currents of strings against their neighbours; swapped poles; insulation.
#include <cmath>

#include "src/rules/measured.hpp"
#include "tests/support/readings.hpp"
#include "tests/support/visit.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::vector<Finding> current(std::string_view seen, std::string_view box = "") {
  return judge_visit(measured_current, box, seen);
}
std::vector<Finding> reversed(std::string_view seen, std::string_view box = "") {
  return judge_visit(measured_reversed, box, seen);
}
std::vector<Finding> insulation(std::string_view seen, std::string_view box = "") {
  return judge_visit(measured_insulation, box, seen);
}

constexpr std::string_view two_modules = R"("circuits": [
  { "id": "near", "module": "M", "series": 18, "strings": 8 },
  { "id": "far", "module": "M-13", "series": 18, "strings": 4 } ])";

}  // namespace

TEST_CASE("measured/current: 90 % of the neighbours' median is the limit") {
  CHECK(current(at_stc(list_of("isc_a", {11.6, 11.6, 11.5}))).empty());
  CHECK(current(at_stc(list_of("isc_a", {12, 12, 10.8}))).empty());
  const auto all = current(at_stc(list_of("isc_a", {12, 11, 10.3, 12})));  // 90 % of 12 is 10.8
  const Finding& f = only(all);
  CHECK(f.severity == Severity::correction);
  CHECK(f.part == "string 3");
  CHECK(number(f.found) == 10.3);
  CHECK(std::abs(number(f.required) - 10.8) < 1e-9);
  CHECK(f.unit == "A");
  CHECK(f.section == "IEC 62446-1");
  CHECK(f.place.pointer == "/boxes/0/measured/strings/2/isc_a");
  CHECK(
      f.message ==
      "String 3 of A-04 measured 10.3 A, below 90 % of the 12 A of 3 neighbours (median); one string of module M "
      "gives 11.6 A at 1000 W/m².");
  CHECK(f.working.size() == 2);
  CHECK(told(current(at_stc(list_of("isc_a", {12, 12, 10.79})))) == Told{"correction string 3"});
}

TEST_CASE("measured/current: the median is that of the others") {
  // Two: each has the other. Four: of 12, 10 and 13 it is 12; of an even number the mean of the middle two.
  CHECK(told(current(at_stc(list_of("isc_a", {12.5, 11})))) == Told{"correction string 2"});
  CHECK(current(at_stc(list_of("isc_a", {12, 10.9, 12, 10.9, 11}))).empty());
  // 10.95 / 0.9 = 12.17 A; 10 / 0.9 = 11.11 A.
  CHECK(told(current(at_stc(list_of("isc_a", {13, 10.9, 12, 10.9, 11})))) == Told{"query string 1"});
  CHECK(told(current(at_stc(list_of("isc_a", {13, 9.8, 12, 10})))) ==
        Told{"correction string 2", "correction string 4", "query string 1"});
}

TEST_CASE("measured/current: unlike modules are no neighbours, nor joined strings of single ones") {
  const std::string seen = at_stc(reading(1, "isc_a", 11.6) + "," + reading(2, "isc_a", 11.6) + "," +
                                  reading(9, "isc_a", 13) + "," + reading(10, "isc_a", 13));
  CHECK(current(seen, two_modules).empty());
  constexpr std::string_view joined = R"("circuits": [
    { "id": "single", "module": "M", "series": 18, "strings": 8 },
    { "id": "joined", "module": "M", "series": 18, "strings": 4, "strings_per_fuse": 2 } ])";
  const std::string pair = at_stc(reading(1, "isc_a", 11.6) + "," + reading(9, "isc_a", 23.2));
  CHECK(current(pair, joined).empty());
  CHECK_FALSE(current(pair).empty());
}

TEST_CASE("measured/current: a string alone, or all low alike, against the data sheet") {
  CHECK(current(at_stc(reading(1, "isc_a", 10.44))).empty());  // 90 % of 11.6
  const auto alone = current(at_stc(reading(1, "isc_a", 10.4)));
  CHECK(told(alone) == Told{"query module M"});
  CHECK(
      only(alone).message ==
      "String 1 of A-04 measured 10.4 A, and no string like it was measured beside it; one string of module M "
      "gives 11.6 A at 1000 W/m², 90 % of which is 10.44 A.");
  // 11.6 · 0.5 = 5.8 A
  CHECK(current(under(R"("irradiance_w_m2": 500,)", list_of("isc_a", {5.8, 5.8}))).empty());
  const auto all = current(under(R"("irradiance_w_m2": 500,)", list_of("isc_a", {5, 5, 5.1})));
  CHECK(told(all) == Told{"query module M"});
  CHECK(only(all).message.starts_with("The 3 strings of module M measured on A-04 have a median of 5 A;"));
  CHECK(told(current(at_stc(list_of("isc_a", {0, 0, 0})))) == Told{"query module M"});
  CHECK(all.front().ask.find("in the string") == std::string::npos);
  CHECK(all.front().ask.starts_with("Measure the irradiance"));
}

TEST_CASE("measured/current: a string far above its neighbours is queried") {
  // 11.6 / 0.9 = 12.889 A.
  CHECK(current(at_stc(list_of("isc_a", {11.6, 11.6, 11.6, 12.888}))).empty());
  const auto all = current(at_stc(list_of("isc_a", {11.6, 11.6, 11.6, 12.89})));
  CHECK(told(all) == Told{"query string 4"});
  const auto twice = current(at_stc(list_of("isc_a", {11.6, 23.2, 11.6})));
  const Finding& f = only(twice);
  CHECK(f.severity == Severity::query);
  CHECK(f.part == "string 2");
  CHECK(number(f.found) == 23.2);
  CHECK(std::abs(number(f.required) - 11.6 / 0.9) < 1e-9);
  CHECK(f.place.pointer == "/boxes/0/measured/strings/1/isc_a");
  CHECK(
      f.message ==
      "String 2 of A-04 measured 23.2 A, above 12.89 A, the most beside the 11.6 A of 2 neighbours (median); "
      "one string of module M gives 11.6 A at 1000 W/m²: is more than one string on it, or is its module "
      "another?");
  CHECK(f.ask.find("inputs") == std::string::npos);
  CHECK(f.ask.starts_with("Look which strings"));
  CHECK(f.working.size() == 2);
  // Strings joined ahead of the box may have been measured together: two of 11.6 A are 23.2 A.
  constexpr std::string_view joined =
      R"("circuits": [ { "id": "joined", "module": "M", "series": 18, "strings": 12, "strings_per_fuse": 2 } ])";
  CHECK(told(current(at_stc(list_of("isc_a", {11.6, 11.6, 11.6, 23.2})), joined)).empty());
  CHECK(told(current(at_stc(list_of("isc_a", {11.6, 11.6, 11.6, 34.8})), joined)) == Told{"query string 4"});
}

TEST_CASE("measured/current: all strings far above the data sheet make one query") {
  // 5.8 A at 500 W/m2, 5.8 / 0.9 = 6.444 A.
  const std::string_view half = R"("irradiance_w_m2": 500,)";
  CHECK(current(under(half, list_of("isc_a", {6.44, 6.44, 6.44}))).empty());
  const auto all = current(under(half, list_of("isc_a", {11.6, 11.6, 11.5})));
  CHECK(told(all) == Told{"query module M"});
  CHECK(
      only(all).message ==
      "The 3 strings of module M measured on A-04 have a median of 11.6 A; one string of module M gives 5.8 A at "
      "500 W/m², and 6.44 A is the most to expect.");
  CHECK(only(all).ask.starts_with("Measure the irradiance"));
  CHECK(told(current(under(half, reading(1, "isc_a", 11.6)))) == Told{"query module M"});
  // A module that takes light from behind may give what it states for both sides: 14 / 0.9 = 15.56 A.
  const auto rear = [](double amps) {
    VisitedPlan visit("", at_stc(list_of("isc_a", {amps, amps})));
    const_cast<Module*>(visit.plan.circuits.front().module)->isc_front_and_rear = Amps(14);
    return told(judge_visit(measured_current, visit));
  };
  CHECK(rear(15.5).empty());
  CHECK(rear(15.6) == Told{"query module M"});
}

TEST_CASE("measured/current: where two disagree the data sheet says which of them to report, once") {
  // Fit by the data sheet: 10.44 to 12.89 A.
  const auto of = [](std::vector<double> amps) { return told(current(at_stc(list_of("isc_a", amps)))); };
  CHECK(of({11.6, 6}) == Told{"correction string 2"});  // not the median of 8.8 A as well
  CHECK(of({11.6, 23.2}) == Told{"query string 2"});    // nothing wrong with string 1
  CHECK(of({13, 11}) == Told{"query string 1"});
  CHECK(of({20, 6}) == Told{"correction string 2", "query module M"});  // neither fits
  CHECK(of({8, 5}) == Told{"correction string 2", "query module M"});
  CHECK(of({11.6, 11.6, 23.2, 23.2}) == Told{"query string 3", "query string 4"});
  CHECK(of({11.6, 11.6, 5, 5}) == Told{"correction string 3", "correction string 4"});
  const auto both = current(at_stc(list_of("isc_a", {8, 5})));
  CHECK(both[1].place.pointer ==
        "/boxes/0/measured/strings/0/isc_a");  // not the reading that is told already
  CHECK(both[1].message.starts_with("String 1 of A-04 measured 8 A; one string of module M"));
}

TEST_CASE("measured/reversed: one hazard a string") {
  const auto all = reversed(R"("measured": { "strings": [ { "position": 3, "voc_v": -840 },
      { "position": 5, "reversed": true }, { "position": 6, "voc_v": 840, "reversed": false } ] })");
  CHECK(told(all) == Told{"hazard string 3", "hazard string 5"});
  CHECK(all[0].message == "String 3 of A-04 reads −840 V, below 0 V: its poles are swapped.");
  CHECK(number(all[0].found) == -840);
  CHECK(all[0].unit == "V");
  CHECK(all[0].place.pointer == "/boxes/0/measured/strings/0/voc_v");
  CHECK(all[1].message == "String 5 of A-04 was found with its poles swapped.");
  CHECK(all[1].place.pointer == "/boxes/0/measured/strings/1/reversed");
  CHECK(all[1].section == "IEC 62446-1");
}

TEST_CASE("measured/reversed: every sign of it counts, and only that") {
  const auto of = [](std::string_view string) {
    return reversed(fmt::format(R"("measured": {{ "strings": [ {{ {} }} ] }})", string)).size();
  };
  CHECK(of(R"("voc_v": -1)") == 1);
  CHECK(of(R"("voc_v": -840, "reversed": false)") == 1);
  CHECK(of(R"("voc_v": 840, "reversed": true)") == 1);
  CHECK(of(R"("voc_v": -840, "reversed": true)") == 1);
  CHECK(of(R"("voc_v": 0)") == 0);
  CHECK(of(R"("reversed": false)") == 0);
  CHECK(of(R"("isc_a": 11)") == 0);
}

TEST_CASE("measured/insulation: 1 MΩ above 120 V") {
  CHECK(insulation(at_stc(reading(1, "insulation_mohm", 1))).empty());
  const auto all = insulation(R"("measured": { "strings": [ { "position": 4, "insulation_mohm": 0.99 } ] })");
  const Finding& f = only(all);
  CHECK(f.severity == Severity::correction);
  CHECK(f.part == "string 4");
  CHECK(number(f.found) == 0.99);
  CHECK(number(f.required) == 1);
  CHECK(f.unit == "MΩ");
  CHECK(f.place.pointer == "/boxes/0/measured/strings/0/insulation_mohm");
  // 1.25 · 18 · 49.3 = 1109.25 V
  CHECK(
      f.message ==
      "String 4 of A-04 has an insulation resistance of 0.99 MΩ; a system of 1109.2 V needs at least 1 MΩ.");
  CHECK(f.working.size() == 1);
}

TEST_CASE("measured/insulation: 0.5 MΩ up to 120 V") {
  // 1.25 · 48 V · 2 = 120 V exactly.
  const auto at_most = [](double voc, double megohm) {
    VisitedPlan visit(R"("circuits": [ { "id": "rows", "module": "M", "series": 2, "strings": 12 } ])",
                      at_stc(reading(1, "insulation_mohm", megohm)));
    const_cast<Module*>(visit.plan.circuits.front().module)->voc = Volts(voc);
    return judge_visit(measured_insulation, visit).size();
  };
  CHECK(at_most(48, 0.5) == 0);
  CHECK(at_most(48, 0.49) == 1);
  CHECK(at_most(48.1, 0.5) == 1);
  CHECK(at_most(48.1, 1) == 0);
}

TEST_CASE("measured/insulation: the longest string as found says which voltage it is") {
  constexpr std::string_view box =
      R"("circuits": [ { "id": "rows", "module": "M", "series": 1, "strings": 12 } ])";
  const std::string half = at_stc(reading(1, "insulation_mohm", 0.6));  // 61.6 V, with two 123.3 V
  CHECK(insulation(half, box).empty());
  CHECK(insulation(R"("count": { "series": [1,2] }, )" + half, box).size() == 1);
}
