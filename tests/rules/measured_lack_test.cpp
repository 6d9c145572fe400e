// What a record of measurements does not say: conditions, coefficients, which string is which.
#include "src/rules/measured.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/readings.hpp"
#include "tests/support/visit.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view sun = R"("irradiance_w_m2": 1000, "cell_c": 25,)";
constexpr std::string_view unlike_groups = R"("circuits": [
  { "id": "near", "module": "M", "series": 18, "strings": 8 },
  { "id": "far", "module": "M", "series": 16, "strings": 4 } ])";
constexpr std::string_view two_modules = R"("circuits": [
  { "id": "near", "module": "M", "series": 18, "strings": 8 },
  { "id": "far", "module": "M-13", "series": 18, "strings": 4 } ])";

// Everything that all the measured rules say of the sound design's box A-01 (9 strings of 18 modules of 30
// V).
std::unique_ptr<Judged> whole(const Json& measured, const Json& design = sound_design(),
                              const Json& count = Json::object()) {
  const Json record{{"format", "boxproof-asbuilt/1"},
                    {"boxes", {{{"id", "A-01"}, {"measured", measured}, {"count", count}}}}};
  return judge(design, "", record);
}

Json strings_of(std::initializer_list<Json> strings) {
  return Json(strings);
}

// As the record of the sound design has it: 18 modules of 30 V at 25 °C, 9.6 A.
Json sound_string(int position) {
  return {{"position", position}, {"voc_v", 540}, {"isc_a", 9.6}, {"insulation_mohm", 50}};
}

std::vector<std::string> measured_summary(const Judged& judged) {
  std::vector<std::string> out;
  for (const std::string& line : judged.summary())
    if (line.find("/measured") != std::string::npos || line.starts_with("measured/")) out.push_back(line);
  return out;
}

}  // namespace

TEST_CASE("without cell temperature or irradiance one query names the rules that cannot judge") {
  const auto strings = strings_of({sound_string(1), sound_string(2)});
  CHECK(measured_summary(*whole({{"irradiance_w_m2", 1000}, {"cell_c", 25}, {"strings", strings}})).empty());
  const auto no_cell = whole({{"irradiance_w_m2", 1000}, {"strings", strings}});
  CHECK(measured_summary(*no_cell) == Told{"measured/series-count query measured/cell_c"});
  const Finding* f = no_cell->find("measured/series-count");
  CHECK(f->message == "measured/cell_c is not stated, so measured/series-count cannot be judged.");
  CHECK(f->in_record);
  CHECK(f->place.line > 0);
  const auto no_light = whole({{"cell_c", 25}, {"strings", strings}});
  CHECK(measured_summary(*no_light) == Told{"measured/series-count query measured/irradiance_w_m2"});
  CHECK(
      no_light->find("measured/series-count")->message ==
      "measured/irradiance_w_m2 is not stated, so measured/series-count cannot be judged, nor measured/spread, "
      "measured/current.");
  CHECK(no_light->find("measured/series-count")->ask ==
        "Complete the field record; what nobody noted, measure again.");
}

TEST_CASE("irradiance from 200 to 1200 W/m2") {
  const auto severity = [](double w_m2) {
    // A module too many: a correction where it can be judged.
    const auto all = judge_visit(
        measured_series_count, "",
        under(fmt::format(R"("irradiance_w_m2": {}, "cell_c": 25,)", w_m2), reading(1, "voc_v", 20 * 49.3)));
    return only(all).severity;
  };
  CHECK(severity(199.9) == Severity::query);
  CHECK(severity(200) == Severity::correction);
  CHECK(severity(1200) == Severity::correction);
  CHECK(severity(1200.1) == Severity::query);
  CHECK(severity(0) == Severity::query);
  const auto dim =
      whole({{"irradiance_w_m2", 150}, {"cell_c", 25}, {"strings", {sound_string(1), sound_string(2)}}});
  const Finding* f = dim->find("measured/series-count");
  REQUIRE(f != nullptr);
  CHECK(
      f->message ==
      "A-01 was measured at 150 W/m², outside 200 to 1200 W/m², so measured/series-count cannot be judged, nor "
      "measured/spread, measured/current.");
  CHECK(std::get<std::string>(f->found) == "150 W/m²");
  CHECK(measured_summary(*dim).size() == 1);
}

TEST_CASE("poles and insulation need neither light nor temperature") {
  const auto judged = whole({{"strings", {{{"position", 1}, {"reversed", true}, {"insulation_mohm", 0.1}}}}});
  CHECK(measured_summary(*judged) ==
        Told{"measured/reversed hazard string 1", "measured/insulation correction string 1"});
}

TEST_CASE("a module without a temperature coefficient") {
  Json design = sound_design();
  design["modules"]["M"].erase("voc_coeff_pct_per_c");
  const auto judged = whole(
      {{"irradiance_w_m2", 1000}, {"cell_c", 25}, {"strings", {sound_string(1), sound_string(2)}}}, design);
  const Finding* f = judged->find("measured/series-count");
  REQUIRE(f != nullptr);
  CHECK(f->severity == Severity::query);
  CHECK(f->part == "modules/M/voc_coeff_pct_per_c");
  CHECK_FALSE(f->in_record);
  CHECK(judged->find("measured/spread") == nullptr);
}

TEST_CASE("a temperature at which the coefficient leaves nothing") {
  // 1 − 1 % · 100 = 0
  VisitedPlan visit("", under(R"("irradiance_w_m2": 1000, "cell_c": 125,)", reading(1, "voc_v", 800)));
  const_cast<Module*>(visit.plan.circuits.front().module)->voc_coefficient = PercentPerKelvin(-1);
  const auto all = judge_visit(measured_series_count, visit);
  CHECK(told(all) == Told{"query measured/cell_c"});
  CHECK(only(all).message.starts_with("At 125 °C the coefficient of module M leaves no voltage,"));
}

TEST_CASE("strings without a position go by the list where all are alike") {
  const std::string list = under(sun, R"({ "voc_v": 887.4 }, { "voc_v": 838.1 })");
  CHECK(told(judge_visit(measured_series_count, "", list)) == Told{"correction string 2"});
  const auto unlike = judge_visit(measured_series_count, unlike_groups, list);
  CHECK(told(unlike) == Told{"query measured/strings/0"});
  CHECK(only(unlike).message ==
        "2 strings of A-04 were measured without a position, and the strings there are of several kinds, so "
        "measured/series-count cannot be judged of the strings measured there.");
  CHECK(told(judge_visit(measured_series_count, two_modules, list)) == Told{"query measured/strings/0"});
  // Counted, all are alike after all; counted one by one they are not.
  CHECK(told(judge_visit(measured_series_count, unlike_groups, R"("count": { "series": 18 }, )" + list)) ==
        Told{"correction string 2"});
  CHECK(told(judge_visit(measured_series_count, "", R"("count": { "series": [18, 17] }, )" + list)) ==
        Told{"query measured/strings/0"});
  // Poles are judged all the same.
  CHECK(told(judge_visit(measured_reversed, two_modules,
                         under("", R"({ "voc_v": 800 }, { "voc_v": -800 })"))) == Told{"hazard entry 2"});
}

TEST_CASE("a position beyond the strings, or more than once") {
  const auto series = [](const std::string& strings, std::string_view count = "") {
    return judge_visit(measured_series_count, "", std::string(count) + under(sun, strings));
  };
  const std::string of_12 = reading(12, "voc_v", 887.4), of_13 = reading(13, "voc_v", 887.4);
  CHECK(series(of_12).empty());
  const auto beyond = series(of_12 + "," + of_13);
  CHECK(told(beyond) == Told{"query measured/strings/1"});
  CHECK(
      only(beyond).message ==
      "Position 13 of A-04 is beyond its 12 strings, so measured/series-count cannot be judged of the string "
      "measured there.");
  CHECK(series(of_13, R"("count": { "positive": 13 }, )").empty());
  CHECK_FALSE(series(of_12, R"("count": { "positive": 11 }, )").empty());
  const auto twice =
      series(of_12 + "," + reading(3, "voc_v", 700) + "," + of_12 + "," + reading(3, "voc_v", 800));
  CHECK(told(twice) == Told{"query measured/strings/0"});
  CHECK(only(twice).message.starts_with("Positions 3 and 12 of A-04 are in the record more than once,"));
  // Two entries of one string that measure different things are no contradiction.
  CHECK(series(of_12 + "," + reading(12, "isc_a", 11)).empty());
}

TEST_CASE("another number of strings than planned, of several kinds") {
  const auto series = [](std::string_view box, std::string_view count) {
    return told(
        judge_visit(measured_series_count, box, std::string(count) + under(sun, reading(1, "voc_v", 887.4))));
  };
  const Told unknown{"query measured/strings"};
  CHECK(series(two_modules, R"("count": { "positive": 13 }, )") == unknown);
  CHECK(series(unlike_groups, R"("count": { "positive": 13 }, )") == unknown);
  CHECK(series(unlike_groups, R"("count": { "positive": 13, "series": 18 }, )").empty());
  CHECK(series(two_modules, R"("count": { "positive": 12 }, )").empty());
  CHECK(series("", R"("count": { "positive": 13 }, )").empty());
}

TEST_CASE("what was not measured is not asked for") {
  CHECK(measured_summary(*whole(Json::object())).empty());
  CHECK(measured_summary(*whole({{"strings", Json::array()}})).empty());
  CHECK(measured_summary(*whole({{"strings", {{{"position", 1}}}}})).empty());
  CHECK(measured_summary(*whole({{"strings", {{{"position", 99}, {"insulation_mohm", 5}}}}})).empty());
}
