// Many designs in one run: order, what is broken among them, what is no design, the status, standard input.
#include <algorithm>
#include <filesystem>
#include <sstream>

#include "boxproof/input_error.hpp"
#include "src/cli/run.hpp"
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/hostile.hpp"
#include "tests/support/nobody.hpp"
#include "tests/support/page.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;
namespace fs = std::filesystem;

namespace {

using Strings = std::vector<std::string>;

const std::string sound = sound_design().dump();
const std::string hazard = with_box({{"fuse", {{"a", 30}}}}).dump();  // above what the module allows
const std::string advice = with_circuit({{"run", {{"length_m", 400}}}}).dump();
const std::string bad = with({{"site", {{"use", "barn"}}}, {"code", {{"edition", "2016"}}}}).dump();
const std::string record = R"({"format": "boxproof-asbuilt/1", "boxes": [{"id": "A-01"}]})";

// Whether the page has all the texts, each behind the one before.
bool stand_in_order(const std::string& page, const Strings& texts) {
  std::size_t at = 0;
  for (const std::string& text : texts) {
    const auto found = page.find(text, at);
    if (found == std::string::npos) WARN("not there, or not in its place: " << text);
    if (found == std::string::npos) return false;
    at = found + text.size();
  }
  return true;
}

}  // namespace

TEST_CASE("a folder of designs: findings one by one, all in a table, the worst decides the status") {
  const Folder folder;
  folder.put("s/a.json", sound);
  folder.put("s/b.json", hazard);
  folder.put("s/sub/c.json", advice);
  folder.put("s/visit.json", record);
  const Called c = call({"check", "s"}, {"", false, {}, folder.root()});
  INFO(c.out);
  CHECK(c.status == 1);
  CHECK(c.err.empty());
  CHECK(stand_in_order(
      c.out, {"\ns/b.json ", "[fuse/over-module-limit]", "\ns/sub/c.json ", "[conductor/voltage-drop]",
              "\nDESIGNS\n", "accept", "s/a.json\n", "stop", "s/b.json\n", "accept", "s/sub/c.json\n",
              "in all", "Designs: 1 to stop, 2 to accept; 1 file", "Findings: 1 hazard, ",
              "This is an aid to review and no approval."}));
  CHECK(c.out.find("\ns/a.json ") == std::string::npos);  // nothing to say of it but in the table
  CHECK(c.out.find("This is an aid") == c.out.rfind("This is an aid"));
  CHECK(too_wide(c.out) == Strings{});
  CHECK(call({"check", "s/a.json", "s/sub"}, {"", false, {}, folder.root()}).status == 0);
  CHECK(call({"check", "s/a.json", "s/sub", "--fail-on", "advice"}, {"", false, {}, folder.root()}).status ==
        1);
}

TEST_CASE("skipped files are counted, and named with the reason where that is asked for") {
  const Folder folder;
  folder.put("s/a.json", sound);
  folder.put("s/visit.json", record);
  folder.put("s/odd.json", "[]");
  const Called quiet = call({"check", "s"}, {"", false, {}, folder.root()});
  CHECK(quiet.status == 0);
  CHECK(quiet.err.empty());
  CHECK(quiet.says("Designs: 1 to accept; 2 files skipped, which are no designs\n"));
  const Called verbose = call({"check", "s", "--verbose"}, {"", false, {}, folder.root()});
  CHECK(verbose.out == quiet.out);
  CHECK(verbose.err ==
        "s/odd.json: skipped: it is no JSON object\n"
        "s/visit.json: skipped: its format is \"boxproof-asbuilt/1\", not \"boxproof-design/1\"\n");
}

TEST_CASE(
    "a broken design stops none of the others; its problems are told in its place, and the status is 3") {
  const Folder folder;
  folder.put("a.json", hazard);
  folder.put("b.json", bad);
  folder.put("c.json", sound);
  folder.put("d.json", "{\"format\": \"boxproof-design/1\",");
  const Called c = call({"check", ".", "--fail-on", "hazard"}, {"", false, {}, folder.root()});
  INFO(c.err);
  CHECK(c.status == 3);  // which outranks the hazard's 1
  const Strings told = lines_of(c.err);
  REQUIRE(told.size() == 6);
  CHECK(told[0].starts_with("b.json:1:"));
  CHECK(told[1].starts_with("b.json:1:"));
  CHECK(told[2] == "b.json: 2 problems, not judged");
  CHECK(told[3].starts_with("d.json:1:"));
  CHECK(told[4] == "d.json: 1 problem, not judged");
  CHECK(told[5] == "boxproof: 2 designs judged, 2 not");
  CHECK(stand_in_order(c.out, {"4 designs, 2 not judged\n", "[fuse/over-module-limit]", "\nDESIGNS\n", "stop",
                               "a.json\n", "not judged", "b.json\n", "accept", "c.json\n", "not judged",
                               "d.json\n", "Designs: 1 to stop, 1 to accept; 2 not judged\n"}));
  const Called all = call({"check", "b.json", "d.json"}, {"", false, {}, folder.root()});
  CHECK(all.status == 3);
  CHECK(lines_of(all.err).back() == "boxproof: nothing was judged");
}

TEST_CASE("a run that finds no design is an error, and so is each argument that leads to none") {
  const Folder folder;
  folder.put("empty/.hidden.json", sound);
  folder.put("other/visit.json", record);
  folder.put("s/a.json", sound);
  const Surroundings here{"", false, {}, folder.root()};
  const Called empty = call({"check", "empty"}, here);
  CHECK(empty.status == 3);
  CHECK(empty.err ==
        "empty: found no design there, expected at least one JSON file that says boxproof-design/1\n"
        "empty: 1 problem, not judged\nboxproof: nothing was judged\n");
  const Called other = call({"check", "other"}, here);
  CHECK(other.status == 3);
  CHECK(other.complains("other: found no design there (1 file was skipped; --verbose says why), expected"));
  const Called among = call({"check", "s", "empty"}, here);
  CHECK(among.status == 3);
  CHECK(among.complains("empty: found no design there"));
  CHECK(among.says("s/a.json\n"));
  CHECK(call({"check", "oth*/*.json", "s"}, here).complains("oth*/*.json: found no design there (1 file"));
  const Called nothing = call({"check", "s/z*.json", "s"}, here);
  CHECK(nothing.status == 2);
  CHECK(nothing.err == "boxproof: found no file that matches \"s/z*.json\", expected at least one\n");
  // What another argument has found already is there all the same.
  CHECK(call({"check", "s", "s/a.json", "s/*.json"}, here).status == 0);
}

TEST_CASE("a file that is named is expected to be a design") {
  const Folder folder;
  folder.put("a.json", sound);
  folder.put("visit.json", record);
  const Surroundings here{"", false, {}, folder.root()};
  const Called c = call({"check", "a.json", "visit.json", "none.json"}, here);
  CHECK(c.status == 3);
  CHECK(c.complains(
      "visit.json:1:12: /format: found text \"boxproof-asbuilt/1\", expected \"boxproof-design/1\""));
  CHECK(c.complains("none.json: cannot be read (No such file or directory)"));
  CHECK(c.says("a.json\n"));
}

TEST_CASE("a design whose amendments cannot be read is not judged, the others are") {
  const Folder folder;
  folder.put("a.json", sound);
  folder.put("b.json", with({{"code", {{"amendments", "local.json"}}}}).dump());
  folder.put("c.json", with({{"code", {{"amendments", "good.txt"}}}}).dump());
  folder.put("good.txt", R"({"voltage": {"limits": {"building": {"max_v": 500}}}})");
  const Called c = call({"check", "."}, {"", false, {}, folder.root()});
  CHECK(c.status == 3);
  CHECK(c.err ==
        "local.json: cannot be read (No such file or directory); expected a file that can; check the path\n"
        "b.json: 1 problem, not judged\nboxproof: 2 designs judged, 1 not\n");
  CHECK(c.says("Amended locally: voltage.limits.building.max_v"));
}

TEST_CASE("standard input among many: once, in its place") {
  const Folder folder;
  folder.put("a.json", sound);
  folder.put("z.json", sound);
  const Surroundings with_hazard{hazard, false, {}, folder.root()};
  for (const Strings& arguments :
       std::vector<Strings>{{"check", "z.json", "-", "a.json"}, {"check", "z.json", "-", "a.json", "-"}}) {
    const Called c = call(arguments, with_hazard);
    CHECK(c.status == 1);
    CHECK(stand_in_order(c.out, {"\n<stdin> ", "DESIGNS", "  z.json\n", "  <stdin>\n", "  a.json\n"}));
  }
  const Called broken = call({"check", "a.json", "-"}, {"{", false, {}, folder.root()});
  CHECK(broken.status == 3);
  CHECK(broken.complains("<stdin>: 1 problem, not judged\n"));
  const Called twice = call({"check", "a.json", "-", "--exceptions", "-"}, with_hazard);
  CHECK(twice.status == 2);
  CHECK(twice.complains("found - for both the design and the agreed exceptions, expected it once"));
}

TEST_CASE("what is of one site does not go with many designs") {
  const Folder folder;
  folder.put("a.json", sound);
  folder.put("b.json", sound);
  folder.put("visit.txt", record);
  const Surroundings here{"", false, {}, folder.root()};
  CHECK(
      call({"check", "a.json", "b.json", "--asbuilt", "visit.txt"}, here).err ==
      "boxproof: found --asbuilt with a folder, a pattern or more than one design, expected one design file: "
      "a field record is of one site\n");
  const Called box = call({"check", ".", "--box", "A-01"}, here);
  CHECK(box.status == 2);
  CHECK(box.complains("found --box with a folder"));
  CHECK(call({"check", "a.json", "a.json", "--box", "A-01"}, here).status == 2);
  CHECK(call({"check", "a.json", "--box", "A-01", "--asbuilt", "visit.txt"}, here).status != 2);
  const Called html = call({"check", ".", "--format", "html"}, here);
  CHECK(html.status == 2);
  CHECK(html.out.empty());
  CHECK(html.complains(
      "found html of more than one design for standard output, expected a folder, with a page a "
      "design in it: --format html --output reports/"));
  CHECK(call({"check", ".", "--report", "html=x.html"}, here).complains("--report html=x.html/"));
  CHECK(call({"check", ".", "--format", "text", "--report", "html=x.html"}, here).status == 2);
  CHECK_FALSE(fs::exists(folder.path("x.html")));
}

TEST_CASE("the command line's changes are told for each design, and marked in the table") {
  const Folder folder;
  folder.put("a.json", sound);
  folder.put("b.json", hazard);
  const Called c = call({"check", ".", "--edition", "2020"}, {"", false, {}, folder.root()});
  CHECK(c.says("  Changed on the command line: code.edition is 2020 (the file says 2017)\n"));
  CHECK(c.says("  accept *"));
  CHECK(c.says("  stop *"));
  CHECK(c.says("* judged with values that the command line, settings or local amendments\n"));
  const Called plain = call({"check", "."}, {"", false, {}, folder.root()});
  CHECK_FALSE(plain.says("*"));
}

TEST_CASE("agreed exceptions: a design whose findings are all set aside has its section and a mark") {
  const Folder folder;
  folder.put("a.json", sound);
  folder.put("b.json", with_box({{"disconnect", {{"distance_m", 30}}}}).dump());
  folder.put("agreed.txt",
             R"({"format": "boxproof-exceptions/1", "exceptions": [{"rule": "disconnect/too-far",
    "boxes": ["*"], "reason": "in sight", "agreed_by": "office", "date": "2027-01-01"}]})");
  const Surroundings here{"", false, {}, folder.root()};
  CHECK(call({"check", "."}, here).status == 1);
  const Called c = call({"check", ".", "--exceptions", "agreed.txt", "--on", "2027-02-01"}, here);
  INFO(c.out);
  CHECK(c.status == 0);
  CHECK(stand_in_order(c.out,
                       {"\nb.json ", "FINDINGS: none", "AGREED EXCEPTIONS", "\nDESIGNS\n", "  accept †"}));
  CHECK(c.says("† with findings that agreed exceptions set aside\n"));
  CHECK(c.out.find("\na.json ") == std::string::npos);
}

// Each design alone and all in one run: the same findings, byte for byte.
TEST_CASE("a run over many random designs finds what as many runs of one find") {
  const Folder folder;
  Strings alone;
  constexpr std::size_t count = 60;
  int worst = 0;
  for (std::uint32_t seed = 0; seed < count; ++seed) {
    RandomSite site(seed);
    Json design = site.design();
    const std::string path = "s/" + std::to_string(1000 + seed) + ".json";
    folder.put(path, seed % 13 == 5 ? "{\"format\": \"boxproof-design/1\"" : design.dump());
    const Called c = call({"check", path, "--format", "json"}, {"", false, {}, folder.root()});
    alone.push_back(c.out);
    worst = std::max(worst, c.status);
  }
  REQUIRE(worst == 3);
  const Strings command{"check", "s", "--format", "json", "--output", "out/", "--report", "text=all.txt"};
  std::string text, err;
  for (int times = 0; times < 3; ++times) {
    const Called c = call(command, {"", false, {}, folder.root()});
    CHECK(c.status == worst);
    CHECK(c.out.empty());
    if (times > 0) {
      CHECK(folder.get("all.txt") == text);
      CHECK(c.err == err);
    }
    text = folder.get("all.txt");
    err = c.err;
    for (std::uint32_t seed = 0; seed < count; ++seed) {
      CAPTURE(seed);
      CHECK(folder.get("out/s/" + std::to_string(1000 + seed) + ".json") == alone[seed]);
    }
  }
}

TEST_CASE("names of files do no harm, on the terminal, in the table and in a letter") {
  for (const Hostile& hostile : hostile_texts()) {
    std::string name = hostile.text.substr(0, 200);
    while (!name.empty() && (name.back() & 0xC0) == 0x80) name.pop_back();  // cut within a character
    if (!name.empty() && static_cast<unsigned char>(name.back()) >= 0xC0) name.pop_back();
    std::replace(name.begin(), name.end(), '/', '_');
    const Folder folder;
    folder.put("x" + name + "1.json", hazard);
    folder.put("x" + name + "2.json", bad);
    folder.put("x" + name + "3.json", record);
    CAPTURE(std::string(hostile.what));
    for (const Strings& more : std::vector<Strings>{{}, {"--format", "markdown"}, {"--color", "always"}}) {
      Strings arguments{"check", ".", "--verbose"};
      arguments.insert(arguments.end(), more.begin(), more.end());
      const Called c = call(arguments, {"", false, {}, folder.root()});
      CHECK(c.status == 3);
      CHECK(harm_in(c.err) == "");
      CHECK(harm_in(without_colour(c.out)) == "");
      for (const std::string& line : lines_of(c.err)) CHECK_FALSE(line.starts_with("boxproof: accept"));
      if (more.empty()) CHECK(too_wide(c.out) == Strings{});
    }
  }
}

TEST_CASE("no name begins a line of a log as a command of a workflow does") {
  const Folder folder;
  folder.put("::error::a.json",
             with({{"site", {{"name", "::warning::b"}, {"temperature_source", nullptr}}}}).dump());
  folder.put("::error::b.json", bad);
  folder.put("::error::c.json", record);
  folder.put(std::string(60, 'x') + "/::error::d.json", sound);
  for (const Strings& more : std::vector<Strings>{{}, {"--format", "markdown"}}) {
    Strings arguments{"check", ".", "--verbose"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const Called c = call(arguments, {"", false, {}, folder.root()});
    CHECK(c.status == 3);
    CHECK(c.says(":warning::b"));
    for (const std::string& line : lines_of(c.out + c.err)) {
      CAPTURE(line);
      CHECK(line.substr(std::min(line.find_first_not_of(' '), line.size())).rfind("::", 0) != 0);
    }
  }
}

TEST_CASE("a folder or a file in the run that cannot be read: the others are judged, the status is 3") {
  const Folder folder;
  folder.put("a.json", sound);
  folder.put("file.json", record);  // nobody can tell that it is no design
  folder.put("locked/b.json", sound);
  fs::permissions(folder.path("file.json"), fs::perms::none);
  fs::permissions(folder.root(), fs::perms::all);
  fs::permissions(folder.path("locked"), fs::perms::none);
  if (const AsNobody nobody; nobody) {
    const Called c = call({"check", "."}, {"", false, {}, folder.root()});
    CHECK(c.status == 3);
    CHECK(c.complains("locked: cannot be looked through (Permission denied)"));
    CHECK(c.complains("file.json: cannot be read (Permission denied)"));
    CHECK(c.complains("file.json: 1 problem, not judged\n"));
    CHECK(c.complains("locked: 1 problem, not judged\nboxproof: 1 design judged, 2 not\n"));
    CHECK(c.says("  a.json\n"));
    const Called alone = call({"check", "locked"}, {"", false, {}, folder.root()});
    CHECK(alone.status == 3);
    CHECK(alone.complains("locked: cannot be looked through (Permission denied)"));
  }
  fs::permissions(folder.path("locked"), fs::perms::all);
}

TEST_CASE("the line of progress counts designs") {
  const Folder folder;
  for (int i = 0; i < 30; ++i) folder.put("s/" + std::to_string(10 + i) + ".json", i == 20 ? bad : sound);
  std::istringstream in;
  std::ostringstream out, err;
  std::chrono::milliseconds now{0};
  cli::Console console{in,
                       out,
                       err,
                       false,
                       [](const char*) { return std::nullopt; },
                       {},
                       true,
                       [&] { return now += std::chrono::milliseconds(300); }};
  CHECK(cli::run({"check", folder.path("s")}, console) == 3);
  const std::string shown = err.str();
  CHECK(shown.find("checking  ") != std::string::npos);
  CHECK(shown.find(" of 30 designs") != std::string::npos);
  // What is told stands on lines of its own, and nothing of the line is left.
  const auto told = shown.find(folder.path("s/30.json:1:"));
  REQUIRE(told != std::string::npos);
  CHECK(shown[told - 1] == '\r');
  CHECK(shown.ends_with("boxproof: 29 designs judged, 1 not\n"));
}
