// What to do about a label that says what is there, and about strings that the plan has too long: the plan
// has to change, and nobody is told to make what a rule forbids.
#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

struct Said {
  std::string ask;  // empty: the rule's own remedy
  Amount required;
};

Said said_of(const Json& design, Json seen, std::string_view rule, std::string_view part) {
  seen["id"] = "A-01";
  const auto judged =
      judge(design, "2017", Json{{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({seen})}});
  const Finding* f = judged->find(rule, part);
  CAPTURE(judged->summary(), seen.dump());
  REQUIRE(f != nullptr);
  return {f->ask, f->required};
}

// One number of modules in series, on the label and as counted.
Json series(int label, int found) {
  return {{"posted", {{"series", label}}}, {"count", {{"series", found}}}};
}

// By hand, at −10 °C: 30 V · 1.105 = 33.15 V a module; 17 make 563.55 V, 18 (the plan) 596.7 V, 19 629.85 V.
Json inverter_up_to(double volts) {
  return with({{"inverters", {{"I", {{"max_dc_v", volts}}}}}});
}

constexpr const char* leave_it =
    "The label says what is there: leave it, and have the plan changed. If the box is put right by the plan "
    "instead, replace the label with it.";

}  // namespace

TEST_CASE("a label that says what is there stays, and is held to what is there") {
  const Said modules = said_of(sound_design(), series(17, 17), "tally/label", "label series");
  CHECK(modules.ask == leave_it);
  CHECK(modules.required == Amount(std::string("17 modules, as found")));
  const Said strings =
      said_of(sound_design(), {{"posted", {{"strings", 8}}}, {"count", {{"positive", 8}, {"negative", 8}}}},
              "tally/label", "label strings");
  CHECK(strings.ask == leave_it);
  CHECK(strings.required == Amount(std::string("8 strings, as found")));
}

TEST_CASE("a label that says something else than what is there is replaced by one that does") {
  // The plan has 18 modules, nine strings, 15 A fuses.
  for (const double limit : {1000.0, 580.0}) {  // whatever the plan breaks
    CAPTURE(limit);
    const Said other = said_of(inverter_up_to(limit), series(16, 17), "tally/label", "label series");
    CHECK(other.ask.empty());
    CHECK(other.required == Amount(17.0));
    const Said as_plan = said_of(inverter_up_to(limit), series(18, 17), "tally/label", "label series");
    CHECK(as_plan.ask.empty());
    CHECK(as_plan.required == Amount(17.0));
  }
  const Said as_found = said_of(sound_design(), series(16, 18), "tally/label", "label series");
  CHECK(as_found.ask.empty());
  CHECK(as_found.required == Amount(18.0));
  const Said not_looked =
      said_of(sound_design(), {{"posted", {{"fuse_a", 20}}}}, "tally/label", "label fuse_a");
  CHECK(not_looked.ask.empty());
  CHECK(not_looked.required == Amount(15.0));
}

TEST_CASE("a right label, where plan or box break a rule") {
  CHECK(said_of(inverter_up_to(580), series(17, 17), "tally/label", "label series").ask ==
        "The label says what is there: leave it, and have the plan changed to what was found; what the plan "
        "has breaks voltage/inverter-input.");
  CHECK(said_of(inverter_up_to(600), series(19, 19), "tally/label", "label series").ask ==
        "The label says what is there, and that breaks voltage/inverter-input: put the box right, and the "
        "label with it.");
  CHECK(
      said_of(inverter_up_to(580), series(19, 19), "tally/label", "label series").ask ==
      "The label says what is there. Have the plan changed, and box and label put right by it: what the plan "
      "has and what was found both break voltage/inverter-input.");
  const Json fuse{{"posted", {{"fuse_a", 15}}}, {"fuse", {{"a", 15}}}};
  CHECK(said_of(with_box({{"fuse", {{"a", 30}}}}), fuse, "tally/label", "label fuse_a").ask ==
        "The label says what is there: leave it, and have the plan changed to what was found; what the plan "
        "has breaks fuse/over-module-limit.");
  // Too many volts say nothing of a fuse's amperes, nor of the strings' number.
  Json many = inverter_up_to(580);
  many["combiners"][0]["fuse"]["a"] = 20;
  CHECK(said_of(many, fuse, "tally/label", "label fuse_a").ask == leave_it);
}

TEST_CASE("strings that the plan has too long are not to be made so") {
  const auto asked = [](double limit, int found) {
    return said_of(inverter_up_to(limit), {{"count", {{"series", found}}}}, "tally/series", "series").ask;
  };
  CHECK(
      asked(580, 17) ==
      "Count the modules of each string again, and have the plan changed to what was found; do not bring the "
      "strings to the plan's number, it breaks voltage/inverter-input.");
  CHECK(asked(580, 19) ==
        "Count the modules of each string again, and have the plan changed, and the strings put right by it: "
        "what the plan has and what was found both break voltage/inverter-input.");
  CHECK(asked(600, 17).empty());
  CHECK(asked(600, 19).empty());  // the plan's are right
}

TEST_CASE("strings of one circuit: the breach of another says nothing of them") {
  Json design = sound_design();
  design["modules"]["N"] = design["modules"]["M"];
  design["modules"]["N"]["max_system_v"] = 580;
  Json& circuits = design["combiners"][0]["circuits"];
  circuits.push_back(circuits[0]);
  circuits[0]["module"] = "N";
  circuits[0]["strings"] = 4;
  circuits[1]["id"] = "2";
  circuits[1]["strings"] = 5;
  const Json seen{{"count", {{"series", std::vector<int>(9, 17)}}}};  // string by string
  CHECK(said_of(design, seen, "tally/series", "circuit 2").ask.empty());
  CHECK(
      said_of(design, seen, "tally/series", "circuit 1").ask ==
      "Count the modules of each string again, and have the plan changed to what was found; do not bring the "
      "strings to the plan's number, it breaks voltage/module-rating.");
}
