// Findings of the box as found point at the record's own value, not at what is around it.
#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

struct Row {
  Json seen;
  const char *rule, *part, *place;  // below the box of the record
};

void check_places(const Json& design, const std::vector<Row>& rows, std::string_view edition = {}) {
  for (const Row& row : rows) {
    Json box = row.seen;
    box["id"] = "A-01";
    const auto judged =
        judge(design, edition, Json{{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({box})}});
    CAPTURE(row.seen.dump(), row.rule, row.part, judged->summary());
    const Finding* f = judged->find(row.rule, row.part);
    REQUIRE(f != nullptr);
    CHECK(f->basis == Basis::as_built);
    CHECK(f->place.file == "record.json");
    CHECK(f->place.pointer == std::string("/boxes/0") + row.place);
  }
}

}  // namespace

TEST_CASE("the record's own key for what it states of a part") {
  check_places(
      sound_design(),
      {{{{"fuse", {{"v", 1000}, {"a", 30}}}}, "fuse/over-module-limit", "circuit 1", "/fuse/a"},
       {{{"fuse", {{"a", 15}, {"v", 500}}}}, "voltage/equipment-rating", "fuse", "/fuse/v"},
       {{{"fuse", {{"a", 15}, {"dc", false}}}}, "fuse/not-dc", "fuse", "/fuse/dc"},
       {{{"fuse", {{"a", 15}, {"pv_listed", false}}}}, "fuse/not-pv-listed", "fuse", "/fuse/pv_listed"},
       {{{"fuse", {{"a", 15}, {"poles", "both"}}}}, "fuse/poles", "fuse", "/fuse/poles"},
       {{{"enclosure", {{"cover", "side"}, {"type", "1"}}}},
        "enclosure/type",
        "enclosure",
        "/enclosure/type"},
       {{{"enclosure", {{"type", "4X"}, {"air_gap_mm", 3}}}},
        "enclosure/air-gap",
        "air gap",
        "/enclosure/air_gap_mm"},
       {{{"enclosure", {{"type", "4X"}, {"listed", false}}}},
        "enclosure/not-listed",
        "enclosure",
        "/enclosure/listed"},
       {{{"disconnect", {{"present", true}, {"distance_m", 4}}}},
        "disconnect/too-far",
        "disconnect",
        "/disconnect/distance_m"},
       {{{"disconnect", {{"present", true}, {"rated_a", 100}}}},
        "disconnect/current-rating",
        "disconnect",
        "/disconnect/rated_a"},
       {{{"disconnect", {{"present", true}, {"rated_v", 500}}}},
        "voltage/equipment-rating",
        "disconnect",
        "/disconnect/rated_v"},
       {{{"disconnect", {{"present", true}, {"load_break", false}}}},
        "disconnect/not-load-break",
        "disconnect",
        "/disconnect/load_break"},
       {{{"disconnect", {{"present", false}}}}, "disconnect/missing", "disconnect", "/disconnect/present"},
       {{{"output", {{"material", "copper"}, {"size", "4 AWG"}}}},
        "conductor/after-conditions",
        "output conductor",
        "/output/size"},
       {{{"output", {{"size", "4/0 AWG"}, {"material", "aluminum"}}}},
        "conductor/aluminum",
        "output conductor",
        "/output/material"},
       {{{"source", {{"size", "10 AWG"}, {"insulation", "THHN"}}}},
        "conductor/insulation",
        "circuit 1 conductor",
        "/source/insulation"},
       {{{"egc", {{"material", "copper"}, {"size", "12 AWG"}}}},
        "conductor/grounding-size",
        "egc",
        "/egc/size"}});
}

TEST_CASE("a count that makes a part too small is the place, where the part is as planned") {
  check_places(
      sound_design(),
      {{{{"count", {{"positive", 12}, {"negative", 16}}}, {"disconnect", {{"works", true}}}},  // 16 · 15 A
        "disconnect/current-rating",
        "disconnect",
        "/count/negative"},
       {{{"count", {{"positive", 16}, {"negative", 16}}}}, "current/inputs", "inputs", "/count/positive"},
       {{{"count", {{"fuses", 0}}}}, "fuse/missing", "circuit 1", "/count/fuses"},
       {{{"count", {{"series", 31}}}, {"fuse", {{"dc", true}}}},
        "voltage/equipment-rating",
        "fuse",
        "/count/series"},
       {{{"count", {{"series", 31}}}, {"source", {{"size", "10 AWG"}}}},
        "voltage/equipment-rating",
        "circuit 1 conductor",
        "/count/series"},
       {{{"count", {{"positive", 40}, {"negative", 40}}}},
        "current/box-rating",
        "enclosure",
        "/count/positive"}});
}

TEST_CASE("an odd fuse is the place of what is said of it") {
  const Json odd{{"fuse", {{"a", 15}}},
                 {"mixed_fuses", {{{"position", 1}, {"a", 10}}, {{"position", 2}, {"a", 30}}}}};
  check_places(sound_design(), {{odd, "fuse/over-module-limit", "circuit 1", "/mixed_fuses/1/a"},
                                {odd, "fuse/too-small", "circuit 1", "/mixed_fuses/0/a"}});
}

TEST_CASE("what an insulation found leaves to be asked is asked at it") {
  check_places(sound_design(), {{{{"output", {{"size", "4/0 AWG"}, {"insulation", "RHW-2"}}}},
                                 "conductor/after-conditions",
                                 "feeder as found/insulation_c",
                                 "/output/insulation"}});
}

TEST_CASE("the place of a box whose id goes on with the digits of another's is its own") {
  Json design = sound_design();
  for (int i = 2; i <= 12; ++i) {
    Json box = design["combiners"][0];
    box["id"] = "A-" + std::to_string(i);
    design["combiners"].push_back(box);
  }
  const Json record{
      {"format", "boxproof-asbuilt/1"},
      {"boxes", {{{"id", "A-2"}, {"labels", Json::array()}}, {{"id", "A-12"}, {"fuse", {{"a", 30}}}}}}};
  const auto judged = judge(design, {}, record);
  const Finding* f = judged->find("fuse/over-module-limit", "circuit 1");
  REQUIRE(f != nullptr);
  CHECK(f->place.pointer == "/boxes/1/fuse/a");
}
