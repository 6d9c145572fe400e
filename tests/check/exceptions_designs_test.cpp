// Agreed exceptions with many designs: entries for some of them, and what no design of a run has a use for.
#include "boxproof/exceptions.hpp"
#include "src/check/exceptions_run.hpp"
#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Strings = std::vector<std::string>;

const Json unlisted = with_box({{"fuse", {{"pv_listed", false}}}});
constexpr std::string_view listing = "fuse/not-pv-listed";

ExceptionsFile file_of(const std::vector<Json>& entries) {
  return read_exceptions(
      {"e.json", Json{{"format", "boxproof-exceptions/1"}, {"exceptions", entries}}.dump()});
}

std::unique_ptr<Judged> agreed(const Json& design, const ExceptionsFile& file, std::string_view path) {
  auto judged = judge(design);
  apply_exceptions(judged->judgement, judged->design.design, file,
                   {*parse_date("2027-02-01"), DayFrom::command_line}, path);
  return judged;
}

bool has(std::string_view page, std::string_view text) {
  return page.find(text) != std::string_view::npos;
}

// The remarks on a run of these designs, by their paths, without the place in front.
struct Named {
  std::string path;
  Json design;
};
Strings remarks(const std::vector<Json>& entries, const std::vector<Named>& sites) {
  const ExceptionsFile file = file_of(entries);
  ExceptionsOverRun run(file);
  for (const Named& site : sites) run.add(take_out_idle(agreed(site.design, file, site.path)->judgement));
  Strings out;
  for (const std::string& remark : run.remarks()) out.push_back(remark.substr(remark.find(": ") + 2));
  return out;
}

}  // namespace

TEST_CASE("an entry that names designs covers findings of these alone") {
  const auto covers = [](const Strings& designs, std::string_view path) {
    const auto j = agreed(unlisted, file_of({an_exception(listing, {{"designs", designs}})}), path);
    CHECK(j->judgement.agreed.size() + j->judgement.exceptions_elsewhere == 1);
    return j->judgement.agreed.size() == 1;
  };
  CHECK(covers({"north/a.json"}, "north/a.json"));
  CHECK(covers({"./north/../north/a.json"}, "north/a.json"));
  CHECK(covers({"b.json", "north/*"}, "north/a.json"));
  CHECK(covers({"*"}, "north/a.json"));
  CHECK(covers({"n*.json"}, "north/a.json"));  // * takes / too
  CHECK(covers({"../x/[ab].json"}, "../x/a.json"));
  CHECK_FALSE(covers({"north/a.json"}, "south/a.json"));
  CHECK_FALSE(covers({"a.json"}, "north/a.json"));
  CHECK_FALSE(covers({"north"}, "north/a.json"));
  CHECK_FALSE(covers({"a.json"}, ""));
}

TEST_CASE("the report of a design tells the entries that are for it, and how many are not") {
  const ExceptionsFile file =
      file_of({an_exception(listing, {{"designs", {"b.json"}}}), an_exception("fuse/not-dc"),
               an_exception(listing, {{"designs", {"a.json", "c/*"}}})});
  const auto judged = agreed(unlisted, file, "a.json");
  const Judgement& j = judged->judgement;
  REQUIRE(j.exceptions.size() == 2);
  CHECK(j.exceptions_elsewhere == 1);
  CHECK(j.exceptions[0].index == 1);
  CHECK(j.exceptions[1].index == 2);
  REQUIRE(j.agreed.size() == 1);
  CHECK(j.agreed[0].exception == 1);
  const std::string text = text_report(*judged);
  CHECK(has(text, "1 entry matches nothing; 1\n         entry for other designs\n"));
  CHECK(has(text, "Exception 2: "));
  CHECK(has(text, "Exception 3: "));
  CHECK(has(text, "    designs   a.json, c/*\n"));
  const Json report = Json::parse(json_report(*judged));
  CHECK(report["exceptions_elsewhere"] == 1);
  CHECK(report["exceptions"].size() == 2);
  CHECK_FALSE(report["exceptions"][0].contains("designs"));
  CHECK(report["exceptions"][1]["designs"] == Json::array({"a.json", "c/*"}));
  CHECK(report["agreed"][0]["exception"] == 1);
  const auto none = agreed(unlisted, file_of({an_exception(listing, {{"designs", {"b.json"}}})}), "a.json");
  CHECK(has(text_report(*none), "All entries of the file are for other designs.\n"));
  const auto all = agreed(unlisted, file_of({an_exception(listing)}), "a.json");
  CHECK_FALSE(has(text_report(*all), "other designs"));
  CHECK_FALSE(Json::parse(json_report(*all)).contains("exceptions_elsewhere"));
}

TEST_CASE("in a run of many an entry without findings of a design is not told there") {
  const ExceptionsFile file =
      file_of({an_exception("fuse/not-dc"), an_exception(listing, {{"boxes", {"A-01", "Z-9"}}})});
  const auto judged = agreed(unlisted, file, "a.json");
  const std::vector<EntryUse> uses = take_out_idle(judged->judgement);
  REQUIRE(uses.size() == 2);
  CHECK_FALSE(uses[0].matched);
  CHECK(uses[1].matched);
  CHECK(uses[1].unknown == Strings{"Z-9"});
  const Judgement& j = judged->judgement;
  REQUIRE(j.exceptions.size() == 1);
  REQUIRE(j.agreed.size() == 1);
  CHECK(j.agreed[0].exception == 0);
  const std::string text = text_report(*judged);
  CHECK(has(text, "Exception 2: "));
  CHECK_FALSE(has(text, "matches nothing"));
  CHECK_FALSE(has(text, "names no box"));
  // Where nothing is left there is no section.
  const auto quiet = agreed(sound_design(), file, "b.json");
  take_out_idle(quiet->judgement);
  CHECK_FALSE(has(text_report(*quiet), "AGREED EXCEPTIONS"));
  CHECK(has(text_report(*quiet), "Agreed exceptions count as on 2027-02-01"));
}

TEST_CASE("what has no use in any design of a run is told once") {
  const Json two = with_second_box(sound_design());
  const std::vector<Named> sites{{"a.json", unlisted}, {"b.json", two}};
  CHECK(remarks({an_exception(listing)}, sites).empty());
  CHECK(remarks({an_exception("fuse/not-dc")}, sites) ==
        Strings{"the exception for fuse/not-dc matches nothing in any design of this run"});
  CHECK(remarks({an_exception("fuse/not-dc", {{"expires", "2027-01-31"}})}, sites) ==
        Strings{"the exception for fuse/not-dc has expired and matches nothing in any design of this run"});
  CHECK(
      remarks({an_exception("fuse/not-dc", {{"date", "2027-02-02"}})}, sites) ==
      Strings{
          "the exception for fuse/not-dc is not yet in force and matches nothing in any design of this run"});
  // A box of one design is a box of the run.
  CHECK(remarks({an_exception(listing, {{"boxes", {"A-01", "B-02"}}})}, sites).empty());
  CHECK(remarks({an_exception(listing, {{"boxes", {"A-01", "B-02", "C-*"}}})}, sites) ==
        Strings{"\"C-*\" names no box of any design of this run"});
  // Of an entry for one design, of that one.
  CHECK(remarks({an_exception(listing, {{"boxes", {"A-01", "B-02"}}, {"designs", {"a.json"}}})}, sites) ==
        Strings{"\"B-02\" names no box of any design of this run"});
  const Json elsewhere = an_exception(listing, {{"designs", {"c.json"}}});
  CHECK(remarks({elsewhere}, sites) == Strings{"1 exception is for none of the designs of this run"});
  CHECK(remarks({elsewhere, elsewhere, an_exception(listing)}, sites) ==
        Strings{"2 exceptions are for none of the designs of this run"});
  const ExceptionsFile file = file_of({an_exception("fuse/not-dc")});
  ExceptionsOverRun run(file);
  run.add(take_out_idle(agreed(unlisted, file, "a.json")->judgement));
  REQUIRE(run.remarks().size() == 1);
  CHECK(run.remarks()[0].starts_with("e.json:1:"));
}
