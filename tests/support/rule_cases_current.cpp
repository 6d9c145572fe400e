// Cases of the rules on voltage, current, fuses and conductors. The sound box by hand: nine strings of
// 18 · 30 V · (1 + 0.3 % · 35) = 596.7 V, an input 1.25 · 9.6 = 12 A, the output 108 A.
#include "tests/support/rule_case.hpp"

namespace boxproof::test {
namespace {

// A second group of circuits: five strings and four.
const Changes two_groups{{"circuits/0/strings", 5},
                         {"circuits/1", Json::parse(R"({"id": "2", "module": "M", "series": 18, "strings": 4,
                           "run": {"conductor": "string", "method": "free-air", "current_carrying": 2,
                                   "terminal_c": 75, "length_m": 20}})")}};
const Changes ungrounded{{"/inverters/I/grounding", "ungrounded"}, {"fuse/poles", "both"}};

}  // namespace

std::vector<RuleCase> cases_of_currents_and_voltages() {
  std::vector<RuleCase> c;
  // 1127.1 V: above 600 V as above 1000 V. The limit's section is that of the use of the site.
  c.push_back(plan_case("voltage/site-limit", "circuit 1", {{"circuits/0/series", 34}})
                  .except({{"2008", "690.7(C), Part IX"},
                           {"2011", "690.7(C), Part IX"},
                           {"2014", "690.7(C), Part IX"},
                           {"2023", "690.7(1)"}}));
  // 663 V: on a building the editions from 2014 on have 1000 V.
  c.push_back(plan_case("voltage/site-limit", "circuit 1", {{"circuits/0/series", 20}})
                  .except({{"2008", "690.7(C), Part IX"},
                           {"2011", "690.7(C), Part IX"},
                           {"2014", "-"},
                           {"2017", "-"},
                           {"2020", "-"},
                           {"2023", "-"}}));
  c.push_back(plan_case("voltage/module-rating", "circuit 1", {{"/modules/M/max_system_v", 590}}));
  c.push_back(plan_case("voltage/inverter-input", "inverter I", {{"/inverters/I/max_dc_v", 590}}));
  c.push_back(plan_case("voltage/equipment-rating", "fuse", {{"fuse/v", 590}}));
  c.push_back(plan_case("voltage/no-factor", "modules/M/voc_coeff_pct_per_c",
                        {{"/modules/M/voc_coeff_pct_per_c", nullptr}, {"/modules/M/cell", "thin-film"}}));
  c.push_back(
      plan_case("voltage/unequal-strings", "series", {{"circuits/1/series", 17}}).with_scene(two_groups));
  c.push_back(plan_case("voltage/tracking-window", "hot end", {{"/inverters/I/mppt_min_v", 450}}));
  c.push_back(plan_case("current/box-rating", "enclosure", {{"enclosure/rated_a", 100}}));
  c.push_back(plan_case("current/inverter-input", "inverter I", {{"/inverters/I/max_dc_isc_a", 107}}));
  c.push_back(plan_case("current/inputs", "inputs", {{"enclosure/inputs", 8}}));

  c.push_back(plan_case("fuse/missing", "circuit 1", {{"fuse", nullptr}}));  // 96 A through a 20 A module
  c.push_back(plan_case("fuse/too-small", "circuit 1", {{"fuse/a", 12}}));   // of 15 A
  c.push_back(plan_case("fuse/over-module-limit", "circuit 1", {{"fuse/a", 25}}));
  c.push_back(plan_case("fuse/not-standard", "fuse", {{"fuse/a", 17}}));
  c.push_back(plan_case("fuse/not-dc", "fuse", {{"fuse/dc", false}}));
  c.push_back(plan_case("fuse/not-pv-listed", "fuse", {{"fuse/pv_listed", false}}));
  c.push_back(plan_case("fuse/poles", "fuse", {{"fuse/poles", "both"}}));
  // From 2017 on one pole is enough on an ungrounded array.
  c.push_back(plan_case("fuse/poles", "fuse", {{"fuse/poles", "one"}})
                  .with_scene(ungrounded)
                  .except({{"2017", "-"}, {"2020", "-"}, {"2023", "-"}}));
  c.push_back(plan_case("fuse/heat", "fuse", {{"enclosure/inside_c", 50}}));

  // 1 AWG copper carries 130 A at 75 °C terminals; the output needs 135 A.
  c.push_back(
      plan_case("conductor/before-conditions", "output conductor", {{"/conductors/feeder/size", "1 AWG"}}));
  // 3 AWG copper: at most 115 · 0.91 = 104.65 A for 108 A.
  c.push_back(
      plan_case("conductor/after-conditions", "output conductor", {{"/conductors/feeder/size", "3 AWG"}}));
  // 2 AWG copper: 130 · 0.91 = 118.3 A, enough for 108 A; one reading of the text of 2008 wants 135 A.
  c.push_back(
      plan_case("conductor/after-conditions", "output conductor", {{"/conductors/feeder/size", "2 AWG"}})
          .except({{"2011", "-"}, {"2014", "-"}, {"2017", "-"}, {"2020", "-"}, {"2023", "-"}}));
  c.push_back(plan_case("conductor/unprotected", "output conductor", {{"output/ocpd_a", 400}}));
  c.push_back(plan_case("conductor/small-size-limit", "circuit 1 conductor", {{"fuse/a", 35}}));
  c.push_back(plan_case("conductor/insulation", "circuit 1 conductor",
                        {{"/conductors/string/insulation", "THWN-2"}}));
  // USE-2 may lie in the sun up to 2017, from 2020 on if it is marked for that; the editions up to 2014 want
  // PV wire on ungrounded arrays.
  c.push_back(
      plan_case("conductor/insulation", "circuit 1 conductor", {{"/conductors/string/insulation", "USE-2"}})
          .with_scene(ungrounded)
          .except({{"2008", "690.35(D)"}, {"2011", "690.35(D)"}, {"2014", "690.35(D)"}, {"2017", "-"}}));
  c.push_back(
      plan_case("conductor/aluminum", "output conductor", {{"/conductors/feeder/material", "aluminum"}}));
  c.push_back(
      plan_case("conductor/fine-strand", "output conductor", {{"/conductors/feeder/stranding", "fine"}}));
  // 175 A at the far end: 6 AWG. The finding names the rule for PV alone, without the table.
  c.push_back(plan_case("conductor/grounding-size", "egc", {{"egc/size", "10 AWG"}})
                  .except({{"2008", "690.45(A)"},
                           {"2011", "690.45(A)"},
                           {"2014", "690.45(A)"},
                           {"2017", "690.45"},
                           {"2020", "690.45"},
                           {"2023", "690.45"}}));
  c.push_back(
      plan_case("conductor/voltage-drop", "output and source circuit", {{"output/run/length_m", 500}}));
  return c;
}

}  // namespace boxproof::test
