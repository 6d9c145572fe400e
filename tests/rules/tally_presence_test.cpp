// Parts that only one of plan and box has, and a disconnect that does not work or contradicts itself.
#include "src/rules/tally.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/visit.hpp"

using namespace boxproof;

namespace {

using Findings = std::vector<Finding>;
using Parts = std::vector<std::string>;

}  // namespace

TEST_CASE("tally/part: presence of the disconnect") {
  CHECK(parts(tally_part, "", R"("disconnect": { "present": false })") == Parts{"disconnect present"});
  CHECK(parts(tally_part, R"("disconnect": null)", R"("disconnect": { "present": true })") ==
        Parts{"disconnect present"});
  CHECK(parts(tally_part, R"("disconnect": null)", R"("disconnect": { "rated_a": 200 })") ==
        Parts{"disconnect present"});
  CHECK(parts(tally_part, R"("disconnect": null)", R"("disconnect": { "works": true })") ==
        Parts{"disconnect present"});
  CHECK(parts(tally_part, R"("disconnect": null)", R"("disconnect": { "present": false })").empty());
  CHECK(judge_visit(tally_part, R"("disconnect": null)", R"("disconnect": { "present": true })")[0].message ==
        "The disconnect of A-04 is present; the plan has none.");
}

TEST_CASE("tally/part: a disconnect that is not there and has values all the same is a query") {
  for (const std::string key : {R"("rated_v": 1500)", R"("rated_a": 250)", R"("load_break": true)",
                                R"("distance_m": 1.5)", R"("works": true)", R"("works": false)"}) {
    CAPTURE(key);
    const std::string seen = R"("disconnect": { "present": false, )" + key + " }";
    CHECK(parts(tally_part, "", seen) == Parts{"disconnect record", "disconnect present"});
    const Findings all = judge_visit(tally_part, R"("disconnect": null)", seen);
    CHECK(only(all).part == "disconnect record");
    CHECK(only(all).severity == Severity::query);
    CHECK(only(all).place.pointer == "/boxes/0/disconnect/present");
  }
  CHECK(judge_visit(tally_part, "", R"("disconnect": { "present": false, "rated_a": 200, "works": true })")[0]
            .message ==
        "The record says that A-04 has no disconnect, and states rated_a and works of one; it is judged "
        "without one.");
}

TEST_CASE("tally/part: a disconnect that does not work") {
  for (const char* box : {"", R"("disconnect": { "load_break": null })"}) {
    const Findings all = judge_visit(tally_part, box, R"("disconnect": { "works": false })");
    CHECK(only(all).part == "disconnect works");
    CHECK(only(all).severity == Severity::correction);
    CHECK(only(all).message == "The disconnect of A-04 does not work.");
    CHECK(only(all).ask ==
          "Repair or replace the disconnect; until then the box cannot be made dead at its output.");
    CHECK(only(all).place.pointer == "/boxes/0/disconnect/works");
  }
  CHECK(parts(tally_part, "", R"("disconnect": { "works": true })").empty());
  CHECK(parts(tally_part, R"("disconnect": null)", R"("disconnect": { "works": false })") ==
        Parts{"disconnect works", "disconnect present"});
}

TEST_CASE("tally/part: a grounding conductor that the plan does not have") {
  for (const std::string key : {"size", "material"}) {
    const std::string value = key == "size" ? "6 AWG" : "copper";
    const Findings all =
        judge_visit(tally_part, R"("egc": null)", R"("egc": { ")" + key + R"(": ")" + value + R"(" })");
    CHECK(only(all).part == "egc present");
    CHECK(only(all).severity == Severity::correction);
    CHECK(only(all).message == "The equipment grounding conductor of A-04 is present; the plan has none.");
    CHECK(only(all).place.pointer == "/boxes/0/egc/" + key);
    CHECK(only(all).ask == "Have the plan state the equipment grounding conductor that is there.");
  }
  CHECK(parts(tally_part, R"("egc": null)", R"("egc": {})").empty());
}

TEST_CASE("tally/part: conductors that the plan does not state are a query") {
  struct {
    const char *box, *seen, *part, *message;  // no part: silent
  } const rows[] = {
      {R"("output": null)", R"("output": { "size": "6 AWG", "material": "copper", "insulation": "THHN" })",
       "output", "The output conductor of A-04 was found (6 AWG, copper, THHN); the plan states none."},
      {R"("output": { "run": { "conductor": null } })", R"("output": { "stranding": "fine" })", "output",
       "The output conductor of A-04 was found (fine stranding); the plan states none."},
      {R"("output": null)", R"("output": { "antioxidant": true })", "", ""},
      {R"("circuits": [ { "id": "near", "module": "M", "series": 18, "strings": 8 },
                        { "id": "far", "module": "M", "series": 18, "strings": 4 } ])",
       R"("source": { "size": "10 AWG" })", "source",
       "The conductor of the source circuits of A-04 was found (10 AWG); the plan states none for circuits "
       "near and far."},
      {R"("circuits": [ { "id": "near", "module": "M", "series": 18, "strings": 8, "run": { "conductor": "pv-10" } },
                        { "id": "far", "module": "M", "series": 18, "strings": 4 } ])",
       R"("source": { "size": "10 AWG" })", "source",
       "The conductor of the source circuits of A-04 was found (10 AWG); the plan states none for circuit far."},
  };
  for (const auto& row : rows) {
    CAPTURE(row.box, row.seen);
    const Findings all = judge_visit(tally_part, row.box, row.seen);
    if (std::string_view(row.part).empty()) {
      CHECK(all.empty());
      continue;
    }
    CHECK(only(all).part == row.part);
    CHECK(only(all).severity == Severity::query);
    CHECK(only(all).message == row.message);
    CHECK(only(all).place.pointer == std::string("/boxes/0/") + row.part);
  }
}
