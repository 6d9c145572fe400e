// A local amendment that sets the coldest temperature to design for: strings are judged at it where the
// plan's own is warmer. By hand for the sound design, 18 · 30 V = 540 V at 25 °C, −0.3 % / K: 596.7 V at −10
// °C, 612.9 V at −20 °C, 629.1 V at −30 °C.
#include <algorithm>

#include "boxproof/labels.hpp"
#include "boxproof/rule.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/example.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Words = std::vector<std::string>;
const std::string amended_key = "voltage.design_low.at_most_c";

// Judged at −20 °C at the most; a dwelling, so that the limit is 600 V.
Json amended(Json design, double at_most = -20) {
  return put(put(std::move(design), "/site/use", "dwelling"), "/code/amendments",
             {{"voltage", {{"design_low", {{"at_most_c", at_most}}}}}});
}

double highest(const Judged& judged) {
  BoxFacts facts;
  box_facts(judged.design.design, judged.design.design.combiners.front(), judged.edition, facts);
  REQUIRE(facts.max_voltage.has_value());
  return facts.max_voltage->value();
}

double highest_at(double stated, double at_most) {
  return highest(*judge(put(amended(sound_design(), at_most), "/site/low_c", stated)));
}

}  // namespace

TEST_CASE("the colder of the plan's temperature and the amendment's counts") {
  CHECK(close(highest(*judge(sound_design())), 596.7));
  CHECK(close(highest_at(-10, -20), 612.9));
  CHECK(close(highest_at(-20, -20), 612.9));
  CHECK(close(highest_at(-30, -20), 629.1));  // a colder plan stays as it is
  CHECK(close(highest_at(-10, -9), 596.7));
  CHECK(close(highest_at(30, 30),
              540));  // the warmest plan, under the editions' own value: no gain above 25 °C
  const Edition& e = edition_of("2017");
  CHECK(design_low(Celsius(-10), e) == Celsius(-10));
  CHECK(design_low(Celsius(30), e) == Celsius(30));
  CHECK(design_low(std::nullopt, e) == std::nullopt);
}

TEST_CASE("a plan without a temperature is not given one by the amendment") {
  const auto judged = judge(without(amended(sound_design()), "/site/low_c"));
  const Finding* f = judged->find("voltage/no-factor");
  REQUIRE(f != nullptr);
  CHECK(f->severity == Severity::query);
}

TEST_CASE("the voltage rules judge at the amended temperature and name the amendment") {
  Json design = amended(sound_design());
  CHECK(severity_of(put(sound_design(), "/site/use", "dwelling"), "voltage/site-limit") == "none");
  const auto judged = judge(design);
  const Finding* f = judged->find("voltage/site-limit");
  REQUIRE(f != nullptr);
  CHECK(close(std::get<double>(f->found), 612.9));
  CHECK(says(*f, "reaches 612.9 V at −20 °C"));
  CHECK(f->amended == Words{amended_key});
  CHECK(says(*f, "Amended locally: " + amended_key + " ("));

  // 605 V: above 596.7 V and below 612.9 V.
  for (const auto& [pointer, rule] :
       {std::pair("/modules/M/max_system_v", "voltage/module-rating"),
        std::pair("/inverters/I/max_dc_v", "voltage/inverter-input"),
        std::pair("/combiners/0/enclosure/rated_v", "voltage/equipment-rating")}) {
    CAPTURE(rule);
    CHECK(severity_of(put(sound_design(), pointer, 605), rule) == "none");
    const auto other = judge(put(design, pointer, 605));
    REQUIRE(other->find(rule) != nullptr);
    CHECK(other->find(rule)->amended == Words{amended_key});
  }
}

TEST_CASE("the cold end of the tracking window is at the amended temperature") {
  // 18 · 25 V · (1 + 0.4 % · (25 − T)): 513 V at −10 °C, 531 V at −20 °C.
  const Json design = put(sound_design(), "/inverters/I/mppt_max_v", 520);
  CHECK(severity_of(design, "voltage/tracking-window") == "none");
  const auto judged = judge(amended(design));
  const Finding* f = judged->find("voltage/tracking-window");
  REQUIRE(f != nullptr);
  CHECK(close(std::get<double>(f->found), 531));
  CHECK(f->amended == Words{amended_key});
}

TEST_CASE("which strings are highest at the cold end is judged at the amended temperature") {
  // M as above: 513 V at −10 °C, 531 V at −20 °C. N, 18 · 21.5 V · (1 + 0.9 % · (25 − T)): 508.9 and 543.7 V.
  Json design = put(sound_design(), "/inverters/I/mppt_max_v", 500);
  design["modules"]["N"] = design["modules"]["M"];
  design["modules"]["N"].merge_patch({{"vmp_v", 21.5}, {"pmax_w", 193.5}, {"vmp_coeff_pct_per_c", -0.9}});
  Json second = design["combiners"][0]["circuits"][0];
  second.merge_patch({{"id", "2"}, {"module", "N"}});
  design["combiners"][0]["circuits"].push_back(second);
  const auto cold_end = [](const Json& d) {
    const auto judged = judge(d);
    const Finding* f = judged->find("voltage/tracking-window", "cold end");
    REQUIRE(f != nullptr);
    return std::get<double>(f->found);
  };
  CHECK(close(cold_end(design), 513));
  CHECK(close(cold_end(amended(design)), 387 * 1.405));
}

TEST_CASE("labels must state the voltage at the amended temperature") {
  const auto judged = judge(amended(sound_design()));
  const Finding* f = judged->find("label/values", "label max-voltage max_v");
  REQUIRE(f != nullptr);
  CHECK(close(std::get<double>(f->required), 612.9));
  CHECK(f->amended == Words{amended_key});
}

TEST_CASE("the cold table too is read at the amended temperature, and its end") {
  // Without a coefficient: 1.14 at −10 °C is 615.6 V, 1.18 at −20 °C is 637.2 V; the table ends at −40 °C.
  const Json design = without(sound_design(), "/modules/M/voc_coeff_pct_per_c");
  CHECK(close(highest(*judge(amended(design, 0))), 615.6));
  CHECK(close(highest(*judge(amended(design))), 637.2));
  const auto judged = judge(amended(design, -41));
  const Finding* f = judged->find("voltage/no-factor");
  REQUIRE(f != nullptr);
  CHECK(says(*f, "−41 °C is colder than the table's end at −40 °C"));
  CHECK(f->amended == Words{amended_key});
}

TEST_CASE("the arithmetic says where the temperature comes from, and only then") {
  CheckOptions options;
  options.show_work = true;
  const auto steps = [&](const Json& design) {
    const auto judged = judge(design, {}, nullptr, options);
    const Finding* f = judged->find("voltage/site-limit");
    REQUIRE(f != nullptr);
    return f->working;
  };
  const Working with_amendment = steps(amended(sound_design()));
  REQUIRE_FALSE(with_amendment.empty());
  CHECK(with_amendment.front().symbol == "T");
  CHECK(with_amendment.front().value == -20);
  const Json cold = put(put(sound_design(), "/site/use", "dwelling"), "/site/low_c", -25);
  for (const Working& plain : {steps(cold), steps(put(amended(sound_design()), "/site/low_c", -25))})
    CHECK(std::none_of(plain.begin(), plain.end(), [](const auto& step) { return step.symbol == "T"; }));
}

TEST_CASE("the head of the text report says at which temperature it was judged") {
  CHECK(text_report(*judge(amended(sound_design()))).find("low −10 °C (judged at −20 °C), high 36 °C") !=
        std::string::npos);
  CHECK(text_report(*judge(put(amended(sound_design()), "/site/low_c", -25))).find("judged at") ==
        std::string::npos);
  CHECK(text_report(*judge(sound_design())).find("judged at") == std::string::npos);
}
