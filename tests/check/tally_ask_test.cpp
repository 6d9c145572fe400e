// What to do where a part differs from the plan and the plan's own part breaks a rule: nobody is told to fit
// it.
#include <fmt/format.h>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// What the finding of a tally rule on this part asks for; empty: the rule's own remedy.
std::string ask(const Json& box, Json seen, std::string_view rule, std::string_view part,
                std::string_view edition = {}) {
  seen["id"] = "A-01";
  const Json record{{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({seen})}};
  const auto judged = judge(with_box(box), edition, record);
  const Finding* f = judged->find(rule, part);
  CAPTURE(judged->summary());
  REQUIRE(f != nullptr);
  return f->ask;
}

// The asks that end with a rule id; the sound design keeps all rules, so each plan below breaks one.
std::string changed_to_found(std::string_view rule) {
  return fmt::format("Have the plan changed to what was found; do not fit what the plan has, it breaks {}.",
                     rule);
}
std::string neither(std::string_view rule) {
  return fmt::format(
      "Have the plan changed to a part that meets {}: neither what the plan has nor what was found does.",
      rule);
}

}  // namespace

TEST_CASE("a plan that keeps the rules leaves the rule's own remedy, whatever was found") {
  CHECK(ask(Json::object(), {{"fuse", {{"a", 30}}}}, "tally/fuse", "fuse rating")
            .empty());  // the module allows 20 A
  CHECK(ask(Json::object(), {{"disconnect", {{"distance_m", 9}}}}, "tally/part", "disconnect distance_m")
            .empty());
  CHECK(ask(Json::object(), {{"output", {{"size", "10 AWG"}}}}, "tally/part", "output size").empty());
  CHECK(ask(Json::object(), {{"mixed_fuses", {{{"a", 30}}}}}, "tally/mixed-fuses", "mixed fuses").empty());
}

TEST_CASE("the plan's part breaks a rule and the one found does not") {
  struct {
    Json plan, seen;
    const char *rule, *part, *breaks;
  } const rows[] = {
      {{{"fuse", {{"a", 30}}}},
       {{"fuse", {{"a", 15}}}},
       "tally/fuse",
       "fuse rating",
       "fuse/over-module-limit"},
      {{{"fuse", {{"a", 12}}}}, {{"fuse", {{"a", 15}}}}, "tally/fuse", "fuse rating", "fuse/too-small"},
      {{{"fuse", {{"dc", false}}}}, {{"fuse", {{"dc", true}}}}, "tally/fuse", "fuse dc", "fuse/not-dc"},
      {{{"fuse", {{"v", 500}}}},
       {{"fuse", {{"v", 1000}}}},
       "tally/fuse",
       "fuse voltage",
       "voltage/equipment-rating"},
      {{{"disconnect", {{"distance_m", 4}}}},
       {{"disconnect", {{"distance_m", 2}}}},
       "tally/part",
       "disconnect distance_m",
       "disconnect/too-far"},
      {{{"disconnect", {{"rated_a", 100}}}},  // 135 A needed
       {{"disconnect", {{"rated_a", 200}}}},
       "tally/part",
       "disconnect rated_a",
       "disconnect/current-rating"},
      {{{"disconnect", {{"rated_v", 500}}}},
       {{"disconnect", {{"rated_v", 1000}}}},
       "tally/part",
       "disconnect rated_v",
       "voltage/equipment-rating"},
      {{{"egc", {{"size", "12 AWG"}}}},
       {{"egc", {{"size", "6 AWG"}}}},
       "tally/part",
       "egc size",
       "conductor/grounding-size"},
      {{{"enclosure", {{"type", "1"}}}},
       {{"enclosure", {{"type", "4X"}}}},
       "tally/part",
       "enclosure type",
       "enclosure/type"},
      {{{"enclosure", {{"listed", false}}}},
       {{"enclosure", {{"listed", true}}}},
       "tally/part",
       "enclosure listed",
       "enclosure/not-listed"}};
  for (const auto& row : rows) {
    CAPTURE(row.plan.dump(), row.part);
    CHECK(ask(row.plan, row.seen, row.rule, row.part) == changed_to_found(row.breaks));
  }
}

TEST_CASE("conductors of the plan that break a rule") {
  Json thin = sound_design();
  thin["conductors"]["feeder"]["size"] = "4 AWG";       // 85 A at 75 °C, 135 A needed
  thin["conductors"]["string"]["insulation"] = "THHN";  // not for the sun
  const auto asked = [&](const Json& seen, std::string_view part) {
    Json box = seen;
    box["id"] = "A-01";
    const auto judged =
        judge(thin, {}, Json{{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({box})}});
    const Finding* f = judged->find("tally/part", part);
    CAPTURE(judged->summary());
    REQUIRE(f != nullptr);
    return f->ask;
  };
  const std::string output = asked({{"output", {{"size", "4/0 AWG"}}}}, "output size");
  CHECK(output.starts_with(
      "Have the plan changed to what was found; do not fit what the plan has, it breaks "));
  CHECK(output.find("conductor/after-conditions") != std::string::npos);
  CHECK(output.find("conductor/insulation") == std::string::npos);  // that is the strings'
  const std::string source = asked({{"source", {{"insulation", "PV wire"}}}}, "source insulation");
  CHECK(source == changed_to_found("conductor/insulation"));
}

TEST_CASE("what the plan has and what was found both break a rule") {
  CHECK(ask({{"fuse", {{"a", 30}}}}, {{"fuse", {{"a", 25}}}}, "tally/fuse", "fuse rating") ==
        neither("fuse/over-module-limit"));
  CHECK(
      ask({{"fuse", {{"a", 30}}}}, {{"fuse", {{"a", 10}}}}, "tally/fuse", "fuse rating") ==
      "Have the plan changed to a part that meets both: what the plan has breaks fuse/over-module-limit, what "
      "was found breaks fuse/too-small.");
  CHECK(ask({{"egc", nullptr}}, {{"egc", {{"size", "12 AWG"}, {"material", "copper"}}}}, "tally/part",
            "egc present") == neither("conductor/grounding-size"));
}

TEST_CASE("parts that only one of plan and box has") {
  CHECK(ask({{"disconnect", nullptr}},
            {{"disconnect", {{"rated_v", 1000}, {"rated_a", 200}, {"load_break", true}, {"distance_m", 0}}}},
            "tally/part", "disconnect present") ==
        "Have the plan changed to what was found: as it is, without one, it breaks disconnect/missing.");
  CHECK(ask({{"egc", nullptr}}, {{"egc", {{"size", "6 AWG"}, {"material", "copper"}}}}, "tally/part",
            "egc present") == "Have the plan state the equipment grounding conductor that is there.");
  // 30 A on the plan is above the module's limit, and without fuses the strings are not protected.
  CHECK(
      ask({{"fuse", {{"a", 30}}}}, {{"count", {{"fuses", 0}}}}, "tally/fuse", "fuse") ==
      "Have the plan changed to a part that meets both: what the plan has breaks fuse/over-module-limit, what "
      "was found breaks fuse/missing.");
}

TEST_CASE("fuses that lack or are unlike are not replaced by the plan's where those break a rule") {
  const Json over{{"fuse", {{"a", 30}}}};
  CHECK(
      ask(over, {{"fuse", {{"a", 15}}}, {"count", {{"fuses", 8}}}}, "tally/fuse", "fuse count") ==
      "Have the plan changed, and fit fuses to all inputs by it; do not fit the fuses of the plan as it is, "
      "they break fuse/over-module-limit.");
  CHECK(
      ask(over, {{"fuse", {{"a", 15}}}, {"mixed_fuses", {{{"a", 20}}}}}, "tally/mixed-fuses",
          "mixed fuses") ==
      "Have the plan changed, and replace the odd fuses by it; do not fit the rating of the plan as it is, it "
      "breaks fuse/over-module-limit.");
}

TEST_CASE("a disconnect that does not work is mended, whatever the plan's would break") {
  CHECK(ask({{"disconnect", {{"distance_m", 4}}}}, {{"disconnect", {{"distance_m", 2}, {"works", false}}}},
            "tally/part", "disconnect works") ==
        "Repair or replace the disconnect; until then the box cannot be made dead at its output.");
}

TEST_CASE("a breach of another part, or one that is only a query or advice, changes nothing") {
  // A disconnect too far away says nothing of the fuses, nor 25 A, no standard rating's advice, of itself.
  CHECK(ask({{"disconnect", {{"distance_m", 4}}}}, {{"fuse", {{"a", 20}}}}, "tally/fuse", "fuse rating")
            .empty());
  CHECK(ask({{"mounting", {{"air_gap_mm", 2}}}}, {{"enclosure", {{"type", "3R"}}}}, "tally/part",
            "enclosure type")
            .empty());
  CHECK(ask({{"fuse", {{"dc", nullptr}}}}, {{"fuse", {{"a", 20}, {"dc", true}}}}, "tally/fuse", "fuse rating")
            .empty());
}
