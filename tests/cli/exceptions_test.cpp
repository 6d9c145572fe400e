// --exceptions and --on: which day counts, the exit status, and what is wrong use.
#include <sstream>

#include "src/cli/run.hpp"
#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Arguments = std::vector<std::string>;
const std::string folder_of_examples = BOXPROOF_EXAMPLES;
const std::string faults = folder_of_examples + "/saltmarsh-faults.json";
const std::string agreed = folder_of_examples + "/saltmarsh-exceptions.json";

// Runs boxproof on a day; `asked` counts how often it looks at the clock.
Called call_on(std::string_view day, const Arguments& arguments, int* asked = nullptr,
               const std::string& in = "") {
  std::istringstream input(in);
  std::ostringstream out, err;
  cli::Console console{input, out, err};
  console.today = [&] {
    if (asked != nullptr) ++*asked;
    return *parse_date(day);
  };
  const int status = cli::run(arguments, console);
  return {status, out.str(), err.str()};
}

// A plan with one correction on A-01, a record of a visit, and an entry in force from 2027-01-10 to
// 2027-02-20.
struct Files {
  Folder folder;
  std::string design = folder.put("design.json", with_box({{"fuse", {{"pv_listed", false}}}}).dump());
  std::string exceptions = folder.put(
      "exceptions.json",
      Json{{"format", "boxproof-exceptions/1"}, {"exceptions", {an_exception("fuse/not-pv-listed")}}}.dump());
  std::string visited(std::string_view visit) const {
    return folder.put("visit.json", Json{{"format", "boxproof-asbuilt/1"},
                                         {"visit", Json::parse(visit)},
                                         {"boxes", {{{"id", "A-01"}, {"enclosure", {{"listed", true}}}}}}}
                                        .dump());
  }
  std::string visited_on(const std::string& date) const { return visited(Json{{"date", date}}.dump()); }
};

}  // namespace

TEST_CASE("an agreed finding does not count in the exit status") {
  const Files f;
  CHECK(call({"check", f.design}).status == 1);
  CHECK(call({"check", f.design, "--exceptions", f.exceptions, "--on", "2027-01-09"}).status == 1);
  CHECK(call({"check", f.design, "--exceptions", f.exceptions, "--on", "2027-01-10"}).status == 0);
  CHECK(call({"check", f.design, "--exceptions", f.exceptions, "--on", "2027-02-20"}).status == 0);
  CHECK(call({"check", f.design, "--exceptions", f.exceptions, "--on", "2027-02-21"}).status == 1);
}

TEST_CASE("the day that counts: --on, else the visit's, else today") {
  const Files f;
  int asked = 0;
  const auto says = [&](const Arguments& more, std::string_view line) {
    Arguments arguments{"check", f.design, "--exceptions", f.exceptions};
    arguments.insert(arguments.end(), more.begin(), more.end());
    asked = 0;
    const Called c = call_on("2027-02-05", arguments, &asked);
    CAPTURE(c.out, c.err);
    CHECK(c.says("  Agreed exceptions count as on " + std::string(line) + ".\n"));
  };
  says({"--on", "2027-02-03"}, "2027-02-03, the day given with --on");
  CHECK(asked == 0);
  says({"--asbuilt", f.visited_on("2027-02-04")}, "2027-02-04, the day of the visit");
  CHECK(asked == 0);
  says({"--on", "2027-02-03", "--asbuilt", f.visited_on("2027-02-04")},
       "2027-02-03, the day given with --on");
  CHECK(asked == 0);
  says({"--asbuilt", f.visited("{}")}, "2027-02-05, today");  // the record does not say when
  CHECK(asked == 1);
  says({}, "2027-02-05, today");
  CHECK(asked == 1);
  // The clock decides: the entry is in force on one day and not on another.
  CHECK(call_on("2027-02-20", {"check", f.design, "--exceptions", f.exceptions}).status == 0);
  CHECK(call_on("2027-02-21", {"check", f.design, "--exceptions", f.exceptions}).status == 1);
  // Nobody looks at the clock without exceptions.
  asked = 0;
  call_on("2027-02-05", {"check", f.design}, &asked);
  call_on("2027-02-05", {"box", f.design, "A-01"}, &asked);
  CHECK(asked == 0);
  // Without a clock the day must be given.
  const Called none = call({"check", f.design, "--exceptions", f.exceptions});
  CHECK(none.status == 2);
  // A day of the visit that is none is not read as no day.
  for (const char* day : {"in spring", "2027-02-30"})
    CHECK(call({"check", f.design, "--exceptions", f.exceptions, "--asbuilt", f.visited_on(day)}).status ==
          3);
  CHECK(none.err == "boxproof: found no clock that says today's date, expected --on YYYY-MM-DD\n");
}

TEST_CASE("the example: one entry applied, one expired, one on a hazard that it does not cover") {
  const Called c = call({"check", faults, "--exceptions", agreed, "--on", "2027-03-18", "--format", "json"});
  CHECK(c.status == 1);
  const Json report = Json::parse(c.out);
  REQUIRE(report["exceptions"].size() == 3);
  CHECK(report["exceptions"][0]["state"] == "applied");
  CHECK(report["exceptions"][1]["state"] == "expired");
  CHECK(report["exceptions"][2]["state"] == "hazards-only");
  REQUIRE(report["agreed"].size() == 1);
  CHECK(report["agreed"][0]["box"] == "A-10");
  CHECK(report["agreed"][0]["rule"] == "disconnect/too-far");
  CHECK(report["boxes"][9]["id"] == "A-10");
  CHECK(report["boxes"][9]["verdict"] == "accept");
  const Called text = call({"check", faults, "--exceptions", agreed, "--on", "2027-03-18"});
  CHECK(text.says("AGREED EXCEPTIONS"));
  CHECK(text.says(agreed + ":6:5"));
}

TEST_CASE("--exceptions with --box, and for box") {
  const Arguments on{"--exceptions", agreed, "--on", "2027-03-18"};
  const auto with = [&](Arguments arguments) {
    arguments.insert(arguments.end(), on.begin(), on.end());
    return call(arguments);
  };
  const Called ten = with({"check", faults, "--box", "A-10"});
  CHECK(ten.status == 0);
  CHECK(ten.says("    state     in force; 1 finding set aside\n"));
  CHECK_FALSE(ten.says("has only hazards"));  // the boxes that the third entry names are not shown
  const Called other = with({"check", faults, "--box", "A-01"});
  CHECK(other.says("    state     in force, but matches nothing on the boxes shown\n"));
  CHECK_FALSE(other.says("names no box"));
  const Called box = with({"box", faults, "A-10"});
  CHECK(box.status == 0);
  CHECK(box.says("VERDICT     accept"));
}

TEST_CASE("wrong use of --exceptions and --on") {
  const auto wrong = [](const Arguments& arguments, const std::string& line) {
    const Called c = call_on("2027-02-05", arguments);
    CAPTURE(arguments);
    CHECK(c.status == 2);
    CHECK(c.out.empty());
    CHECK(c.err == "boxproof: " + line + "\n");
  };
  wrong(
      {"check", faults, "--exceptions", agreed, "--on", "2027-02-30"},
      "--on: found \"2027-02-30\", expected a day of the calendar; that month has the days 01 to 28; see boxproof "
      "check --help");
  wrong({"check", faults, "--exceptions", agreed, "--on", "today"},
        "--on: found \"today\", expected a day as YYYY-MM-DD; see boxproof check --help");
  wrong({"check", faults, "--on", "2027-02-03"},
        "found --on without agreed exceptions, expected --exceptions FILE with it");
  wrong(
      {"check", "-", "--exceptions", "-"},
      "found - for both the design and the agreed exceptions, expected it once: there is one standard input");
  wrong(
      {"check", faults, "--asbuilt", "-", "--exceptions", "-"},
      "found - for both the field record and the agreed exceptions, expected it once: there is one standard input");
}

TEST_CASE("exceptions from standard input, and such as cannot be read") {
  const Files f;
  const Called c = call_on("2027-02-05", {"check", f.design, "--exceptions", "-"}, nullptr,
                           f.folder.get("exceptions.json"));
  CHECK(c.status == 0);
  CHECK(c.says("<stdin>:1:"));
  const Called bad = call_on("2027-02-05", {"check", f.design, "--exceptions", f.design});
  CHECK(bad.status == 3);
  CHECK(bad.out.empty());
  CHECK(bad.complains("/format: found text \"boxproof-design/1\", expected \"boxproof-exceptions/1\""));
  CHECK(bad.complains("nothing was judged"));
  CHECK(call_on("2027-02-05", {"check", f.design, "--exceptions", f.folder.path("none")}).status == 3);
}
