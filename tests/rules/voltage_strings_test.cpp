// Strings of one box among themselves, and strings whose voltage cannot be computed.
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// The sound box with eight strings of module M (25 V each at work) and one of module N.
Json two_modules(const Json& n = Json::object()) {
  Json design = sound_design();
  design["modules"]["N"] = design["modules"]["M"];
  design["modules"]["N"].merge_patch(n);
  Json& circuits = design["combiners"][0]["circuits"];
  circuits[0]["strings"] = 8;
  circuits.push_back(circuits[0]);
  circuits[1]["id"] = "2";
  circuits[1]["module"] = "N";
  circuits[1]["strings"] = 1;
  return design;
}

constexpr std::string_view no_factor = "voltage/no-factor";

}  // namespace

TEST_CASE("strings of one box that differ in series count") {
  Json design = two_modules();
  CHECK(judge(design)->summary().empty());
  design["combiners"][0]["circuits"][1]["series"] = 17;
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    const auto judged = judge(design, edition);
    CHECK(judged->summary() == std::vector<std::string>{"voltage/unequal-strings correction series"});
    const Finding* f = judged->find("voltage/unequal-strings");
    REQUIRE(f != nullptr);
    CHECK(std::get<double>(f->found) == 17);
    CHECK(std::get<double>(f->required) == 18);
    CHECK(f->unit == "modules in series");
    CHECK(f->section == "common practice");
    CHECK(says(*f, "18"));
    CHECK(says(*f, "17"));
    CHECK(f->place.pointer == "/combiners/0/circuits/1/series");
  }
}

TEST_CASE("strings of unlike modules whose Vmp differs by over 5 % of the highest") {
  // 18 modules each; M works at 450 V, N at 18 times its own Vmp.
  struct Row {
    double vmp;
    const char* severity;
  };
  for (const Row& r : std::vector<Row>{{25, "none"},
                                       {24, "none"},
                                       {23.75, "none"},                          // 5 % exactly
                                       {25 * (1 - 0.05 * (1 + 5e-10)), "none"},  // within the slack
                                       {25 * (1 - 0.05 * (1 + 1e-8)), "correction"},
                                       {23.7, "correction"},
                                       {25 / 0.95, "none"},  // N the higher one
                                       {26.4, "correction"}}) {
    CAPTURE(r.vmp);
    CHECK(severity_of(two_modules({{"vmp_v", r.vmp}}), "voltage/unequal-strings") == r.severity);
  }
  const auto judged = judge(two_modules({{"vmp_v", 23}}));
  const Finding* f = judged->find("voltage/unequal-strings", "operating voltage");
  REQUIRE(f != nullptr);
  CHECK_THAT(std::get<double>(f->found), Catch::Matchers::WithinRel(8, 1e-12));  // 1 − 414/450
  CHECK(std::get<double>(f->required) == 5);
  CHECK(f->unit == "%");
  CHECK(says(*f, "450 V"));
  CHECK(says(*f, "414 V"));
  CHECK(says(*f, "8 %"));
}

TEST_CASE("a Vmp that the comparison needs is asked for once") {
  const Json design = two_modules();
  check_missing(design, {{"/modules/N/vmp_v", "voltage/unequal-strings", "modules/N/vmp_v"},
                         {"/modules/M/vmp_v", "voltage/unequal-strings", "modules/M/vmp_v"}});
  // Both missing: one query for each.
  CHECK(judge(without(without(design, "/modules/M/vmp_v"), "/modules/N/vmp_v"))->summary() ==
        std::vector<std::string>{"voltage/unequal-strings query modules/M/vmp_v",
                                 "voltage/unequal-strings query modules/N/vmp_v"});
}

TEST_CASE("voltage that cannot be computed: one query a box for each missing key, and no other rule asks") {
  struct Row {
    const char* what;
    Json module;
    Json site;
    const char *part, *says;
  };
  const char* coefficient = "modules/M/voc_coeff_pct_per_c";
  const Json none = nullptr, same = Json::object();
  for (const Row& r :
       std::vector<Row>{{"no low temperature", same, {{"low_c", none}}, "site/low_c", "site/low_c"},
                        {"no coefficient and no cell",
                         {{"voc_coeff_pct_per_c", none}, {"cell", none}},
                         same,
                         coefficient,
                         "nor its kind of cell"},
                        {"thin film",
                         {{"voc_coeff_pct_per_c", none}, {"cell", "thin-film"}},
                         same,
                         coefficient,
                         "thin film"},
                        {"colder than the table",
                         {{"voc_coeff_pct_per_c", none}},
                         {{"low_c", -41}},
                         coefficient,
                         "−41 °C"},
                        {"just colder than the table",
                         {{"voc_coeff_pct_per_c", none}},
                         {{"low_c", -40.5}},
                         coefficient,
                         "−40.5 °C"}})
    for (const std::string_view edition : edition_names) {
      CAPTURE(r.what, edition);
      Json design = sound_design();
      design["modules"]["M"].merge_patch(r.module);
      design["site"].merge_patch(r.site);
      const auto judged = judge(design, edition);
      CHECK(judged->summary() == std::vector<std::string>{"voltage/no-factor query " + std::string(r.part)});
      const Finding* f = judged->find(no_factor);
      REQUIRE(f != nullptr);
      CHECK(says(*f, r.says));
      CHECK(f->section == "690.7(A)");
      CHECK(f->place.pointer != "/combiners/0");
    }
}

TEST_CASE("voltage that can be computed: silent twins of the query") {
  const Json none = nullptr;
  for (const Json& module :
       std::vector<Json>{{{"voc_coeff_pct_per_c", none}},  // by the table
                         {{"voc_coeff_pct_per_c", none}, {"cell", "poly-si"}},
                         {{"voc_coeff_pct_per_c", none}, {"voc_coeff_v_per_c", -0.09}},
                         {{"voc_coeff_pct_per_c", none}, {"voc_coeff_v_per_c", -0.09}, {"cell", "thin-film"}},
                         {{"cell", "thin-film"}},
                         {{"cell", none}}}) {
    CAPTURE(module.dump());
    CHECK(judge(with_fitting_labels(with({{"modules", {{"M", module}}}})))->summary().empty());
  }
  const Json coldest =
      with({{"site", {{"low_c", -40}}}, {"modules", {{"M", {{"voc_coeff_pct_per_c", none}}}}}});
  CHECK(judge(with_fitting_labels(coldest))->summary().empty());  // 540 · 1.25 = 675 V
}

TEST_CASE("one string without a factor does not silence the others") {
  Json design = two_modules({{"voc_coeff_pct_per_c", nullptr}, {"cell", "thin-film"}});
  design["inverters"]["I"]["max_dc_v"] = 590;  // below the 596.7 V of circuit 1
  CHECK(judge(design)->summary() ==
        std::vector<std::string>{"voltage/inverter-input hazard inverter I",
                                 "voltage/no-factor query modules/N/voc_coeff_pct_per_c"});
}

TEST_CASE("two modules without a factor are two queries, two boxes without a low temperature too") {
  const Json thin = {{"voc_coeff_pct_per_c", nullptr}, {"cell", "thin-film"}};
  Json design = two_modules(thin);
  design["modules"]["M"].merge_patch(thin);
  CHECK(judge(design)->summary() ==
        std::vector<std::string>{"voltage/no-factor query modules/M/voc_coeff_pct_per_c",
                                 "voltage/no-factor query modules/N/voc_coeff_pct_per_c"});
  Json boxes = without(two_modules(), "/site/low_c");
  boxes["combiners"].push_back(boxes["combiners"][0]);
  boxes["combiners"][1]["id"] = "A-02";
  const auto judged = judge(boxes);
  REQUIRE(judged->findings().size() == 2);
  CHECK(judged->findings()[0].box_id == "A-01");
  CHECK(judged->findings()[1].box_id == "A-02");
  for (const Finding& f : judged->findings()) CHECK(f.rule->id == no_factor);
}

TEST_CASE("the query for the low temperature names the checks that could not be made") {
  const auto judged = judge(without(sound_design(), "/site/low_c"));
  const Finding* f = judged->find(no_factor);
  REQUIRE(f != nullptr);
  for (const char* rule : {"voltage/site-limit", "voltage/module-rating", "voltage/inverter-input",
                           "voltage/equipment-rating", "voltage/tracking-window"})
    CHECK(says(*f, rule));
}

TEST_CASE("a value over its limit is not printed like the limit") {
  // 18 · 30.17 V · 1.105 = 600.0813 V against 600 V, and 135 A against 134.99 A.
  const auto volts = judge(put(put(sound_design(), "/modules/M/voc_v", 30.17), "/inverters/I/max_dc_v", 600));
  const Finding* over = volts->find("voltage/inverter-input");
  REQUIRE(over != nullptr);
  CHECK_FALSE(says(*over, "reaches 600 V"));
  const auto nearly =
      judge(put(put(sound_design(), "/modules/M/voc_v", 30.168), "/inverters/I/max_dc_v", 600));
  const Finding* hair = nearly->find("voltage/inverter-input");  // 600.0415 V
  REQUIRE(hair != nullptr);
  CHECK_FALSE(says(*hair, "reaches 600 V"));
  const auto amps = judge(put(sound_design(), "/combiners/0/enclosure/rated_a", 134.99));
  const Finding* rated = amps->find("current/box-rating");
  REQUIRE(rated != nullptr);
  CHECK(says(*rated, "134.99 A"));
}
