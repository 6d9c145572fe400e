// Where reports go: several at once, folders of them; no two in one place, none over an input.
#include "src/cli/outputs.hpp"

#include <filesystem>

#include "src/cli/case.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;
namespace fs = std::filesystem;

namespace {

using Strings = std::vector<std::string>;
const std::string sound = sound_design().dump();
const std::string hazard = with_box({{"fuse", {{"a", 30}}}}).dump();

Called here(const Folder& folder, const Strings& arguments) {
  return call(arguments, {"", false, {}, folder.root()});
}

}  // namespace

TEST_CASE("the path of a design's report in a folder") {
  const auto path = [](const char* format, const char* design) {
    return cli::path_in({format, "out/"}, design);
  };
  CHECK(path("html", "a.json") == "out/a.html");
  CHECK(path("text", "s/b.json") == "out/s/b.txt");
  CHECK(path("markdown", "./s/../t/b.json") == "out/t/b.md");
  CHECK(path("json", "../../x/b.json") == "out/x/b.json");
  CHECK(path("sarif", "/abs/b.json") == "out/abs/b.sarif");
  CHECK(path("junit", "v1.2.json") == "out/v1.2.xml");
  CHECK(path("annotations", "a") == "out/a.log");
  CHECK(path("html", "plan.2") == "out/plan.2.html");  // not the plan.html of plan.1
  CHECK(path("html", "-") == "out/stdin.html");
  CHECK(path("html", "<stdin>") == "out/stdin.html");
}

TEST_CASE("one design, several reports: each is what a run for it alone writes") {
  const Folder folder;
  folder.put("a.json", hazard);
  const Called c = here(folder, {"check", "a.json", "--format", "json", "--report", "text=t.txt", "--report",
                                 "html=h.html", "--report", "markdown=-", "--output", "j.json"});
  CHECK(c.status == 1);
  CHECK(c.err.empty());
  CHECK(c.out == here(folder, {"check", "a.json", "--format", "markdown"}).out);
  CHECK(folder.get("j.json") == here(folder, {"check", "a.json", "--format", "json"}).out);
  CHECK(folder.get("t.txt") == here(folder, {"check", "a.json"}).out);
  CHECK(folder.get("h.html") == here(folder, {"check", "a.json", "--format", "html"}).out);
}

TEST_CASE("only text on a terminal is coloured, not that in a file beside it") {
  const Folder folder;
  folder.put("a.json", hazard);
  const Surroundings terminal{"", true, {{"TERM", "xterm"}}, folder.root()};
  const Called c = call({"check", "a.json", "--report", "markdown=m.md"}, terminal);
  CHECK(c.says("\x1b["));
  call({"check", "a.json", "--format", "markdown", "--report", "text=t.txt"}, terminal);
  CHECK(folder.get("t.txt").find('\x1b') == std::string::npos);
  CHECK(call({"check", "a.json", "--format", "markdown", "--output", "m.md", "--report", "text=-"}, terminal)
            .says("\x1b["));
}

TEST_CASE("two reports for one place are wrong use, however the place is written") {
  const Folder folder;
  folder.put("a.json", sound);
  for (const Strings& more : std::vector<Strings>{{"--report", "markdown=-"},
                                                  {"--report", "markdown=x", "--report", "json=x"},
                                                  {"--report", "markdown=x", "--report", "json=./x"},
                                                  {"--report", "markdown=out/", "--report", "markdown=out/"},
                                                  {"--output", "out/a.html", "--report", "html=out/"}}) {
    Strings arguments{"check", "a.json"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    CAPTURE(more);
    const Called c = here(folder, arguments);
    CHECK(c.status == 2);
    CHECK(c.out.empty());
    CHECK(folder.names() == Strings{"a.json"});
  }
  CHECK(here(folder, {"check", "a.json", "--report", "markdown=out/", "--report", "html=out/"}).status == 0);
}

TEST_CASE("--report is read with care") {
  const auto about = [](const char* value) { return cli::about_report(value); };
  CHECK(about("sarif=x") == "");
  CHECK(about("text=-") == "");
  CHECK(about("text=a=b") == "");
  CHECK(
      about("sarf=x") ==
      "found \"sarf=x\", expected FORMAT=FILE with a format out of text, html, markdown, json, sarif, junit, "
      "annotations; did you mean \"sarif\"?");
  CHECK(about("sarif") == "found \"sarif\", expected a file behind it, such as sarif=FILE");
  CHECK(about("sarif=") == "found \"sarif=\", expected a file behind it, such as sarif=FILE");
}

TEST_CASE("a folder of reports: a file a design, with its path; folders are made on the way") {
  const Folder folder;
  folder.put("s/a.json", sound);
  folder.put("s/t/b.json", hazard);
  folder.put("s/t/bad.json", R"({"combiners": []})");
  folder.put("s/visit.json", R"({"format": "boxproof-asbuilt/1", "boxes": []})");
  const Called c = here(folder, {"check", "s", "--report", "html=out/pages/", "--report", "markdown=out/",
                                 "--report", "json=out/"});
  CHECK(c.status == 3);
  CHECK(c.says("DESIGNS"));
  CHECK(fs::exists(folder.path("out/pages/s/t/b.html")));
  CHECK_FALSE(fs::exists(folder.path("out/pages/s/t/bad.html")));  // as a run of it alone writes none
  CHECK_FALSE(fs::exists(folder.path("out/s/visit.json")));
  for (const char* design : {"s/a", "s/t/b"}) {
    const std::string path = std::string(design) + ".json";
    CHECK(folder.get("out/pages/" + std::string(design) + ".html") ==
          here(folder, {"check", path, "--format", "html"}).out);
    CHECK(folder.get("out/" + std::string(design) + ".md") ==
          here(folder, {"check", path, "--format", "markdown"}).out);
    CHECK(folder.get("out/" + path) == here(folder, {"check", path, "--format", "json"}).out);
  }
  // One design, by its name, the same.
  CHECK(here(folder, {"check", "s/a.json", "--format", "html", "--output", "one/"}).status == 0);
  CHECK(folder.get("one/s/a.html") == folder.get("out/pages/s/a.html"));
}

TEST_CASE("two designs never land on one path") {
  const Folder folder;
  folder.put("x/s/a.json", sound);
  folder.put("s/a.json", hazard);
  const Surroundings around{"", false, {}, folder.path("x")};
  const Called c = call({"check", "s/a.json", "../s/a.json", "--format", "html", "--output", "out/"}, around);
  CHECK(c.status == 2);
  CHECK(c.err ==
        "boxproof: found the html report of s/a.json and the html report of ../s/a.json that would both be "
        "written to out/s/a.html, expected a file for each; give them other paths, or check the designs in "
        "several runs\n");
  CHECK_FALSE(fs::exists(folder.path("x/out")));
  CHECK(call({"check", "s/a.json", "../s/a.json"}, around).status == 1);
}

TEST_CASE("an output never takes the place of an input, found in whatever way") {
  const Folder folder;
  folder.put("s/a.json", sound);
  folder.put("s/b.json", hazard);
  fs::create_directory_symlink("s", folder.path("link"));
  folder.put("agreed.json", R"({"format": "boxproof-exceptions/1", "exceptions": []})");
  const auto state = [&] {
    return folder.get("s/a.json") + folder.get("s/b.json") + folder.get("agreed.json");
  };
  const std::string before = state();
  for (const Strings& arguments : std::vector<Strings>{
           {"check", "s", "--output", "s/b.json"},
           {"check", "s", "--output", "link/b.json"},
           {"check", "s", "--report", "markdown=s/../s/a.json"},
           {"check", "s/a.json", "s/b.json", "--output", "s/b.json"},
           {"check", "s/*.json", "--output", "s/b.json"},
           {"check", "s/a.json", "--format", "json", "--output", "./"},  // the folder in which it stands
           {"check", "s", "--format", "json", "--output", "./"},
           {"check", "link", "s", "--report", "json=./"},
           {"check", "s", "--exceptions", "agreed.json", "--on", "2027-01-01", "--output", "agreed.json"}}) {
    CAPTURE(arguments);
    const Called c = here(folder, arguments);
    INFO(c.err);
    CHECK(c.status == 2);
    CHECK(c.complains("it would be lost"));
    CHECK(state() == before);
  }
  folder.put("t/local.json", R"({"conductor": {"voltage_drop": {"max_pct": 1.5}}})");
  folder.put("t/c.json", with({{"code", {{"amendments", "local.json"}}}}).dump());
  CHECK(here(folder, {"check", "t", "--output", "t/local.json"}).status == 2);
  CHECK(folder.get("t/local.json").find("1.5") != std::string::npos);
}

TEST_CASE("a report in the folder that is looked through is none of its designs, and changes no later run") {
  const Folder folder;
  folder.put("s/a.json", sound);
  folder.put("s/b.json", hazard);
  const Strings command{"check",       "s",        "--format",    "markdown", "--output",
                        "s/list.json", "--report", "json=s/out/", "--report", "text=-"};
  const Called first = here(folder, command);
  CHECK(first.status == 1);
  CHECK(fs::exists(folder.path("s/out/s/a.json")));
  const std::string list = folder.get("s/list.json"), json = folder.get("s/out/s/b.json");
  const Called second = here(folder, command);
  CHECK(second.out == first.out);
  CHECK(second.err.empty());
  CHECK(folder.get("s/list.json") == list);
  CHECK(folder.get("s/out/s/b.json") == json);
  CHECK_FALSE(second.says("skipped"));
  // Another run, that does not write them, passes them over and says how many they were.
  CHECK(here(folder, {"check", "s"}).says("; 3 files skipped, which are no designs\n"));
  // What stands in such a place and is a design after all stays.
  folder.put("s/out/s/a.json", hazard);
  const Called lost = here(folder, command);
  CHECK(lost.status == 2);
  CHECK(
      lost.complains("found s/out/s/a.json, which is an input, where the json report of s/a.json would be"));
  CHECK(folder.get("s/out/s/a.json") == hazard);
}

TEST_CASE("targets appear whole or not at all") {
  const Folder folder;
  folder.put("a.json", sound);
  folder.put("out", "a file");
  const Called c = here(folder, {"check", "a.json", "--format", "html", "--output", "out/"});
  CHECK(c.status == 2);
  CHECK(c.complains("cannot make the folder out"));
  CHECK(folder.names() == Strings{"a.json", "out"});
  const Called many = here(folder, {"check", ".", "--report", "html=out/"});
  CHECK(many.status == 2);  // what a worker throws comes out
  CHECK(many.complains("cannot make the folder out"));
  CHECK(here(folder, {"check", ".", "--output", "none/x.txt"}).status == 2);
  CHECK(folder.names() == Strings{"a.json", "out"});
}

TEST_CASE("a dash behind --output is standard output") {
  const Folder folder;
  folder.put("a.json", sound);
  CHECK(here(folder, {"check", "a.json", "--output", "-"}).out == here(folder, {"check", "a.json"}).out);
  CHECK(folder.names() == Strings{"a.json"});
}
