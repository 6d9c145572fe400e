// The site as a whole. By hand: two sound boxes are 18 strings, 18 · 18 = 324 modules and 324 · 225 W = 72.9
// kW.
#include <algorithm>
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

Json two_boxes() {
  Json design = sound_design();
  design["combiners"].push_back(design["combiners"][0]);
  design["combiners"][1]["id"] = "A-02";
  return design;
}

Json permitted(const Json& permit) {
  return put(two_boxes(), "/site/permit", permit);
}

const std::string permit_kw = "/site/permit/dc_kw";

}  // namespace

TEST_CASE("totals that agree with the permit, or are not on it") {
  for (const Json& permit :
       std::vector<Json>{{{"number", "P-1"}},
                         {{"combiners", 2}},
                         {{"strings", 18}},
                         {{"modules", 324}},
                         {{"dc_kw", 72.9}},
                         {{"combiners", 2}, {"strings", 18}, {"modules", 324}, {"dc_kw", 72.9}}})
    for (const std::string_view edition : edition_names) {
      CAPTURE(permit.dump(), edition);
      CHECK(judge(permitted(permit), edition)->summary().empty());
    }
}

TEST_CASE("counts agree exactly or are a correction") {
  struct Row {
    const char* key;
    double found;
  };
  for (const Row& r : std::vector<Row>{{"combiners", 2}, {"strings", 18}, {"modules", 324}})
    for (const int off : {-1, 1})
      for (const std::string_view edition : edition_names) {
        CAPTURE(r.key, off, edition);
        const int permit = static_cast<int>(r.found) + off;
        const auto judged = judge(permitted({{r.key, permit}}), edition);
        CHECK(judged->summary() == std::vector<std::string>{std::string("site/totals correction ") + r.key});
        const Finding* f = judged->find("site/totals");
        REQUIRE(f != nullptr);
        CHECK(std::get<double>(f->found) == r.found);
        CHECK(std::get<double>(f->required) == permit);
        CHECK(f->unit == r.key);
        CHECK(f->section == "approved plan");
        CHECK_FALSE(f->box);
        CHECK(f->place.pointer == std::string("/site/permit/") + r.key);
        CHECK(says(*f, "has " + std::to_string(static_cast<int>(r.found)) + " "));
        CHECK(says(*f, "says " + std::to_string(permit)));
      }
}

TEST_CASE("DC power within half a percent of the permit's") {
  struct Row {
    double permit;
    const char* severity;
  };
  // The permit's power that lies off by just so many percent, above or below.
  const auto above = [](double pct) { return 72.9 / (1 - pct / 100); };
  const auto below = [](double pct) { return 72.9 / (1 + pct / 100); };
  for (const Row& r : std::vector<Row>{{72.9, "none"},
                                       {above(0.49), "none"},
                                       {above(0.5), "none"},
                                       {above(0.5 * (1 + 5e-10)), "none"},
                                       {above(0.5 * (1 + 2e-9)), "correction"},
                                       {above(0.51), "correction"},
                                       {below(0.49), "none"},
                                       {below(0.5), "none"},
                                       {below(0.5 * (1 + 5e-10)), "none"},
                                       {below(0.5 * (1 + 2e-9)), "correction"},
                                       {below(0.51), "correction"}}) {
    CAPTURE(r.permit);
    CHECK(severity_of(permitted({{"dc_kw", r.permit}}), "site/totals", {}, "DC power") == r.severity);
  }
  const auto judged = judge(permitted({{"dc_kw", 75}}));
  const Finding* f = judged->find("site/totals", "DC power");
  REQUIRE(f != nullptr);
  CHECK_THAT(std::get<double>(f->found), Catch::Matchers::WithinRel(72.9, 1e-13));
  CHECK(std::get<double>(f->required) == 75);
  CHECK(f->unit == "kW");
  CHECK(f->place.pointer == permit_kw);
  for (const char* text : {"72.9 kW", "75 kW", "0.5 %"}) CHECK(says(*f, text));
}

TEST_CASE("every total that differs is a finding of its own, and the verdict is the site's") {
  const auto judged = judge(permitted({{"combiners", 3}, {"strings", 20}, {"modules", 360}, {"dc_kw", 81}}));
  const std::string rule = "site/totals correction ";
  CHECK(judged->summary() ==
        std::vector<std::string>{rule + "combiners", rule + "strings", rule + "modules", rule + "DC power"});
  CHECK(judged->judgement.verdict == Verdict::correct);
  for (const BoxResult& box : judged->judgement.boxes) CHECK(box.verdict == Verdict::accept);
  // Where only some boxes are asked for, the site is not judged.
  CheckOptions options;
  options.boxes = {"A-02"};
  CHECK(judge(permitted({{"combiners", 3}}), {}, nullptr, options)->summary().empty());
}

TEST_CASE("boxes of unlike modules and string lengths add up") {
  Json design = two_boxes();
  design["modules"]["N"] = design["modules"]["M"];
  design["modules"]["N"].merge_patch({{"imp_a", 8}, {"pmax_w", 200}});
  // Nine strings of 18 M in A-01; four strings of 16 N in A-02: 13 strings, 162 + 64 modules, 36.45 + 12.8
  // kW.
  design["combiners"][1]["circuits"][0].merge_patch({{"module", "N"}, {"series", 16}, {"strings", 4}});
  design = with_fitting_labels(std::move(design));
  const auto agrees =
      judge(put(design, "/site/permit", {{"strings", 13}, {"modules", 226}, {"dc_kw", 49.25}}));
  CHECK(agrees->summary().empty());
  CHECK(agrees->judgement.totals.strings == 13);
  CHECK(agrees->judgement.totals.modules == 226);
  CHECK_THAT(agrees->judgement.totals.dc_kilowatts.value_or(0), Catch::Matchers::WithinRel(49.25, 1e-13));
  CHECK(severity_of(put(design, permit_kw, 49), "site/totals") == "correction");  // 0.51 % off
}

TEST_CASE("a module's power that is not stated is asked for where the permit states the power") {
  for (const std::string_view edition : edition_names)
    check_missing(permitted({{"dc_kw", 72.9}}), {{"/modules/M/pmax_w", "site/totals", "modules/M/pmax_w"}},
                  edition);
  CHECK(judge(without(permitted({{"modules", 324}}), "/modules/M/pmax_w"))->summary().empty());
  // The counts are still compared.
  CHECK(judge(without(permitted({{"modules", 300}, {"dc_kw", 72.9}}), "/modules/M/pmax_w"))->summary() ==
        std::vector<std::string>{"site/totals correction modules", "site/totals query modules/M/pmax_w"});
}

TEST_CASE("two modules without a power are asked for, both") {
  Json design = without(permitted({{"dc_kw", 72.9}}), "/modules/M/pmax_w");
  design["modules"]["N"] = design["modules"]["M"];
  design["combiners"][1]["circuits"][0]["module"] = "N";
  CHECK(judge(design)->summary() ==
        std::vector<std::string>{"site/totals query modules/M/pmax_w", "site/totals query modules/N/pmax_w"});
}

TEST_CASE("functional grounding is a term from the 2017 edition on") {
  Json design = two_boxes();
  design["inverters"]["J"] = design["inverters"]["I"];
  design["combiners"][1]["inverter"] = "J";
  const Json one = put(design, "/inverters/J/grounding", "functional");
  const Json both = put(one, "/inverters/I/grounding", "functional");
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    CHECK(judge(design, edition)->summary().empty());
    if (edition >= "2017") {
      CHECK(judge(both, edition)->summary().empty());
      continue;
    }
    const auto judged = judge(one, edition);
    CHECK(judged->summary() == std::vector<std::string>{"site/grounding-term query inverter J"});
    const Finding* f = judged->find("site/grounding-term");
    REQUIRE(f != nullptr);
    CHECK(std::get<std::string>(f->found) == "functional");
    CHECK(std::get<std::string>(f->required) == "solid or ungrounded");
    CHECK(f->section == "690.41, 690.35");
    CHECK(f->place.pointer == "/inverters/J/grounding");
    CHECK(says(*f, std::string(edition)));
    CHECK(judge(both, edition)->summary() ==
          std::vector<std::string>{"site/grounding-term query inverter I",
                                   "site/grounding-term query inverter J"});
  }
}

TEST_CASE("under an edition without the term a grounding that is not stated is asked for, fuses or not", "") {
  Json design = without(with_circuit({{"strings", 1}}), "/inverters/I/grounding");
  design["combiners"][0].erase("fuse");
  for (const std::string_view edition : {"2008", "2011", "2014"}) {
    CAPTURE(edition);
    const auto judged = judge(design, edition);
    const bool asked =
        std::any_of(judged->findings().begin(), judged->findings().end(), [](const Finding& f) {
          return f.severity == Severity::query && f.place.pointer.find("/inverters/I") == 0;
        });
    CHECK(asked);
  }
}

TEST_CASE("design temperatures without a source") {
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    for (const Json& design : {without(two_boxes(), "/site/temperature_source"),
                               put(two_boxes(), "/site/temperature_source", "")}) {
      const auto judged = judge(design, edition);
      CHECK(judged->summary() ==
            std::vector<std::string>{"site/temperature-source query temperature_source"});
      const Finding* f = judged->find("site/temperature-source");
      REQUIRE(f != nullptr);
      CHECK(f->section == "690.7(A)");
      CHECK_FALSE(f->box);
      CHECK(says(*f, "−10"));
      CHECK(says(*f, "36 °C"));
    }
  }
}
