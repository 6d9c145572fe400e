// Cases of the rules on disconnects, enclosures, protection, labels and the site. The sound box stands on the
// roof of a building; its output carries 108 A.
#include "tests/support/rule_case.hpp"

namespace boxproof::test {
namespace {

const Changes on_the_ground{{"/site/use", "ground"}, {"mounting/place", "ground"}};

void add_disconnects(std::vector<RuleCase>& c) {
  // 2014 tells boxes on a roof from others, so that its finding has the section of the case.
  c.push_back(plan_case("disconnect/missing", "disconnect", {{"disconnect", nullptr}})
                  .except({{"2014", "690.15(C)"}}));
  c.push_back(plan_case("disconnect/missing", "disconnect", {{"disconnect", nullptr}})
                  .with_scene(on_the_ground)
                  .except({{"2014", "690.16(B)"}}));
  // Without fuses there is nothing that 690.16(B) wants isolated.
  c.push_back(plan_case("disconnect/missing", "disconnect", {{"disconnect", nullptr}})
                  .with_scene({{"/site/use", "ground"}, {"mounting/place", "ground"}, {"fuse", nullptr}})
                  .except({{"2011", "-"}, {"2014", "-"}}));
  c.push_back(plan_case("disconnect/not-load-break", "disconnect", {{"disconnect/load_break", false}})
                  .except({{"2014", "690.15(C)"}}));
  // Off the roof 2014 asks for an isolating device only.
  c.push_back(plan_case("disconnect/not-load-break", "disconnect", {{"disconnect/load_break", false}})
                  .with_scene(on_the_ground)
                  .except({{"2014", "-"}}));
  // One string, 12 A: up to 30 A the editions from 2017 on ask for an isolating device only.
  c.push_back(plan_case("disconnect/not-load-break", "disconnect", {{"disconnect/load_break", false}})
                  .with_scene({{"circuits/0/strings", 1}})
                  .except({{"2014", "690.15(C)"}, {"2017", "-"}, {"2020", "-"}, {"2023", "-"}}));
  c.push_back(plan_case("disconnect/too-far", "disconnect", {{"disconnect/distance_m", 20}})
                  .with_scene({{"disconnect/lockable", false}})
                  .except({{"2014", "690.15(C)"}}));
  // 2023 sets no distance for one that takes a lock.
  c.push_back(plan_case("disconnect/too-far", "disconnect", {{"disconnect/distance_m", 20}})
                  .except({{"2014", "690.15(C)"}, {"2023", "-"}}));
  // 2 m: above the 1.8 m of 2014 on a roof alone.
  c.push_back(
      plan_case("disconnect/too-far", "disconnect", {{"disconnect/distance_m", 2}})
          .except({{"2011", "-"}, {"2014", "690.15(C)"}, {"2017", "-"}, {"2020", "-"}, {"2023", "-"}}));
  c.push_back(plan_case("disconnect/current-rating", "disconnect", {{"disconnect/rated_a", 100}}));
  c.push_back(plan_case("disconnect/handle", "external handle", {{"disconnect/external_handle", false}}));
  // The means to lock it open is asked for from 2017 on.
  c.push_back(plan_case("disconnect/handle", "means to lock it open", {{"disconnect/lockable", false}})
                  .except({{"2011", "-"}, {"2014", "-"}}));
}

void add_protection(std::vector<RuleCase>& c) {
  // The editions up to 2014 have a section each for grounded and ungrounded arrays.
  c.push_back(
      plan_case("protection/ground-fault", "inverter I", {{"/inverters/I/ground_fault_protection", false}})
          .except({{"2008", "690.5"}, {"2011", "690.5"}, {"2014", "690.5"}}));
  c.push_back(
      plan_case("protection/ground-fault", "inverter I", {{"/inverters/I/ground_fault_protection", false}})
          .with_scene({{"/inverters/I/grounding", "ungrounded"}})
          .except({{"2008", "690.35(C)"}, {"2011", "690.35(C)"}, {"2014", "690.35(C)"}}));
  c.push_back(
      plan_case("protection/arc-fault", "inverter I", {{"/inverters/I/arc_fault_protection", false}}));
  // 2011 wants it on and in buildings, and where circuits enter one, which it then asks.
  c.push_back(plan_case("protection/arc-fault", "inverter I", {{"/inverters/I/arc_fault_protection", false}})
                  .with_scene(on_the_ground));
  c.push_back(plan_case("protection/rapid-shutdown", "inverter I", {{"/inverters/I/rapid_shutdown", false}}));
}

void add_labels(std::vector<RuleCase>& c) {
  // The finding has the section of the label that is missing.
  c.push_back(plan_case("label/missing", "label disconnect", {{"labels/7", nullptr}})
                  .except({{"2008", "110.22(A)"},
                           {"2011", "110.22(A)"},
                           {"2014", "110.22(A)"},
                           {"2017", "110.22(A)"},
                           {"2020", "110.22(A)"},
                           {"2023", "110.22(A)"}}));
  // 2008 has no rule on the identification of boxes.
  c.push_back(plan_case("label/missing", "label box-identification", {{"labels/0", nullptr}})
                  .except({{"2008", "-"},
                           {"2011", "690.4(B)"},
                           {"2014", "690.31(B)"},
                           {"2017", "690.31(B)"},
                           {"2020", "690.31(B)"},
                           {"2023", "690.31(B)"}}));
  // Once on the site, and not up to 2011.
  c.push_back(plan_case("label/missing", "label rapid-shutdown", {{"labels/6", nullptr}})
                  .except({{"2008", "-"},
                           {"2011", "-"},
                           {"2014", "690.56(C)"},
                           {"2017", "690.56(C)"},
                           {"2020", "690.56(C)"},
                           {"2023", "690.12(D)"}}));
  c.push_back(plan_case("label/values", "label max-voltage max_v", {{"labels/1/values/max_v", 500}}));
}

}  // namespace

std::vector<RuleCase> cases_of_equipment() {
  std::vector<RuleCase> c;
  add_disconnects(c);
  c.push_back(plan_case("enclosure/type", "enclosure", {{"enclosure/type", "12"}}));
  c.push_back(plan_case("enclosure/air-gap", "air gap", {{"mounting/air_gap_mm", 3}}));
  c.push_back(plan_case("enclosure/not-listed", "enclosure", {{"enclosure/listed", false}}));
  add_protection(c);
  add_labels(c);
  c.push_back(plan_case("site/totals", "strings", {{"/site/permit/strings", 10}})
                  .with_scene({{"/site/permit", {{"strings", 9}, {"combiners", 1}}}}));
  c.push_back(plan_case("site/grounding-term", "inverter I", {{"/inverters/I/grounding", "functional"}}));
  c.push_back(
      plan_case("site/temperature-source", "temperature_source", {{"/site/temperature_source", nullptr}}));
  return c;
}

}  // namespace boxproof::test
