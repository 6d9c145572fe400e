// Fuses that are not like the others in the box.
#include "src/rules/tally.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/visit.hpp"

using namespace boxproof;

namespace {

using Findings = std::vector<Finding>;
using Parts = std::vector<std::string>;

}  // namespace

TEST_CASE("tally/mixed-fuses") {
  const Findings all = judge_visit(
      tally_mixed_fuses, "", R"("mixed_fuses": [ { "position": 5, "a": 15 }, { "a": 25 }, { "a": 20 } ])");
  CHECK(only(all).part == "mixed fuses");
  CHECK(only(all).message ==
        "The fuses of A-04 are not alike: 15 A at position 5 and 25 A, where the others are 20 A.");
  CHECK(only(all).place.pointer == "/boxes/0/mixed_fuses");
  CHECK(parts(tally_mixed_fuses, "", R"("mixed_fuses": [ { "position": 5, "a": 20 } ])").empty());
  // The common rating is the found one, where there is one.
  CHECK(parts(tally_mixed_fuses, "", R"("fuse": { "a": 15 }, "mixed_fuses": [ { "a": 15 } ])").empty());
  CHECK(parts(tally_mixed_fuses, "", R"("fuse": { "a": 15 }, "mixed_fuses": [ { "a": 20 } ])").size() == 1);
  CHECK(parts(tally_mixed_fuses, R"("fuse": null)", R"("mixed_fuses": [ { "a": 20 } ])").size() == 1);
}

TEST_CASE("tally/mixed-fuses: one whose rating nobody read is told") {
  CHECK(
      only(judge_visit(tally_mixed_fuses, "", R"("mixed_fuses": [ { "position": 5 } ])")).message ==
      "The fuses of A-04 are not alike: one of a rating not read at position 5, where the others are 20 A.");
  CHECK(
      only(judge_visit(tally_mixed_fuses, R"("fuse": { "a": null })", R"("mixed_fuses": [ {} ])")).message ==
      "The fuses of A-04 are not alike: one of a rating not read, where all should have one rating.");
}

TEST_CASE("tally/mixed-fuses: a position beyond the inputs of the box is a query") {
  const auto told = [](std::string_view box, std::string_view seen) {
    Findings out = judge_visit(tally_mixed_fuses, box, seen);
    std::erase_if(out, [](const Finding& f) { return f.part != "fuse position"; });
    return out;
  };
  // 12 strings, and an enclosure with 12 inputs.
  CHECK(told("", R"("mixed_fuses": [ { "position": 12, "a": 15 } ])").empty());
  const Findings all = told("", R"("mixed_fuses": [ { "a": 25 }, { "position": 13, "a": 15 } ])");
  CHECK(only(all).severity == Severity::query);
  CHECK(only(all).message == "The record has an unlike fuse at position 13 of A-04, which has 12 inputs.");
  CHECK(only(all).place.pointer == "/boxes/0/mixed_fuses/1/position");
  // More inputs than are in use; more strings found than planned.
  CHECK(
      told(R"("enclosure": { "inputs": 16 })", R"("mixed_fuses": [ { "position": 16, "a": 15 } ])").empty());
  CHECK(told("", R"("count": { "positive": 13 }, "mixed_fuses": [ { "position": 13, "a": 15 } ])").empty());
  CHECK(told(R"("enclosure": { "inputs": null })", R"("mixed_fuses": [ { "position": 13, "a": 15 } ])")
            .size() == 1);
  // It is asked for also where the rating is that of the others.
  CHECK(parts(tally_mixed_fuses, "", R"("mixed_fuses": [ { "position": 99, "a": 20 } ])") ==
        Parts{"fuse position"});
}
