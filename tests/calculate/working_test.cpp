// The arithmetic that a report shows, recomputed from what is printed.
//
// A step is computed (its numbers differ from its formula: every printed line must give the printed value) or
// read (numbers and formula are the same words: they must name the table or section that the value stands
// in).
#include <cmath>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/rule.hpp"
#include "boxproof/working.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/evaluate.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

bool close(double a, double b) {
  return std::abs(a - b) <= 1e-9 * std::max({1.0, std::abs(a), std::abs(b)});
}

struct Seen {
  std::size_t computed_steps = 0, read_steps = 0;
  std::set<std::string, std::less<>> rules;  // with a working
};

// Recomputes every step of every finding.
void recompute(const Judged& judged, Seen& seen) {
  for (const Finding& f : judged.judgement.findings) {
    if (!f.working.empty()) seen.rules.emplace(f.rule->id);
    for (const Step& s : f.working) {
      CAPTURE(std::string(f.rule->id), f.box_id, f.part, s.symbol, s.formula, s.numbers, s.value);
      CHECK_FALSE(s.symbol.empty());
      if (s.numbers == s.formula) {
        ++seen.read_steps;
        CHECK_FALSE(s.section.empty());
        const bool named = s.formula.find(s.section) != std::string::npos || s.formula.starts_with("Table ");
        CHECK(named);
        CHECK_FALSE(evaluate(s.numbers).has_value());  // words, not arithmetic in disguise
        continue;
      }
      ++seen.computed_steps;
      const auto value = evaluate(s.numbers);
      REQUIRE(value.has_value());
      CHECK(close(*value, s.value));
      CHECK_FALSE(evaluate(s.formula).has_value());  // symbols are left in the formula
    }
  }
}

const CheckOptions with_work{{}, true};

// One fault each, with a working behind it.
struct Fault {
  std::string_view rule;
  Json design;
};

std::vector<Fault> faults() {
  const Json cold = {{"site", {{"low_c", -40}}}};
  Json by_table = {{"site", {{"low_c", -30}}}, {"modules", {{"M", {{"voc_coeff_pct_per_c", nullptr}}}}}};
  Json by_volts = {{"site", {{"low_c", -40}}},
                   {"modules", {{"M", {{"voc_coeff_pct_per_c", nullptr}, {"voc_coeff_v_per_c", -0.09}}}}}};
  Json warm = {{"site", {{"low_c", 26}}}, {"inverters", {{"I", {{"max_dc_v", 500}}}}}};
  return {
      {"voltage/site-limit", with({{"site", {{"use", "dwelling"}, {"low_c", -40}}}})},
      {"voltage/module-rating", with({{"modules", {{"M", {{"max_system_v", 590}}}}}})},
      {"voltage/inverter-input", with({{"inverters", {{"I", {{"max_dc_v", 590}}}}}})},
      {"voltage/inverter-input", with([&] {
         Json p = cold;
         p["inverters"]["I"]["max_dc_v"] = 600;
         return p;
       }())},
      {"voltage/inverter-input", with([&] {
         by_table["inverters"]["I"]["max_dc_v"] = 600;
         return by_table;
       }())},
      {"voltage/inverter-input", with([&] {
         by_volts["inverters"]["I"]["max_dc_v"] = 600;
         return by_volts;
       }())},
      {"voltage/inverter-input", with(warm)},
      {"voltage/equipment-rating", with_box({{"fuse", {{"v", 590}}}})},
      {"voltage/tracking-window", with({{"inverters", {{"I", {{"mppt_min_v", 400}, {"mppt_max_v", 500}}}}}})},
      {"current/box-rating", with_box({{"enclosure", {{"rated_a", 100}}}})},
      {"fuse/missing", with_box({{"fuse", nullptr}})},
      {"fuse/too-small", with_box({{"fuse", {{"a", 10}}}})},
      {"fuse/too-small", with_box({{"fuse", {{"a", 15}, {"ambient_factor", 0.9}}}})},
      {"fuse/over-module-limit", with_circuit({{"strings_per_fuse", 3}})},
      {"conductor/before-conditions",
       with_circuit({{"run", {{"parallel", 1}, {"terminal_c", 60}}}, {"strings_per_fuse", 3}})},
      {"conductor/after-conditions",
       with_circuit({{"run", {{"current_carrying", 41}, {"ambient_c", 75.5}}}})},
      {"conductor/after-conditions",
       with_box({{"output", {{"run", {{"above_roof_mm", 10}, {"conductor", "string"}, {"parallel", 2}}}}}})},
      {"conductor/unprotected", with_box({{"output", {{"ocpd_a", 400}}}})},
      {"conductor/voltage-drop", with_circuit({{"run", {{"length_m", 500}}}})},
      {"disconnect/current-rating", with_box({{"disconnect", {{"rated_a", 60}}}})},
  };
}

}  // namespace

TEST_CASE("the evaluator: its own arithmetic") {
  struct Case {
    std::string_view text;
    std::optional<double> value;
  };
  const std::vector<Case> cases{{"2 + 3 · 4", 14.0},
                                {"(2 + 3) · 4", 20.0},
                                {"10 − 4 − 3", 3.0},
                                {"100 / 4 / 5", 5.0},
                                {"−3 · (−2)", 6.0},
                                {"sqrt((90 − 41) / (90 − 30))", std::sqrt(49.0 / 60)},
                                {"1e-05 · 2", 2e-5},
                                {"1.5", 1.5},
                                {"2 +", std::nullopt},
                                {"(2", std::nullopt},
                                {"2 2", std::nullopt},
                                {"2 - 1", std::nullopt},
                                {"n · 2", std::nullopt},
                                {"", std::nullopt},
                                {"ln(820 / 1000)", std::log(0.82)},
                                {"ln 4", std::nullopt},
                                {"sqrt 4", std::nullopt},
                                {"Table 690.7(A)", std::nullopt}};
  for (const Case& c : cases) {
    CAPTURE(std::string(c.text));
    const auto got = evaluate(c.text);
    REQUIRE(got.has_value() == c.value.has_value());
    if (got) CHECK(close(*got, *c.value));
  }
}

TEST_CASE("every computed step of the examples gives its printed value") {
  for (const Example& example : examples) {
    CAPTURE(std::string(example.name));
    Seen seen;
    recompute(*judge_example(example, with_work), seen);
    if (example.name != "saltmarsh") CHECK(seen.computed_steps > 10);
  }
}

TEST_CASE("every computed step of one-fault designs gives its printed value, in every edition") {
  Seen all;
  for (const Fault& fault : faults())
    for (const std::string_view edition : edition_names) {
      CAPTURE(std::string(fault.rule), std::string(edition));
      const auto judged = judge(fault.design, edition, nullptr, with_work);
      Seen seen;
      recompute(*judged, seen);
      CHECK(seen.rules.contains(fault.rule));
      all.computed_steps += seen.computed_steps;
      all.read_steps += seen.read_steps;
    }
  CHECK(all.computed_steps > 100);
  CHECK(all.read_steps > 50);
}

TEST_CASE("no working unless it is asked for") {
  for (const Fault& fault : faults()) {
    const auto judged = judge(fault.design);
    CHECK_FALSE(judged->findings().empty());
    for (const Finding& f : judged->findings()) CHECK(f.working.empty());
  }
}
