// Modules in series inferred from the measured voltage of a string, and the spread of voltages.
#include <cmath>

#include "src/rules/measured.hpp"
#include "tests/support/readings.hpp"
#include "tests/support/visit.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr double one = 49.3;  // V, of module M at 25 °C

std::vector<Finding> series(std::string_view seen, std::string_view box = "") {
  return judge_visit(measured_series_count, box, seen);
}
std::vector<Finding> spread(std::string_view seen, std::string_view box = "") {
  return judge_visit(measured_spread, box, seen);
}

constexpr std::string_view unlike_groups = R"("circuits": [
  { "id": "near", "module": "M", "series": 18, "strings": 8 },
  { "id": "far", "module": "M", "series": 16, "strings": 4 } ])";

std::string long_strings(int n) {
  return fmt::format(R"("circuits": [ {{ "id": "rows", "module": "M", "series": {}, "strings": 12 }} ])", n);
}

}  // namespace

TEST_CASE("measured/series-count: half a module is the limit") {
  CHECK(series(at_stc(list_of("voc_v", {18 * one, 18.49 * one, 17.51 * one}))).empty());
  // 18.5 and 17.5, give or take 2 %, are no whole number; 18.65 may be 19, 17.3 may be 17.
  CHECK(told(series(
            at_stc(list_of("voc_v", {18.5 * one, 17.5 * one, 18.51 * one, 18.65 * one, 17.3 * one})))) ==
        Told{"query string 1", "query string 2", "query string 3", "correction string 4",
             "correction string 5"});
}

TEST_CASE("measured/series-count: what it says") {
  const auto all = series(at_stc(reading(9, "voc_v", 17 * one)));
  const Finding& f = only(all);
  CHECK(f.severity == Severity::correction);
  CHECK(f.basis == Basis::as_built);
  CHECK(f.part == "string 9");
  CHECK(std::abs(number(f.found) - 17) < 1e-9);
  CHECK(number(f.required) == 18);
  CHECK(f.unit == "modules");
  CHECK(f.section == "approved plan, IEC 62446-1");
  CHECK(f.in_record);
  CHECK(f.place.pointer == "/boxes/0/measured/strings/0/voc_v");
  // 17 · 0.98 = 16.66 to 17 · 1.02 = 17.34: nothing whole but 17.
  CHECK(
      f.message ==
      "String 9 of A-04 measured 838.1 V, where the 18 modules in series that the plan has give 887.4 V at 25 °C "
      "and 1000 W/m²: likely 17 modules; the inference is good to 2 % and leaves no other number.");
  REQUIRE(f.working.size() == 6);
  CHECK(f.working[1].symbol == "V1");
}

TEST_CASE("measured/series-count: temperature and light") {
  // 49.3 · (1 − 0.0027 · 20) · (1 + 0.045 · ln 0.8) = 49.3 · 0.946 · 0.9899585 = 46.16949 V by hand.
  const std::string_view conditions = R"("irradiance_w_m2": 800, "cell_c": 45,)";
  CHECK(series(under(conditions, reading(1, "voc_v", 18 * 46.1695))).empty());
  const auto all = series(under(conditions, reading(1, "voc_v", 17 * 46.1695)));
  CHECK(std::abs(number(only(all).found) - 17) < 1e-4);
  CHECK(only(all).message.find("at 45 °C and 800 W/m²") != std::string::npos);
  // The same by volts per degree: 49.3 · 0.0027 = 0.13311.
  const auto by_volts = [&](double modules) {
    VisitedPlan visit("", under(conditions, reading(1, "voc_v", modules * 46.1695)));
    Module& m = *const_cast<Module*>(visit.plan.circuits.front().module);
    m.voc_coefficient.reset();
    m.voc_coefficient_absolute = VoltsPerKelvin(-0.13311);
    return judge_visit(measured_series_count, visit);
  };
  CHECK(by_volts(18).empty());
  CHECK(std::abs(number(only(by_volts(17)).found) - 17) < 1e-4);
}

TEST_CASE("measured/series-count: how sure it is") {
  // 25 · 0.98 = 24.5 to 25.5: one number. 26 · 0.98 = 25.48, · 1.02 = 26.52. 51 · 0.98 = 49.98 to 52.02:
  // three.
  const auto only_25 = series(at_stc(reading(1, "voc_v", 25 * one)), long_strings(24));
  CHECK(only(only_25).message.find(
            "likely 25 modules; the inference is good to 2 % and leaves no other number") !=
        std::string::npos);
  const auto three = series(at_stc(reading(1, "voc_v", 51 * one)), long_strings(40));
  CHECK(only(three).severity == Severity::correction);
  CHECK(only(three).message.find(
            "likely 51 modules; the inference is good to 2 %, so it could be 50 to 52: count "
            "them.") != std::string::npos);
  // 29.4 · 1.02 = 29.988, 29.45 · 1.02 = 30.039: then 30 is possible.
  CHECK(only(series(at_stc(reading(1, "voc_v", 29.4 * one)), long_strings(30))).severity ==
        Severity::correction);
  const auto either = series(at_stc(reading(1, "voc_v", 29.45 * one)), long_strings(30));
  CHECK(only(either).severity == Severity::query);
  CHECK(only(either).message.find(
            "likely 29 modules, but the inference is good to 2 % and allows 30 as well: count "
            "them.") != std::string::npos);
  // The other way: 30.6 · 0.98 = 29.988.
  CHECK(only(series(at_stc(reading(1, "voc_v", 30.6 * one)), long_strings(30))).severity == Severity::query);
}

TEST_CASE("measured/series-count: the tolerance of the reading, and the doubt about dim light") {
  const auto severity = [](std::string_view tolerance, double w_m2, double modules) {
    const double v1 = one * (1 + 0.045 * std::log(w_m2 / 1000));
    const auto all = series(under(fmt::format(R"({} "irradiance_w_m2": {}, "cell_c": 25,)", tolerance, w_m2),
                                  reading(1, "voc_v", modules * v1)));
    return only(all).severity;
  };
  CHECK(severity("", 1000, 17.3) == Severity::correction);                     // 16.95 to 17.65
  CHECK(severity(R"("tolerance_pct": 4.1,)", 1000, 17.3) == Severity::query);  // up to 18.01
  CHECK(severity(R"("tolerance_pct": 0,)", 1000, 17) == Severity::correction);
  CHECK(severity(R"("tolerance_pct": 0,)", 1000, 17.5) == Severity::query);  // no whole number
  CHECK(severity("", 400, 17.4) == Severity::query);  // 2 % + 0.02 · ln 2.5 = 3.83 %: up to 18.07
  CHECK(severity(R"("tolerance_pct": 1,)", 400, 17.4) == Severity::correction);  // 2.83 %: 16.91 to 17.89
}

TEST_CASE("measured/series-count: a reading that no whole number of modules gives") {
  // 17.4 · 0.98 = 17.05, · 1.02 = 17.75.
  const auto all = series(at_stc(reading(9, "voc_v", 17.4 * one)));
  const Finding& f = only(all);
  CHECK(f.severity == Severity::query);
  CHECK(
      f.message ==
      "String 9 of A-04 measured 857.8 V, where the 18 modules in series that the plan has give 887.4 V at 25 °C "
      "and 1000 W/m²: 17.4 modules, and no whole number fits, the inference being good to 2 %: doubt cell "
      "temperature, irradiance and meter first.");
  CHECK(f.ask.starts_with("Measure again, with the cell temperature"));
  // 17.34 · 0.98 = 16.993: then 17 is possible.
  CHECK(only(series(at_stc(reading(9, "voc_v", 17.34 * one)))).severity == Severity::correction);
  // No module at all is no half one.
  CHECK(only(series(at_stc(reading(9, "voc_v", 0.3 * one)))).severity == Severity::correction);
}

TEST_CASE("measured/series-count: all measured strings off alike make one finding") {
  const auto all = series(at_stc(list_of("voc_v", {17 * one, 17.01 * one, 17 * one})));
  const Finding& f = only(all);
  CHECK(f.part == "strings");
  CHECK(f.severity == Severity::correction);
  CHECK(std::abs(number(f.found) - 17) < 1e-9);
  CHECK(
      f.message ==
      "The 3 measured strings of A-04 have 838.1 to 838.6 V each, where the 18 modules in series that the plan "
      "has give 887.4 V at 25 °C and 1000 W/m²: likely 17 modules; the inference is good to 2 % and leaves no "
      "other number.");
  CHECK(told(series(at_stc(list_of("voc_v", {17.5 * one, 17.5 * one})))) == Told{"query strings"});
  // One that is as planned, or off in another way, and they are told one by one.
  CHECK(told(series(at_stc(list_of("voc_v", {17 * one, 17 * one, 18 * one})))) ==
        Told{"correction string 1", "correction string 2"});
  CHECK(told(series(at_stc(list_of("voc_v", {17 * one, 19 * one})))) ==
        Told{"correction string 1", "correction string 2"});
  CHECK(told(series(at_stc(list_of("voc_v", {17 * one, 17.45 * one})))) ==
        Told{"correction string 1", "query string 2"});
}

TEST_CASE("measured/series-count: modules counted on site are the measure, by position") {
  const std::string short_9 = at_stc(reading(9, "voc_v", 17 * one));
  CHECK(series(R"("count": { "series": 17 }, )" + short_9).empty());
  CHECK(series(R"("count": { "series": [18,18,18,18,18,18,18,18,17,18,18,18] }, )" + short_9).empty());
  const auto all = series(R"("count": { "series": [18,18,18,18,18,18,18,17,18,18,18,18] }, )" + short_9);
  CHECK(only(all).message.find("the 18 modules in series that the inspector counted give") !=
        std::string::npos);
  // The list ends before position 9: the plan's number.
  CHECK(only(series(R"("count": { "series": [17, 17] }, )" + short_9)).message.find("that the plan has") !=
        std::string::npos);
}

TEST_CASE("measured/series-count: positions run through the groups") {
  CHECK(series(at_stc(reading(8, "voc_v", 18 * one) + "," + reading(9, "voc_v", 16 * one)), unlike_groups)
            .empty());
  CHECK(told(series(at_stc(reading(8, "voc_v", 16 * one) + "," + reading(9, "voc_v", 18 * one)),
                    unlike_groups)) == Told{"correction string 8", "correction string 9"});
}

TEST_CASE("measured/series-count: a reversed string is counted, a dead one is open") {
  CHECK(series(at_stc(reading(1, "voc_v", -18 * one))).empty());
  const auto dead = series(at_stc(reading(1, "voc_v", 0)));
  CHECK(only(dead).severity == Severity::correction);
  CHECK(only(dead).message.ends_with(": it is open or not connected."));
}

TEST_CASE("measured/spread: 5 % below the highest is the limit") {
  CHECK(spread(at_stc(list_of("voc_v", {800, 760, 790}))).empty());
  CHECK(spread(at_stc(list_of("voc_v", {800, 760.1}))).empty());
  const auto all = spread(at_stc(list_of("voc_v", {790, 810, 765})));  // 5.56 %
  const Finding& f = only(all);
  CHECK(f.severity == Severity::correction);
  CHECK(f.part == "module M");
  CHECK(std::abs(number(f.found) - 100.0 * 45 / 810) < 1e-9);
  CHECK(number(f.required) == 5);
  CHECK(f.unit == "%");
  CHECK(f.section == "IEC 62446-1");
  CHECK(f.place.pointer == "/boxes/0/measured/strings/2/voc_v");
  CHECK(
      f.message ==
      "String 3 of A-04 measured 765 V (42.5 V a module), 5.56 % below string 2 with 810 V (45 V a module); like "
      "strings agree within 5 %.");
  CHECK(f.working.size() == 3);
  CHECK(told(spread(at_stc(list_of("voc_v", {800, 759.9})))) == Told{"correction module M"});
}

TEST_CASE("measured/spread: per module, and among like modules") {
  const auto volts = [](double near, double far) {
    return at_stc(reading(1, "voc_v", near) + "," + reading(9, "voc_v", far));
  };
  CHECK(spread(volts(18 * 45, 16 * 45), unlike_groups).empty());
  CHECK(spread(volts(18 * 45, 16 * 42), unlike_groups).size() == 1);
  CHECK(spread(R"("count": { "series": [18,17] }, )" + at_stc(list_of("voc_v", {18 * 45, 17 * 45}))).empty());
  constexpr std::string_view two_modules = R"("circuits": [
    { "id": "near", "module": "M", "series": 18, "strings": 8 },
    { "id": "far", "module": "M-13", "series": 18, "strings": 4 } ])";
  CHECK(spread(volts(800, 700), two_modules).empty());
}

TEST_CASE("measured/spread: one string has nothing beside it, a reversed one has") {
  CHECK(spread(at_stc(reading(1, "voc_v", 700))).empty());
  CHECK(spread(under("", reading(1, "voc_v", 700))).empty());
  CHECK(spread(at_stc(list_of("voc_v", {800, -790}))).empty());
  CHECK(spread(at_stc(list_of("voc_v", {800, -700}))).size() == 1);
  CHECK(spread(at_stc(list_of("voc_v", {0, 0}))).empty());  // measured/series-count says it
}
