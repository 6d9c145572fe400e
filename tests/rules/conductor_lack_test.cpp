// What the rules on conductors do where a value is not stated: one query for each missing key of a box, told
// by conductor/after-conditions where an ampacity lacks it.
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

// The sound design without the value at this pointer.
Json without(std::string_view pointer) {
  Json design = sound_design();
  const Json::json_pointer at{std::string(pointer)};
  REQUIRE(design.contains(at));
  design.at(at.parent_pointer()).erase(at.back());
  return design;
}

bool names(const Finding& f, std::string_view rule) {
  return f.message.find(rule) != std::string::npos;
}

constexpr std::string_view circuit_run = "/combiners/0/circuits/0/run",
                           output_run = "/combiners/0/output/run";

}  // namespace

TEST_CASE("an ampacity that lacks a value makes one query, told by the rule on conditions of use") {
  struct Row {
    std::string pointer, part;
  };
  const std::vector<Row> rows{
      {std::string(circuit_run), "circuits 1/run"},
      {std::string(output_run), "output/run"},
      {"/combiners/0/output", "output/run"},
      {std::string(circuit_run) + "/conductor", "circuits 1/run/conductor"},
      {std::string(output_run) + "/conductor", "output/run/conductor"},
      {std::string(circuit_run) + "/method", "circuits 1/run/method"},
      {std::string(output_run) + "/method", "output/run/method"},
      {"/conductors/string/size", "conductors/string/size"},
      {"/conductors/string/material", "conductors/string/material"},
      {"/conductors/feeder/insulation_c", "conductors/feeder/insulation_c"},
  };
  for (std::string_view edition : edition_names)
    for (const Row& row : rows) {
      CAPTURE(edition, row.pointer);
      const auto judged = judge(without(row.pointer), edition);
      CHECK(judged->summary() == Lines{"conductor/after-conditions query " + row.part});
      const Finding& f = judged->findings().front();
      CHECK(names(f, row.part + " is not stated"));
      CHECK(names(f, "conductor/before-conditions"));
      CHECK(std::get<std::string>(f.found) == "not stated");
      CHECK(f.section == (edition == "2008" ? "690.8(B)(1)" : "690.8(B)(2)"));
      CHECK(judged->judgement.verdict == Verdict::clarify);
    }
}

TEST_CASE("without the site's hot ambient one query speaks for every run of the box") {
  const auto judged = judge(without("/site/high_c"));
  CHECK(judged->summary() == Lines{"conductor/after-conditions query site/high_c"});
  const Finding& f = judged->findings().front();
  CHECK(names(f, "conductor/before-conditions"));
  CHECK(names(f, "conductor/unprotected"));
  CHECK(names(f, "voltage/tracking-window"));
  // Both runs state their own ambient: only the tracking window still asks.
  Json own = without("/site/high_c");
  own["combiners"][0]["circuits"][0]["run"]["ambient_c"] = 36;
  own["combiners"][0]["output"]["run"]["ambient_c"] = 36;
  CHECK(judge(own)->summary() == Lines{"voltage/tracking-window query site/high_c"});
}

TEST_CASE("a key that several circuits share is asked for once, and once for each box") {
  Json design = without("/conductors/string/size");
  Json& circuits = design["combiners"][0]["circuits"];
  circuits.push_back(circuits[0]);
  circuits[1]["id"] = "2";
  circuits[0]["strings"] = 4;
  circuits[1]["strings"] = 5;
  CHECK(judge(design)->summary() == Lines{"conductor/after-conditions query conductors/string/size"});
  design = with_second_box(design);
  const auto two = judge(design);
  REQUIRE(two->findings().size() == 2);
  CHECK(two->findings()[0].box_id == "A-01");
  CHECK(two->findings()[1].box_id == "B-02");
  for (const Finding& f : two->findings()) CHECK(f.part == "conductors/string/size");
}

TEST_CASE("keys of two circuits are two keys") {
  Json design = without(circuit_run);
  Json& circuits = design["combiners"][0]["circuits"];
  circuits.push_back(circuits[0]);
  circuits[1]["id"] = "2";
  circuits[0]["strings"] = 4;
  circuits[1]["strings"] = 5;
  CHECK(judge(design)->summary() == Lines{"conductor/after-conditions query circuits 1/run",
                                          "conductor/after-conditions query circuits 2/run"});
}

TEST_CASE("a wire that no table holds is queried, and the message says so") {
  Json design = sound_design();
  design["conductors"]["string"].merge_patch({{"size", "14 AWG"}, {"material", "aluminum"}});
  const auto judged = judge(design);
  const Finding* f = judged->find("conductor/after-conditions");
  REQUIRE(f != nullptr);
  CHECK(f->severity == Severity::query);
  CHECK(names(*f, "the table has no ampacity for 14 AWG aluminum"));
  CHECK(judged->find("conductor/before-conditions") == nullptr);
}

TEST_CASE("a size that is stated and in no table is not called not stated") {
  Json design = sound_design();
  design["conductors"]["string"].merge_patch({{"size", "14 AWG"}, {"material", "aluminum"}});
  const auto judged = judge(design);
  const Finding* f = judged->find("conductor/after-conditions");
  REQUIRE(f != nullptr);
  CHECK(std::get<std::string>(f->found) != "not stated");
}

TEST_CASE("the query names every check that could not be made") {
  struct Row {
    std::string pointer;
    std::vector<std::string_view> rules;
  };
  const std::vector<Row> rows{
      {"/conductors/string/size", {"conductor/small-size-limit", "conductor/voltage-drop"}},
      {"/conductors/string/material",
       {"conductor/small-size-limit", "conductor/voltage-drop", "conductor/aluminum"}},
      {std::string(circuit_run) + "/method", {"conductor/insulation"}},
      {std::string(circuit_run), {"conductor/insulation", "conductor/fine-strand", "conductor/voltage-drop"}},
      {"/combiners/0/fuse/a",
       {"conductor/unprotected", "conductor/small-size-limit", "conductor/grounding-size"}},
  };
  for (const Row& row : rows) {
    const auto judged = judge(without(row.pointer));
    REQUIRE(judged->findings().size() == 1);
    for (std::string_view rule : row.rules) {
      CAPTURE(row.pointer, rule, judged->findings().front().message);
      CHECK(names(judged->findings().front(), rule));
    }
  }
}

TEST_CASE("insulation, stranding and place are asked for by the rules that need them") {
  struct Row {
    std::string pointer;
    std::string_view edition;
    std::string summary;
  };
  const std::vector<Row> rows{
      {"/conductors/string/insulation", "2017", "conductor/insulation query conductors/string/insulation"},
      {"/conductors/feeder/insulation", "2017", "conductor/insulation query conductors/feeder/insulation"},
      {"/conductors/string/stranding", "2017", "conductor/fine-strand query conductors/string/stranding"},
      {"/conductors/feeder/stranding", "2008", "conductor/fine-strand query conductors/feeder/stranding"},
      {"/combiners/0/circuits/0/run/length_m", "2017",
       "conductor/voltage-drop query circuits 1/run/length_m"},
      {"/combiners/0/output/run/length_m", "2017", "conductor/voltage-drop query output/run/length_m"},
      {"/combiners/0/egc/size", "2017", "conductor/grounding-size query egc/size"},
      {"/combiners/0/egc/material", "2017", "conductor/grounding-size query egc/material"},
      {"/combiners/0/bond/size", "2017", "conductor/grounding-size query bond/size"},
      {"/combiners/0/bond/material", "2017", "conductor/grounding-size query bond/material"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.pointer);
    CHECK(judge(without(row.pointer), row.edition)->summary() == Lines{row.summary});
  }
}

TEST_CASE("an indoor box that does not say whether it is wet is asked") {
  // THHN is not rated for wet locations: whether the indoor raceway is one decides.
  Json design = sound_design();
  design["conductors"]["feeder"]["insulation"] = "THHN";
  design["combiners"][0]["mounting"] = {{"place", "indoor"}, {"cover", "side"}, {"air_gap_mm", 10}};
  const auto judged = judge(design);
  CHECK(judged->summary() == Lines{"conductor/insulation query mounting/wet"});
  CHECK(judged->judgement.verdict == Verdict::clarify);
}
