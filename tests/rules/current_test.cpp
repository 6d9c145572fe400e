// Current rules at their limits. By hand: nine inputs of 1.25 · 9.6 A = 12 A are 108 A, 135 A for hours
// (times 1.25).
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

// The sound box three times: on inverter I, B-01 with one string on inverter J.
Json three_boxes() {
  Json design = sound_design();
  Json& boxes = design["combiners"];
  const Json first = boxes[0];
  boxes.push_back(first);
  boxes[1]["id"] = "A-02";
  boxes.push_back(first);
  boxes[2]["id"] = "B-01";
  boxes[2]["inverter"] = "J";
  boxes[2]["circuits"][0]["strings"] = 1;
  design["inverters"]["J"] = design["inverters"]["I"];
  return design;
}

LimitCase box_rating(const Json& design, double amps, double far, std::vector<std::string_view> numbers,
                     std::string_view edition = "2017") {
  return {.rule = "current/box-rating",
          .part = "enclosure",
          .severity = "hazard",
          .unit = "A",
          .section = "110.3(B)",
          .design = design,
          .stated = "/combiners/0/enclosure/rated_a",
          .must_be = Stated::at_least,
          .bound = amps,
          .far = far,
          .numbers = std::move(numbers),
          .edition = edition};
}

LimitCase inverter_input(const std::string& id, const Json& design, double amps, double far,
                         std::vector<std::string_view> numbers, std::string_view edition = "2017") {
  LimitCase limit = box_rating(design, amps, far, std::move(numbers), edition);
  limit.rule = "current/inverter-input";
  limit.part = id == "I" ? "inverter I" : "inverter J";
  limit.severity = "correction";
  limit.stated = "/inverters/" + id + "/max_dc_isc_a";
  return limit;
}

}  // namespace

TEST_CASE("the output's current for hours against the rating of the box") {
  const auto listed = [](bool full) { return with_box({{"enclosure", {{"rated_100_pct", full}}}}); };
  for (const std::string_view edition : edition_names) {
    check_limit(box_rating(sound_design(), 135, 130, {"135", "130"}, edition));
    check_limit(box_rating(listed(true), 108, 100, {"108", "100"}, edition));  // without the duty factor
  }
  check_limit(box_rating(listed(false), 135, 134.9, {"135", "134.9"}));  // the same as not stated
  // Front and rear together, 10.4 A: 9 · 13 · 1.25 = 146.25 A.
  check_limit(
      box_rating(with({{"modules", {{"M", {{"isc_rear_a", 10.4}}}}}}), 146.25, 140, {"146.2", "140"}));
  // Three strings joined ahead of each fuse carry the same: 3 · 36 A.
  check_limit(box_rating(with_circuit({{"strings_per_fuse", 3}}), 135, 130, {"135", "130"}));
}

TEST_CASE("the boxes of one inverter together against its short-circuit limit") {
  for (const std::string_view edition : edition_names)
    check_limit(inverter_input("I", sound_design(), 108, 100, {"108", "100"}, edition));
  // The duty factor never counts here, nor does a listing for 100 %.
  check_limit(
      inverter_input("I", with_box({{"enclosure", {{"rated_100_pct", true}}}}), 108, 107, {"108", "107"}));
  // Two boxes on I, 216 A together; one string on J, 12 A.
  check_limit(inverter_input("I", three_boxes(), 216, 200, {"216", "200"}));
  check_limit(inverter_input("J", three_boxes(), 12, 10, {"12", "10"}));
}

TEST_CASE("each inverter over its limit is a finding of the site, not of a box") {
  const Json design = with_fitting_labels(
      put(put(three_boxes(), "/inverters/I/max_dc_isc_a", 200), "/inverters/J/max_dc_isc_a", 10));
  const auto judged = judge(design);
  CHECK(judged->summary() == std::vector<std::string>{"current/inverter-input correction inverter I",
                                                      "current/inverter-input correction inverter J"});
  for (const Finding& f : judged->findings()) {
    CHECK_FALSE(f.box);
    CHECK(f.box_id.empty());
  }
  for (const BoxResult& box : judged->judgement.boxes) CHECK(box.verdict == Verdict::accept);
  CHECK(judged->judgement.verdict == Verdict::correct);
  CHECK(says(judged->findings()[0], "2 boxes"));
  // An inverter that no box feeds is not judged.
  Json idle = put(sound_design(), "/inverters/K", Json::object());
  CHECK(judge(idle)->summary().empty());
}

TEST_CASE("one box is not several") {
  const auto judged = judge(put(sound_design(), "/inverters/I/max_dc_isc_a", 100));
  const Finding* f = judged->find("current/inverter-input");
  REQUIRE(f != nullptr);
  CHECK_FALSE(says(*f, "1 boxes"));
}

TEST_CASE("inputs that the circuits take against inputs that the box has") {
  struct Row {
    unsigned strings, per_fuse, has, takes;
    bool fires;
  };
  for (const Row& r : std::vector<Row>{{9, 1, 12, 9, false},
                                       {9, 1, 9, 9, false},
                                       {9, 1, 8, 9, true},
                                       {9, 3, 3, 3, false},  // joined strings take one input together
                                       {9, 3, 2, 3, true},
                                       {8, 2, 4, 4, false},
                                       {8, 2, 3, 4, true},
                                       {1, 1, 1, 1, false},
                                       {13, 1, 12, 13, true}})
    for (const std::string_view edition : edition_names) {
      CAPTURE(edition, r.strings, r.per_fuse, r.has);
      Json design = with_circuit({{"strings", r.strings}, {"strings_per_fuse", r.per_fuse}});
      design = put(design, "/combiners/0/enclosure/inputs", r.has);
      const auto judged = judge(design, edition);
      const Finding* f = judged->find("current/inputs", "inputs");
      REQUIRE((f != nullptr) == r.fires);
      if (f == nullptr) continue;
      CHECK(f->severity == Severity::correction);
      CHECK(std::get<double>(f->found) == r.takes);
      CHECK(std::get<double>(f->required) == r.has);
      CHECK(f->unit == "inputs");
      CHECK(f->section == "110.3(B)");
      CHECK(says(*f, std::to_string(r.takes) + " inputs"));
      CHECK(says(*f, "has " + std::to_string(r.has)));
    }
}

TEST_CASE("inputs of several groups add up") {
  Json design = sound_design();
  Json& circuits = design["combiners"][0]["circuits"];
  circuits.push_back(circuits[0]);  // 9 inputs
  circuits[1]["id"] = "2";
  circuits[1]["strings"] = 6;
  circuits[1]["strings_per_fuse"] = 2;  // 3 more
  CHECK(severity_of(put(design, "/combiners/0/enclosure/inputs", 12), "current/inputs") == "none");
  CHECK(severity_of(put(design, "/combiners/0/enclosure/inputs", 11), "current/inputs") == "correction");
}

TEST_CASE("a value that the current rules need and do not find") {
  for (const std::string_view edition : edition_names)
    check_missing(sound_design(),
                  {{"/combiners/0/enclosure/rated_a", "current/box-rating", "enclosure/rated_a"},
                   {"/combiners/0/enclosure/inputs", "current/inputs", "enclosure/inputs"},
                   {"/inverters/I/max_dc_isc_a", "current/inverter-input", "inverters/I/max_dc_isc_a"}},
                  edition);
}

TEST_CASE("a missing value is asked for once a box, one of an inverter once a site") {
  Json design = without(with_fitting_labels(three_boxes()), "/inverters/I/max_dc_isc_a");
  for (std::size_t i : {0U, 1U, 2U}) design["combiners"][i]["enclosure"].erase("rated_a");
  const auto judged = judge(design);
  REQUIRE(judged->findings().size() == 4);
  const std::vector<std::string> boxes{"", "A-01", "A-02", "B-01"};
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const Finding& f = judged->findings()[i];
    CHECK(f.box_id == boxes[i]);
    CHECK(f.severity == Severity::query);
    CHECK(f.rule->id == (i == 0 ? "current/inverter-input" : "current/box-rating"));
  }
}

TEST_CASE("a box whose enclosure is not stated at all is asked for each value once") {
  const auto judged = judge(without(sound_design(), "/combiners/0/enclosure"));
  const std::vector<std::pair<std::string_view, std::string_view>> expected{
      {"current/box-rating", "enclosure/rated_a"},
      {"current/inputs", "enclosure/inputs"},
      {"voltage/equipment-rating", "enclosure/rated_v"},
      {"fuse/heat", "enclosure/inside_c"}};
  for (const auto& [rule, part] : expected) {
    CAPTURE(std::string(rule), judged->summary());
    const Finding* f = judged->find(rule);
    REQUIRE(f != nullptr);
    CHECK(f->part == part);
    CHECK(f->severity == Severity::query);
  }
}
