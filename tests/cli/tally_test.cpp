// The command tally: boxes, formats, standard input, wrong use.
#include "tests/support/tally_sheet.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Arguments = std::vector<std::string>;

void check_wrong(const Arguments& more, const std::string& said) {
  CAPTURE(more);
  const Called c = tally(more);
  CHECK(c.status == 2);
  CHECK(c.out.empty());
  CAPTURE(c.err);
  CHECK(c.complains(said));
}

}  // namespace

TEST_CASE("tally: all boxes in the plan's order unless others are asked for") {
  CHECK(ids_of({}) == all_ids());
  CHECK(ids_of({"--box", "A-0[13]", "--box", "B-20"}) == std::vector<std::string>{"A-01", "A-03", "B-20"});
  const Called text = tally({});
  CHECK(text.status == 0);
  CHECK(text.err.empty());
  CHECK(tells(text.out, "All of the 50 boxes of the plan."));
  CHECK_FALSE(text.says("chosen"));
  CHECK(tells(text.out, "write none where they were looked for and nothing was seen."));
  CHECK(tells(tally({"--box", "A-0[13]", "--box", "B-20"}).out,
              "All of the 3 boxes of --box A-0[13] --box B-20, of 50 on the plan."));
}

TEST_CASE("tally: wrong use") {
  check_wrong({"--thinnest", "2"}, "found --thinnest without a sample, expected --sample or --plan with it");
  check_wrong({"--seed", "2"}, "found --seed without a sample, expected --sample or --plan with it");
  check_wrong({"--sample", "4", "--thinnest", "5"},
              "found --thinnest 5, expected no more than the 4 of the sample");
  check_wrong({"--plan", "iso2859", "--thinnest", "9"}, "expected no more than the 8 of the sample");
  check_wrong({"--sample", "4", "--plan", "iso2859"}, "--plan");
  check_wrong({"--plan", "iso2858"}, "did you mean \"iso2859\"?");
  for (const char* bad : {"0", "-1", "1.5", "many", "4294967296", ""})
    check_wrong({"--sample", bad}, "--sample");
  check_wrong({"--sample", "4", "--seed", "-1"}, "--seed");
  check_wrong({"--format", "json"}, "expected one of text, csv, html");
  check_wrong({"--box", "Z*"},
              "found no box that matches \"Z*\", expected at least one; the nearest ids are ");
  check_wrong({"--output", "/nowhere/at/all"}, "/nowhere/at/all");
  CHECK(call({"tally"}).status == 2);
  CHECK(call({"tally", "/nowhere.json"}).status == 3);
}

TEST_CASE("tally: a design from standard input, and one that cannot be read") {
  const Called piped = call({"tally", "-", "--format", "csv"}, {example_text("saltmarsh.json"), false, {}});
  CHECK(piped.status == 0);
  CHECK(ids_in(piped.out) == all_ids());
  const Called bad = call({"tally", "-"}, {"{\"format\": \"boxproof-design/2\"}", false, {}});
  CHECK(bad.status == 3);
  CHECK(bad.out.empty());
  CHECK(bad.complains("<stdin>:1:"));
  CHECK(bad.complains("nothing was judged"));
}

TEST_CASE("tally: a plan without boxes is no plan") {
  Json empty = example_json("saltmarsh.json");
  empty["combiners"] = Json::array();
  const Called c = call({"tally", "-", "--sample", "3"}, {empty.dump(), false, {}});
  CHECK(c.status == 3);
  CHECK(c.out.empty());
  CHECK(c.complains("/combiners: found an empty list"));
}

TEST_CASE("tally: with CSV the choice stands on standard error, of a sample alone") {
  CHECK(tally({"--format", "csv"}).err.empty());
  CHECK(tally({"--format", "csv", "--box", "A-*"}).err.empty());
  const Called sample = tally({"--format", "csv", "--sample", "4", "--low-c", "-12"});
  CHECK(tells(sample.err, "A sample of 4 out of the 50 boxes of the plan"));
  CHECK(tells(sample.err, "A sample shows nothing about boxes that were not opened."));
  CHECK(tells(sample.err, "Changed on the command line: site.low_c is −12 °C"));
}

TEST_CASE("tally: to a file") {
  const Folder folder;
  const Called c = tally({"--format", "csv", "--output", folder.path("sheet.csv")});
  CHECK(c.status == 0);
  CHECK(c.out.empty());
  CHECK(ids_in(folder.get("sheet.csv")) == all_ids());
}
