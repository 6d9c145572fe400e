// Whether a conductor carries its current: before conditions of use 125 % of the maximum current against the
// table at the terminals' temperature, after them the maximum current against what is left of the ampacity.
// Table values of NFPA 70 Tables 310.15(B)(16) and (17): 14 AWG copper in free air 30 A at 75 °C and 35 A at
// 90 °C, 4/0 AWG copper in a raceway 230 and 260 A; at 36 °C the 90 °C column is corrected by 0.91.
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view before = "conductor/before-conditions", after = "conductor/after-conditions";
constexpr std::string_view source = "circuit 1 conductor", output = "output conductor";

// The sound design with another string conductor and another short-circuit current of its modules.
Json strings_of(std::string_view size, double isc) {
  return with({{"modules", {{"M", {{"isc_a", isc}}}}}, {"conductors", {{"string", {{"size", size}}}}}});
}

}  // namespace

TEST_CASE("before conditions: 1.25 times the maximum current at the terminals") {
  // 14 AWG, 75 °C terminals: 30 A; 1.25 · 1.25 · 19.2 A = 30 A.
  CHECK(severity_of(strings_of("14 AWG", 19.1999), before, {}, source) == "none");
  CHECK(severity_of(strings_of("14 AWG", 19.2), before, {}, source) == "none");
  CHECK(severity_of(strings_of("14 AWG", 19.2001), before, {}, source) == "correction");
  // The output: 9 strings · 1.25 · Isc, times 1.25, against 230 A of 4/0 AWG.
  CHECK(severity_of(with({{"modules", {{"M", {{"isc_a", 16.355}}}}}}), before, {}, output) ==
        "none");  // 229.99 A
  CHECK(severity_of(with({{"modules", {{"M", {{"isc_a", 16.356}}}}}}), before, {}, output) == "correction");

  const std::vector<std::pair<std::string_view, std::string_view>> sections{
      {"2008", "690.8(B)(1)"}, {"2011", "690.8(B)(2)"}, {"2014", "690.8(B)(1)"},
      {"2017", "690.8(B)(1)"}, {"2020", "690.8(B)(1)"}, {"2023", "690.8(B)(1)"}};
  for (const auto& [edition, section] : sections) {
    CAPTURE(edition);
    const auto judged = judge(strings_of("14 AWG", 20), edition);
    const Finding* f = judged->find(before, source);
    check_numbers(f, 30, 31.25, "A", section);
    CHECK(f->severity == Severity::correction);
    CHECK(f->message.find("smallest size that would do is 12 AWG") != std::string::npos);  // 35 A at 75 °C
    CHECK(f->message.find("75 °C terminals") != std::string::npos);
    CHECK(f->place.pointer == "/combiners/0/circuits/0/run/conductor");
  }
}

TEST_CASE("before conditions: terminals that are not marked read 60 degrees") {
  // 14 AWG in free air carries 25 A at 60 °C: 1.5625 · 16 = 25.
  const auto unmarked = [](double isc) {
    Json design = strings_of("14 AWG", isc);
    design["combiners"][0]["circuits"][0]["run"].erase("terminal_c");
    return severity_of(design, before, {}, source);
  };
  CHECK(unmarked(16) == "none");
  CHECK(unmarked(16.001) == "correction");
}

TEST_CASE("before conditions: an assembly listed for 100 percent keeps the factor for its conductors") {
  Json design = strings_of("14 AWG", 19.3);
  design["combiners"][0]["enclosure"]["rated_100_pct"] = true;
  CHECK(severity_of(design, before, {}, source) == "correction");
  design["modules"]["M"]["isc_a"] = 19.2;
  CHECK(severity_of(design, before, {}, source) == "none");
}

TEST_CASE("after conditions: the maximum current where the conductor lies") {
  // 14 AWG: 35 · 0.91 = 31.85 A; 1.25 · 25.48 A = 31.85 A.
  CHECK(severity_of(strings_of("14 AWG", 25.4799), after, {}, source) == "none");
  CHECK(severity_of(strings_of("14 AWG", 25.48), after, {}, source) == "none");
  CHECK(severity_of(strings_of("14 AWG", 25.4801), after, {}, source) == "hazard");

  for (std::string_view edition : {"2011", "2014", "2017", "2020", "2023"}) {
    CAPTURE(edition);
    const auto judged = judge(strings_of("14 AWG", 26), edition);
    const Finding* f = judged->find(after, source);
    check_numbers(f, 31.85, 32.5, "A", "690.8(B)(2)");
    CHECK(f->severity == Severity::hazard);
    // 1.25 · 32.5 = 40.625 A at 75 °C terminals: 12 AWG has 35 A there, 10 AWG 50 A.
    CHECK(f->message.find("smallest size that would do is 10 AWG") != std::string::npos);
    CHECK(judged->find(before, source) != nullptr);
  }
  const auto oldest = judge(strings_of("14 AWG", 26), "2008");
  check_numbers(oldest->find(after, source), 31.85, 32.5, "A", "690.8(B)(1)");
  CHECK(severity_name(oldest->find(after, source)) == "hazard");
}

TEST_CASE("after conditions: heat and company alone make a hazard") {
  // The output carries 9 · 12 = 108 A; 4/0 AWG: 260 · 0.91 · G
  struct Row {
    unsigned carrying;
    double in_use;
    std::string_view severity;
  };
  for (const Row& row : std::vector<Row>{{3, 236.6, "none"},
                                         {9, 165.62, "none"},
                                         {20, 118.3, "none"},
                                         {21, 106.47, "hazard"},
                                         {31, 94.64, "hazard"}}) {
    CAPTURE(row.carrying);
    const auto judged = judge(with_box({{"output", {{"run", {{"current_carrying", row.carrying}}}}}}));
    const Finding* f = judged->find(after, output);
    CHECK(severity_name(f) == row.severity);
    if (f != nullptr) check_numbers(f, row.in_use, 108, "A", "690.8(B)(2)");
    CHECK(judged->find(before) == nullptr);
  }
  const auto boiling = judge(with_circuit({{"run", {{"ambient_c", 90}}}}));
  check_numbers(boiling->find(after, source), 0, 12, "A", "690.8(B)(2)");
  CHECK(boiling->find(after, source)->message.find("no size of this wire would do") != std::string::npos);
}

TEST_CASE("after conditions: parallel conductors share") {
  Json design = with_box({{"output", {{"run", {{"current_carrying", 21}, {"parallel", 2}}}}}});
  CHECK(severity_of(design, after, {}, output) == "none");  // 2 · 106.47 A
}

TEST_CASE("2008: enough for one reading of its text and not for the stricter one is a query") {
  // 10 AWG in free air, 55 · 0.91 = 50.05 A at 36 °C (2008 has the same value): times 0.5 for ten conductors
  // and 0.35 for 41. Imax = 12 A and 15 A by the stricter reading.
  struct Row {
    double isc;
    unsigned carrying;
    std::string_view severity_2008, severity_2011;
  };
  const std::vector<Row> rows{
      // 50.05 · 0.35 = 17.5175 A; 1.5625 · 11.2112 = 17.5175, 1.25 · 14.014 = 17.5175
      {11.2112, 41, "none", "none"},     {11.2113, 41, "query", "none"}, {14.014, 41, "query", "none"},
      {14.0141, 41, "hazard", "hazard"}, {11.2113, 40, "none", "none"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.isc, row.carrying);
    Json design = with_circuit({{"run", {{"current_carrying", row.carrying}}}});
    design["modules"]["M"]["isc_a"] = row.isc;
    CHECK(severity_of(design, after, "2008", source) == row.severity_2008);
    CHECK(severity_of(design, after, "2011", source) == row.severity_2011);
  }
  Json design = with_circuit({{"run", {{"current_carrying", 41}}}});
  design["modules"]["M"]["isc_a"] = 12;
  const auto judged = judge(design, "2008");
  const Finding* f = judged->find(after, source);
  check_numbers(f, 17.5175, 18.75, "A", "690.8(B)(1)");
  CHECK(f->message.find("enough for 15 A") != std::string::npos);
  CHECK(f->message.find("stricter reading") != std::string::npos);
}

TEST_CASE("2008: an amendment may choose the stricter reading") {
  Json design = with_circuit({{"run", {{"current_carrying", 41}}}});
  design["modules"]["M"]["isc_a"] = 12;
  design["code"]["amendments"] = {{"current", {{"conductor", {{"after_factor", 1.25}}}}}};
  const auto judged = judge(design, "2008");
  const Finding* f = judged->find(after, source);
  check_numbers(f, 17.5175, 18.75, "A", "690.8(B)(1)");
  CHECK(f->severity == Severity::hazard);
  CHECK(f->amended == std::vector<std::string>{"current.conductor.after_factor"});
}

TEST_CASE("the working of an ampacity can be followed with a pencil") {
  Json design = strings_of("14 AWG", 26);
  design["combiners"][0]["circuits"][0]["run"]["above_roof_mm"] = 10;
  CheckOptions options;
  options.show_work = true;
  const auto judged = judge(design, "2017", nullptr, options);
  const Finding* f = judged->find(after, source);
  REQUIRE(f != nullptr);
  std::string symbols;
  for (const Step& step : f->working) symbols += step.symbol + " = " + exact(step.value) + "; ";
  // 36 + 33 = 69 °C: 0.58 in the 90 °C column; 35 · 0.58 = 20.3
  CAPTURE(symbols);
  for (std::string_view step : {"Imax = 32.5;", "A30 = 35;", "Ta = 69;", "F = 0.58;", "G = 1;", "At = 30;"})
    CHECK(symbols.find(step) != std::string::npos);
  CHECK(close(std::get<double>(f->found), 20.3));
}
