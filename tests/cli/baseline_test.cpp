// boxproof baseline and check --baseline: what is written, what fails, whatever folder it is asked from.
#include <filesystem>
#include <sstream>

#include "src/cli/run.hpp"
#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/random_design.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Arguments = std::vector<std::string>;

const Json unlisted = with_box({{"fuse", {{"pv_listed", false}}}});
const Json worse = with_box({{"fuse", {{"pv_listed", false}}}, {"disconnect", {{"lockable", false}}}});
const Json not_dc = with_box({{"fuse", {{"dc", false}, {"pv_listed", false}}}});

// Arguments of a baseline of a day.
Called make_baseline(Arguments arguments) {
  arguments.insert(arguments.begin(), "baseline");
  for (const char* more : {"--reason", "existing", "--on", "2027-03-18"}) arguments.emplace_back(more);
  return call(arguments);
}

// Works in a folder for as long as it is there.
struct WorkIn {
  explicit WorkIn(const std::string& folder) : before(std::filesystem::current_path()) {
    std::filesystem::current_path(folder);
  }
  ~WorkIn() { std::filesystem::current_path(before); }
  std::filesystem::path before;
};

std::string put_in(const Folder& folder, const std::string& name, const std::string& text) {
  std::filesystem::create_directories(std::filesystem::path(folder.path(name)).parent_path());
  return folder.put(name, text);
}

Json read_json(const Folder& folder, const std::string& name) {
  return Json::parse(folder.get(name));
}

}  // namespace

TEST_CASE("a baseline makes a check succeed until something is new") {
  const Folder f;
  const std::string design = f.put("design.json", unlisted.dump()), baseline = f.path("baseline.json");
  CHECK(call({"check", design}).status == 1);
  const Called made = make_baseline({design, "--output", baseline});
  CHECK(made.status == 0);
  CHECK(made.err.empty());
  CHECK(made.out.empty());
  const Json json = read_json(f, "baseline.json");
  CHECK(json["format"] == "boxproof-baseline/1");
  CHECK(json["date"] == "2027-03-18");
  CHECK(json["reason"] == "existing");
  REQUIRE(json["findings"].size() == 1);
  CHECK(json["findings"][0]["design"] == "design.json");
  CHECK(json["findings"][0]["rule"] == "fuse/not-pv-listed");
  CHECK(json["findings"][0]["severity"] == "correction");
  const Called same = call({"check", design, "--baseline", baseline});
  CHECK(same.status == 0);
  CHECK(same.says("VERDICT  CORRECT"));  // it approves nothing
  CHECK(same.says("1 correction"));
  CHECK(call({"check", design, "--baseline", baseline, "--fail-on", "advice"}).status == 0);
  f.put("design.json", worse.dump(4));
  const Called more = call({"check", design, "--baseline", baseline});
  CHECK(more.status == 1);
  CHECK(more.says("  1 Disconnect"));
  CHECK_FALSE(more.says("  1 Fuse"));
  f.put("design.json", sound_design().dump());
  const Called mended = call({"check", design, "--baseline", baseline});
  CHECK(mended.status == 0);
  CHECK(
      mended.says("No longer occurs: remove the entry, or write the baseline anew:\n"
                  "  – correction fuse/not-pv-listed on A-01, fuse\n"));
}

TEST_CASE("hazards are left out of a baseline, and count whatever is on it") {
  const Folder f;
  const std::string design = f.put("design.json", not_dc.dump()), baseline = f.path("b.json");
  const Called made = make_baseline({design, "--output", baseline});
  CHECK(made.status == 0);
  CHECK(
      made.err ==
      "boxproof: 1 hazard was left out: a hazard is never on a baseline; only an agreed exception sets one aside\n");
  CHECK(read_json(f, "b.json")["findings"].size() == 1);
  CHECK(call({"check", design, "--baseline", baseline}).status == 1);
  // The agreed exception does.
  const std::string agreed =
      f.put("e.json", Json{{"format", "boxproof-exceptions/1"},
                           {"exceptions", {an_exception("fuse/not-dc", {{"hazard", true}})}}}
                          .dump());
  CHECK(
      call({"check", design, "--baseline", baseline, "--exceptions", agreed, "--on", "2027-02-01"}).status ==
      0);
  // It is left out under the exception without a word.
  const Called under =
      call({"baseline", design, "--reason", "x", "--exceptions", agreed, "--on", "2027-02-01"});
  CHECK(under.status == 0);
  CHECK(under.err.empty());
  CHECK(Json::parse(under.out)["findings"].size() == 1);
  // So is a correction.
  const std::string both = f.put(
      "both.json",
      Json{{"format", "boxproof-exceptions/1"}, {"exceptions", {an_exception("fuse/not-pv-listed")}}}.dump());
  CHECK(Json::parse(call({"baseline", design, "--reason", "x", "--exceptions", both, "--on", "2027-02-01"})
                        .out)["findings"]
            .empty());
}

TEST_CASE("designs are named from the folder of the baseline, from wherever it is asked") {
  const Folder f;
  put_in(f, "sites/north/a.json", unlisted.dump());
  put_in(f, "sites/b.json", unlisted.dump());
  put_in(f, "ci/keep", "");
  const auto designs_of = [](const std::string& text) {
    Arguments out;
    const Json json = Json::parse(text);
    for (const Json& e : json["findings"]) out.push_back(e["design"]);
    return out;
  };
  CHECK(make_baseline({f.path("sites"), "--output", f.path("ci/baseline.json")}).status == 0);
  CHECK(designs_of(f.get("ci/baseline.json")) == Arguments{"../sites/b.json", "../sites/north/a.json"});
  CHECK(make_baseline({f.path("sites"), "--output", f.path("baseline.json")}).status == 0);
  CHECK(designs_of(f.get("baseline.json")) == Arguments{"sites/b.json", "sites/north/a.json"});
  {
    const WorkIn here(f.path("sites"));
    const Called made = make_baseline({"north/../north//a.json", "./b.json"});
    CHECK(designs_of(made.out) == Arguments{"b.json", "north/a.json"});
    CHECK(call({"check", "b.json", "--baseline", "../baseline.json"}).status == 0);
    CHECK(call({"check", "./north/../b.json", "--baseline", f.path("baseline.json")}).status == 0);
    CHECK(call({"check", f.path("sites/b.json"), "--baseline", "../ci/baseline.json"}).status == 0);
    // The same name in another folder is another design.
    std::filesystem::copy_file("b.json", "north/b.json");
    CHECK(call({"check", "north/b.json", "--baseline", "../baseline.json"}).status == 1);
  }
  {
    const WorkIn here(f.path("sites/north"));
    CHECK(call({"check", "a.json", "--baseline", "../../baseline.json"}).status == 0);
  }
  // A checkout elsewhere, and one that a link leads to.
  const Folder other;
  std::filesystem::copy(f.path("."), other.path("copy"), std::filesystem::copy_options::recursive);
  CHECK(call({"check", other.path("copy/sites/b.json"), "--baseline", other.path("copy/baseline.json")})
            .status == 0);
  std::filesystem::create_directory_symlink(other.path("copy"), other.path("link"));
  CHECK(call({"check", other.path("link/sites/b.json"), "--baseline", other.path("copy/baseline.json")})
            .status == 0);
  // Read from standard input it is named from the working folder.
  const WorkIn here(f.path("."));
  CHECK(call({"check", "sites/b.json", "--baseline", "-"}, {f.get("baseline.json"), false, {}}).status == 0);
}

TEST_CASE("a baseline of many designs takes what check takes, and nothing is written where one is broken") {
  const Folder f;
  put_in(f, "sites/a.json", unlisted.dump());
  put_in(f, "sites/b.json", not_dc.dump());
  put_in(f, "sites/other.json", "{\"format\": \"something/1\"}");
  const std::string out = f.path("baseline.json");
  CHECK(make_baseline({f.path("sites"), "--output", out}).status == 0);
  CHECK(read_json(f, "baseline.json")["findings"].size() == 2);
  CHECK(make_baseline({f.path("sites/[ab].json"), "--output", out}).status == 0);
  CHECK(read_json(f, "baseline.json")["findings"].size() == 2);
  CHECK(make_baseline({f.path("sites/a.json"), f.path("sites/a.json"), "--output", out}).status == 0);
  CHECK(read_json(f, "baseline.json")["findings"].size() == 1);  // each file once
  const std::string before = f.get("baseline.json");
  put_in(f, "sites/c.json", "{\"format\": \"boxproof-design/1\"}");
  put_in(f, "sites/d.json", "{\"format\": \"boxproof-design/1\",}");
  const Called broken = make_baseline({f.path("sites"), "--output", out});
  CHECK(broken.status == 3);
  CHECK(broken.complains("c.json:1:1: found no \"site\""));
  CHECK(broken.complains("d.json:1:"));
  CHECK(broken.err.ends_with("boxproof: 2 designs were not judged; nothing was written\n"));
  CHECK(f.get("baseline.json") == before);
  CHECK(f.names() == Arguments{"baseline.json", "sites"});
  CHECK(make_baseline({f.path("sites/none.json")}).status == 3);
  std::filesystem::create_directory(f.path("empty"));
  const Called none = make_baseline({f.path("empty")});
  CHECK(none.status == 3);
  CHECK(none.err.starts_with(
      f.path("empty") +
      ": found no design there, expected at least one JSON file that says boxproof-design/1\n"));
  CHECK(none.out.empty());
}

TEST_CASE("a baseline takes the place of an earlier one, and of no input") {
  const Folder f;
  put_in(f, "sites/a.json", unlisted.dump());
  const std::string in_between = f.path("sites/baseline.json");
  for (int time = 0; time < 2; ++time) {
    const Called made = make_baseline({f.path("sites"), "--verbose", "--output", in_between});
    CHECK(made.status == 0);
    CHECK(made.err.empty());
    CHECK(read_json(f, "sites/baseline.json")["findings"][0]["design"] == "a.json");
  }
  CHECK(call({"check", f.path("sites"), "--baseline", in_between}).status == 0);
  for (const std::string& over : {f.path("sites/a.json"), f.path("sites/../sites/a.json")}) {
    const Called lost = make_baseline({f.path("sites"), "--output", over});
    CHECK(lost.status == 2);
    CHECK(lost.complains("which is an input, where the baseline report would be written"));
    CHECK(f.get("sites/a.json") == unlisted.dump());
  }
}

TEST_CASE("every folder of a baseline holds a design") {
  const Folder f;
  put_in(f, "sites/a.json", unlisted.dump());
  put_in(f, "other/b.json", "{}");
  const Called none = make_baseline({f.path("sites"), f.path("other")});
  CHECK(none.status == 3);
  CHECK(none.out.empty());
  CHECK(none.err.starts_with(f.path("other") + ": found no design there, expected at least one JSON file"));
}

TEST_CASE("settings may name the baseline, which is written anew all the same") {
  const Folder f;
  f.put("design.json", unlisted.dump());
  f.put(".boxproof.json",
        R"({"format": "boxproof-settings/1", "designs": ["design.json"], "baseline": "b.json"})");
  const Surroundings here{"", false, {}, f.root()};
  CHECK(call({"check"}, here).status == 3);  // it is not there yet
  const Arguments anew{"baseline", "--reason", "x", "--on", "2027-03-18", "--output", "b.json"};
  CHECK(call(anew, here).status == 0);
  CHECK(call({"check"}, here).status == 0);
  CHECK(call(anew, here).status == 0);
  CHECK(call({"check", "--no-settings", "design.json"}, here).status == 1);
}

TEST_CASE("the day of a baseline is that of --on, else today") {
  const Folder f;
  const std::string design = f.put("design.json", unlisted.dump());
  std::istringstream in;
  std::ostringstream out, err;
  cli::Console console{in, out, err};
  console.today = [] { return *parse_date("2027-05-06"); };
  CHECK(cli::run({"baseline", design, "--reason", "x"}, console) == 0);
  CHECK(Json::parse(out.str())["date"] == "2027-05-06");
  const Called none = call({"baseline", design, "--reason", "x"});
  CHECK(none.status == 2);
  CHECK(none.err == "boxproof: found no clock that says today's date, expected --on YYYY-MM-DD\n");
}

TEST_CASE("a baseline of a visit") {
  const Folder f;
  const std::string design = f.put("design.json", sound_design().dump());
  const std::string record = f.put("visit.json", R"({"format": "boxproof-asbuilt/1", "boxes": [
      {"id": "A-01", "count": {"positive": 9, "negative": 8}}]})");
  const std::string baseline = f.path("b.json");
  const Called now = call({"check", design, "--asbuilt", record, "--format", "json"});
  REQUIRE(now.status == 1);
  make_baseline({design, "--asbuilt", record, "--output", baseline});
  const Json counts = Json::parse(now.out)["site"]["counts"];
  CHECK(read_json(f, "b.json")["findings"].size() + counts["hazard"].get<std::size_t>() ==
        Json::parse(now.out)["findings"].size());
  const Called beside = call({"check", design, "--asbuilt", record, "--baseline", baseline});
  CHECK(beside.status == (counts["hazard"] == 0 ? 0 : 1));
}

TEST_CASE("wrong use of a baseline") {
  const Folder f;
  const std::string design = f.put("design.json", unlisted.dump());
  const auto wrong = [](const Arguments& arguments, const std::string& line) {
    const Called c = call(arguments);
    CAPTURE(arguments);
    CHECK(c.status == 2);
    CHECK(c.out.empty());
    CHECK(c.err == "boxproof: " + line + "\n");
  };
  wrong({"baseline", design}, "--reason is required; see boxproof baseline --help");
  wrong({"baseline", design, "--reason", " "},
        "found an empty --reason, expected why these findings stay for now");
  wrong({"baseline", "--reason", "x", "--on", "2027-03-18"},
        "found no DESIGN, expected a design file, a folder or a pattern; see boxproof baseline --help");
  wrong({"baseline", design, "--reason", "x", "--baseline", "b.json"},
        "found the option \"--baseline\", which is not known here; see boxproof baseline "
        "--help");
  wrong(
      {"baseline", design, "--reason", "x", "--on", "2027-02-30"},
      "--on: found \"2027-02-30\", expected a day of the calendar; that month has the days 01 to 28; see boxproof "
      "baseline --help");
  wrong({"baseline", design, design, f.put("two.json", unlisted.dump()), "--reason", "x", "--on",
         "2027-03-18", "--asbuilt", design},
        "found --asbuilt with a folder, a pattern or more than one design, expected one design file: a field "
        "record is of one site");
  wrong({"baseline", design, "--reason", "x", "--on", "2027-03-18", "--output", design},
        "found --output " + design + ", which is the input " + design +
            ", expected another file: it would be lost");
  wrong({"check", design, "--baseline", design, "--output", design},
        "found --output " + design + ", which is the input " + design +
            ", expected another file: it would be lost");
  wrong(
      {"baseline", "-", "--reason", "x", "--on", "2027-03-18", "--exceptions", "-"},
      "found - for both the design and the agreed exceptions, expected it once: there is one standard input");
  wrong({"check", "-", "--baseline", "-"},
        "found - for both the design and the baseline, expected it once: there is one standard input");
}

TEST_CASE("a baseline that cannot be read judges nothing") {
  const Folder f;
  const std::string design = f.put("design.json", unlisted.dump());
  const Called bad = call({"check", design, "--baseline", design});
  CHECK(bad.status == 3);
  CHECK(bad.out.empty());
  CHECK(bad.complains("/format: found text \"boxproof-design/1\", expected \"boxproof-baseline/1\""));
  CHECK(bad.complains("nothing was judged"));
  CHECK(call({"check", design, "--baseline", f.path("none")}).status == 3);
}

TEST_CASE("random sites: a baseline, and the file laid out anew, from the command line", "[slow]") {
  std::size_t without_hazard = 0;
  for (std::uint32_t seed = 1; seed <= 12; ++seed) {
    RandomSite random(seed);
    Json design = random.design();
    const Folder f;
    const std::string path = f.put("design.json", design.dump(1)), baseline = f.path("b.json");
    CAPTURE(seed);
    // Hazards are agreed to: what is left is on the baseline, or nothing is.
    Json entries = Json::array();
    const Json before = Json::parse(call({"check", path, "--format", "json"}).out);
    for (const Json& finding : before["findings"])
      if (finding["severity"] == "hazard")
        entries.push_back(
            an_exception(finding["rule"].get<std::string>(), {{"boxes", {"*"}}, {"hazard", true}}));
    const std::string agreed =
        f.put("e.json", Json{{"format", "boxproof-exceptions/1"}, {"exceptions", entries}}.dump());
    const Arguments judging{"--exceptions", agreed, "--on", "2027-02-01"};
    const auto with = [&](Arguments arguments) {
      arguments.insert(arguments.end(), judging.begin(), judging.end());
      return call(arguments);
    };
    REQUIRE(with({"baseline", path, "--reason", "x", "--output", baseline}).status == 0);
    random.shuffle(design["combiners"]);
    f.put("design.json", random.any_order(design));
    const Called after =
        with({"check", path, "--baseline", baseline, "--fail-on", "advice", "--format", "json"});
    const Json report = Json::parse(after.out);
    CHECK(after.status == (report["site"]["counts"]["hazard"] == 0 ? 0 : 1));
    without_hazard += report["site"]["counts"]["hazard"] == 0;
    for (const char* severity : {"correction", "query", "advice"})
      CHECK(report["site"]["fresh"][severity] == 0);
    CHECK(report["baseline"]["stale"].empty());
    CHECK(report["baseline"]["graver"].empty());
  }
  CHECK(without_hazard > 6);
}
