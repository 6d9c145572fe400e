// How near the sound box comes to each limit. By hand: 18 · 30 V · 1.105 = 596.7 V at −10 °C; nine inputs of
// 1.25 · 9.6 = 12 A, 108 A together, 135 A for hours; 10 AWG copper in free air carries 50 A at 75 °C
// terminals and 55 · 0.91 A at 36 °C, 4/0 AWG in a raceway 230 A and 260 · 0.91 A (Tables 310.15(B)(17), (16)
// and (2)(a)).
#include <algorithm>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/calculate.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/limit_case.hpp"

using namespace boxproof;
using namespace boxproof::test;
using Catch::Matchers::WithinRel;

namespace {

constexpr double exactly = 1e-13;

struct Box {
  explicit Box(const Json& design) : judged(judge(design)) {
    const Design& d = judged->design.design;
    box_facts(d, d.combiners.front(), judged->edition, facts);
    all = margins(d, facts, judged->edition);
    tightest = tightest_margin(d, facts, judged->edition);
  }
  const Margin* find(std::string_view of) const {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Margin& m) { return m.of == of; });
    return found == all.end() ? nullptr : &*found;
  }
  std::unique_ptr<Judged> judged;
  BoxFacts facts;
  std::vector<Margin> all;
  std::optional<Margin> tightest;
};

// A second group, of 19 modules in series, beside the first.
Json two_groups() {
  Json design = sound_design();
  Json second = design["combiners"][0]["circuits"][0];
  second["id"] = "2";
  second["series"] = 19;
  second["strings"] = 1;
  design["combiners"][0]["circuits"].push_back(second);
  return design;
}

}  // namespace

TEST_CASE("what is left of a limit") {
  CHECK(Margin{"", "", "", 75, 100, "V"}.share() == 0.25);
  CHECK(Margin{"", "", "", 100, 100, "V"}.share() == 0);
  CHECK(Margin{"", "", "", 125, 100, "V"}.share() == -0.25);
}

TEST_CASE("every limit of the sound box, in the order of the rules") {
  struct Row {
    const char* of;
    double value, limit;
    const char* unit;
  };
  const std::vector<Row> expected{{"voltage, limit for the site", 596.7, 1000, "V"},
                                  {"voltage, module", 596.7, 1000, "V"},
                                  {"voltage, inverter", 596.7, 1000, "V"},
                                  {"voltage, fuse", 596.7, 1000, "V"},
                                  {"voltage, disconnect", 596.7, 1000, "V"},
                                  {"voltage, box", 596.7, 1000, "V"},
                                  {"voltage, string conductor", 596.7, 1000, "V"},
                                  {"voltage, output conductor", 596.7, 1000, "V"},
                                  {"current, box", 135, 200, "A"},
                                  {"current, disconnect", 135, 200, "A"},
                                  {"fuse, least rating", 15, 15, "A"},
                                  {"string conductor at terminals", 15, 50, "A"},
                                  {"string conductor as it lies", 12, 50.05, "A"},
                                  {"output conductor at terminals", 135, 230, "A"},
                                  {"output conductor as it lies", 108, 236.6, "A"}};
  const Box box(sound_design());
  REQUIRE(box.all.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CAPTURE(expected[i].of);
    CHECK(box.all[i].of == expected[i].of);
    CHECK_THAT(box.all[i].value, WithinRel(expected[i].value, exactly));
    CHECK_THAT(box.all[i].limit, WithinRel(expected[i].limit, exactly));
    CHECK(box.all[i].unit == expected[i].unit);
    CHECK(box.all[i].where.empty());  // one group of circuits: nothing to tell apart
  }
}

TEST_CASE("a limit that is not stated has no margin") {
  struct Row {
    std::string pointer, of;
  };
  for (const Row& r : std::vector<Row>{{"/modules/M/max_system_v", "voltage, module"},
                                       {"/inverters/I/max_dc_v", "voltage, inverter"},
                                       {"/combiners/0/fuse/v", "voltage, fuse"},
                                       {"/combiners/0/fuse/a", "fuse, least rating"},
                                       {"/combiners/0/disconnect/rated_v", "voltage, disconnect"},
                                       {"/combiners/0/disconnect/rated_a", "current, disconnect"},
                                       {"/combiners/0/enclosure/rated_v", "voltage, box"},
                                       {"/combiners/0/enclosure/rated_a", "current, box"}}) {
    CAPTURE(r.pointer);
    const Box box(without(sound_design(), r.pointer));
    CHECK(box.all.size() == 14);
    CHECK(box.find(r.of) == nullptr);
  }
  CHECK(Box(without(sound_design(), "/site/low_c")).all.size() == 7);    // no voltage: eight fewer
  CHECK(Box(without(sound_design(), "/site/high_c")).all.size() == 11);  // no ampacity: four fewer
  CHECK(Box(without(sound_design(), "/combiners/0/fuse")).all.size() == 13);
  CHECK(Box(without(sound_design(), "/combiners/0/disconnect")).all.size() == 13);
  CHECK(Box(without(sound_design(), "/combiners/0/enclosure")).all.size() == 13);
}

TEST_CASE("the tightest margin") {
  struct Row {
    Json design;
    const char *of, *brief;
    double share;
  };
  const Json wide = with_box({{"fuse", {{"a", 20}}}});  // 1 − 15/20: a quarter left
  for (const Row& r : std::vector<Row>{
           {sound_design(), "fuse, least rating", "fuse", 0},
           {wide, "fuse, least rating", "fuse", 0.25},
           {put(wide, "/inverters/I/max_dc_v", 600), "voltage, inverter", "inverter voltage", 0.0055},
           {put(wide, "/combiners/0/enclosure/rated_a", 150), "current, box", "box current", 0.1},
           {put(wide, "/combiners/0/disconnect/rated_a", 125), "current, disconnect", "switch current",
            -0.08},
           {put(wide, "/site/use", "dwelling"), "voltage, limit for the site", "site limit", 0.0055}}) {
    const Box box(r.design);
    REQUIRE(box.tightest);
    CHECK(box.tightest->of == r.of);
    CHECK(box.tightest->brief == r.brief);
    CHECK_THAT(box.tightest->share() + 1, WithinRel(r.share + 1, exactly));
  }
}

TEST_CASE("groups of circuits have margins of their own") {
  const Box box(two_groups());
  std::vector<std::string> modules, terminals, fuses;
  for (const Margin& m : box.all) {
    if (m.of == "voltage, module") modules.push_back(m.where);
    if (m.of == "string conductor at terminals") terminals.push_back(m.where);
    if (m.of == "fuse, least rating") fuses.push_back(m.where);
    if (m.of == "voltage, inverter") CHECK_THAT(m.value, WithinRel(629.85, exactly));  // 19 · 30 · 1.105
    if (m.of == "current, box") CHECK_THAT(m.value, WithinRel(150, exactly));          // ten inputs
  }
  const std::vector<std::string> both{"1", "2"};
  CHECK(modules == both);
  CHECK(terminals == both);
  CHECK(fuses == both);
}

TEST_CASE("the tightest margin says which group it is of") {
  // Group 2 is the higher one: 629.85 V of a module listed for 650 V.
  Json design = put(two_groups(), "/modules/M/max_system_v", 650);
  design["combiners"][0]["fuse"]["a"] = 20;
  const Box box(design);
  REQUIRE(box.tightest);
  CHECK(box.tightest->of == "voltage, module");
  CHECK(box.tightest->where == "2");
}

TEST_CASE("the rated voltage of a conductor is a limit of the box too") {
  // 596.7 V on a 600 V wire leaves 0.55 %; voltage/equipment-rating holds the two against each other.
  for (const char* conductor : {"string", "feeder"}) {
    CAPTURE(conductor);
    Json design = put(sound_design(), std::string("/conductors/") + conductor + "/rated_v", 600);
    design["combiners"][0]["fuse"]["a"] = 20;
    const Box box(design);
    REQUIRE(box.tightest);
    CHECK_THAT(box.tightest->share() + 1, WithinRel(1.0055, exactly));
  }
}
