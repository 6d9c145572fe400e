// Measurements computed from the plan itself give no finding, whatever the weather; and every line of their
// workings can be followed with a pencil.
#include <cmath>
#include <random>

#include "boxproof/measured.hpp"
#include "src/rules/measured.hpp"
#include "tests/support/evaluate.hpp"
#include "tests/support/example.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// A record that measures each string of the example's boxes as the plan has it.
Json measured_as_planned(const Json& plan_text, const Design& plan, const Edition& e, std::mt19937& random) {
  Json record{{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array()}};
  std::uniform_real_distribution<double> light(200, 1200), cell(-10, 75), off(0.99, 1.01);
  for (const Combiner& box : plan.combiners) {
    const double w_m2 = light(random), c = cell(random);
    Json strings = Json::array();
    int position = 0;
    for (const Circuit& group : box.circuits)
      for (std::uint32_t s = 0; s < group.strings; ++s) {
        Json string{{"position", ++position}, {"insulation_mohm", 1}, {"reversed", false}};
        const auto one = voltage_of_one(*group.module, Celsius(c), w_m2, e);
        REQUIRE(one);
        string["voc_v"] = off(random) * group.series * one->value();
        string["isc_a"] = off(random) * current_at(*group.module, w_m2, e).value();
        strings.push_back(string);
      }
    record["boxes"].push_back(
        {{"id", box.id}, {"measured", {{"irradiance_w_m2", w_m2}, {"cell_c", c}, {"strings", strings}}}});
  }
  CHECK(record["boxes"].size() == plan_text["combiners"].size());
  return record;
}

}  // namespace

TEST_CASE("measurements computed from the plan give no finding") {
  const Json plan = example_json("saltmarsh.json");
  const auto design = judge(plan);
  std::mt19937 random(7);
  for (int round = 0; round < 5; ++round) {
    const auto judged =
        judge(plan, "", measured_as_planned(plan, design->design.design, design->edition, random));
    CHECK(judged->judgement.boxes.size() == 50);
    for (const Finding& f : judged->findings()) {
      CAPTURE(f.box_id, f.message);
      CHECK_FALSE(f.rule->id.starts_with("measured/"));
    }
  }
}

TEST_CASE("the workings of the measured rules can be recomputed") {
  Json strings = Json::array();
  strings.push_back({{"position", 1}, {"voc_v", 480}, {"isc_a", 5}, {"insulation_mohm", 0.2}});
  strings.push_back({{"position", 2}, {"voc_v", 520}, {"isc_a", 8}});
  for (const char* coefficient : {"voc_coeff_pct_per_c", "voc_coeff_v_per_c"})
    for (const double w_m2 : {850.0, 1100.0}) {
      Json design = sound_design();
      design["modules"]["M"].erase("voc_coeff_pct_per_c");
      design["modules"]["M"][coefficient] = -0.1;
      const Json measured{{"irradiance_w_m2", w_m2}, {"cell_c", 48}, {"strings", strings}};
      const Json record{{"format", "boxproof-asbuilt/1"},
                        {"boxes", {{{"id", "A-01"}, {"measured", measured}}}}};
      const auto judged = judge(design, "", record, {{}, true});
      std::size_t steps = 0;
      for (const Finding& f : judged->findings()) {
        if (!f.rule->id.starts_with("measured/")) continue;
        for (const Step& s : f.working) {
          CAPTURE(std::string(f.rule->id), s.symbol, s.numbers);
          const auto value = evaluate(s.numbers);
          REQUIRE(value);
          CHECK(std::abs(*value - s.value) <= 1e-9 * std::abs(s.value));
          ++steps;
        }
      }
      CHECK(steps >= 10);
    }
}
