// .boxproof.json: where it is looked for, what each key does, and that the command line wins.
#include "boxproof/settings.hpp"

#include <algorithm>
#include <filesystem>

#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/hostile.hpp"

using namespace boxproof;
using namespace boxproof::test;
namespace fs = std::filesystem;

namespace {

using Strings = std::vector<std::string>;

const std::string sound = sound_design().dump();
const std::string hazard = with_box({{"fuse", {{"a", 30}}}}).dump();
const std::string query = with({{"site", {{"temperature_source", nullptr}}}}).dump();

// A folder with settings, in which a ' stands for the " of JSON, and a design.
struct WithSettings {
  Folder folder;
  explicit WithSettings(const std::string& keys, const std::string& design = sound) {
    folder.put(".boxproof.json",
               as_json("{'format': 'boxproof-settings/1'" + (keys.empty() ? "" : ", " + keys) + "}"));
    folder.put("a.json", design);
  }
  Called run(const Strings& arguments, const std::string& below = "") const {
    return call(arguments, {"", false, {}, below.empty() ? folder.root() : folder.path(below)});
  }
};

Strings problems(const std::string& text) {
  try {
    read_settings({"s.json", as_json(text)});
  } catch (const InputError& e) {
    Strings out;
    for (const Problem& p : e.problems()) out.push_back(to_text(p));
    return out;
  }
  return {};
}

}  // namespace

TEST_CASE("without a working folder, or without a file, there are no settings") {
  const WithSettings site("'edition': '2020'");
  CHECK_FALSE(call({"check", site.folder.path("a.json")}).says("code.edition"));
  const Folder none;
  none.put("a.json", sound);
  CHECK(call({"check", "a.json"}, {"", false, {}, none.root()}).status == 0);
}

TEST_CASE("edition, temperatures: told as changed by the settings; the command line wins") {
  const WithSettings site("'edition': '2020', 'low_c': -20, 'high_c': 41");
  for (const Strings& command : std::vector<Strings>{{"check", "a.json"}, {"box", "a.json", "A-01"}}) {
    const Called c = site.run(command);
    CHECK(c.says("Changed: code.edition is 2020 (the file says 2017; by .boxproof.json)"));
    CHECK(c.says("Changed: site.low_c is −20 °C (the file says −10 °C; by .boxproof.json)"));
    CHECK(c.says("Changed: site.high_c is 41 °C (the file says 36 °C; by .boxproof.json)"));
  }
  CHECK(site.run({"labels", "a.json"}).says("code.edition is 2020"));
  CHECK(site.run({"labels", "a.json"}).says("site.low_c is −20 °C"));
  CHECK_FALSE(site.run({"labels", "a.json"}).says("high_c"));  // for which it has no use
  CHECK(site.run({"tally", "a.json"}).says("site.high_c is 41 °C"));
  const Json report = Json::parse(site.run({"check", "a.json", "--format", "json"}).out);
  CHECK(report["code"]["edition"] == "2020");
  CHECK(report["code"]["overrides"][0] == "code.edition is 2020 (the file says 2017; by .boxproof.json)");

  const Called wins = site.run({"check", "a.json", "--edition", "2014", "--low-c", "-15", "--high-c=38"});
  CHECK(wins.says("Changed on the command line: code.edition is 2014 (the file says 2017)\n"));
  CHECK(wins.says("Changed on the command line: site.low_c is −15 °C (the file says −10 °C)\n"));
  CHECK(wins.says("Changed on the command line: site.high_c is 38 °C (the file says 36 °C)\n"));
  CHECK_FALSE(wins.says("boxproof.json"));
  // The command line may give back what the file of the site has.
  CHECK_FALSE(site.run({"check", "a.json", "--edition", "2017", "--low-c", "-10", "--high-c", "36"})
                  .says("code.edition is"));
  CHECK_FALSE(site.run({"check", "a.json", "--no-settings"}).says("Changed"));
}

TEST_CASE("fail_on decides the status, and changes nothing that is shown") {
  const WithSettings site("'fail_on': 'query'", query);
  const Called plain = site.run({"check", "a.json", "--no-settings"});
  CHECK(plain.status == 0);
  const Called c = site.run({"check", "a.json"});
  CHECK(c.status == 1);
  CHECK(c.out == plain.out);
  CHECK(site.run({"check", "a.json", "--fail-on", "correction"}).status == 0);
  CHECK(site.run({"labels", "a.json"}).status == 0);  // which has no such option
}

TEST_CASE("exceptions and amendments stand beside the settings, wherever the run is") {
  const WithSettings site("'exceptions': 'own/agreed.txt', 'amendments': 'own/local.txt'",
                          with_box({{"disconnect", {{"distance_m", 30}}}}).dump());
  site.folder.put("own/agreed.txt", R"({"format": "boxproof-exceptions/1", "exceptions": [
    {"rule": "disconnect/too-far", "boxes": ["*"], "reason": "in sight", "agreed_by": "office",
     "date": "2027-01-01"}]})");
  site.folder.put("own/local.txt", R"({"conductor": {"voltage_drop": {"max_pct": 1.25}}})");
  site.folder.put("deep/er/note", "");
  const Called c = site.run({"check", "../../a.json", "--on", "2027-02-01"}, "deep/er");
  INFO(c.out << c.err);
  CHECK(c.status == 0);
  CHECK(c.says("AGREED EXCEPTIONS"));
  CHECK(c.says("conductor.voltage_drop.max_pct (1.25 in place of 2)"));
  const std::string page = site.run({"check", "a.json", "--on", "2027-02-01", "--format", "markdown"}).out;
  CHECK(page.find("code.amendments are those of own/local.txt (the file states none; by .boxproof.json)") !=
        std::string::npos);
  for (const char* command : {"labels", "tally"})
    CHECK(site.run({command, "a.json"}).says("code.amendments are those of own/local.txt"));
  // The command line's paths are from where the run is.
  site.folder.put("other.txt", R"({"format": "boxproof-exceptions/1", "exceptions": []})");
  CHECK(site.run({"check", "a.json", "--exceptions", "other.txt", "--on", "2027-02-01"}).status == 1);
  site.folder.put("two.txt", R"({"conductor": {"voltage_drop": {"max_pct": 1.75}}})");
  CHECK(site.run({"check", "a.json", "--format", "markdown", "--amendments", "two.txt", "--on", "2027-02-01"})
            .says("command line: code.amendments are those of two.txt (the file states none)\n"));
  fs::remove(site.folder.path("own/agreed.txt"));
  const Called gone = site.run({"check", "a.json", "--on", "2027-02-01"});
  CHECK(gone.status == 3);
  CHECK(gone.complains("own/agreed.txt: cannot be read"));
  CHECK(site.run({"check", "a.json", "--no-settings"}).status == 1);
  CHECK(site.run({"check", "a.json", "--no-settings", "--on", "2027-02-01"}).status == 2);
}

TEST_CASE("designs: what is judged where the command line names nothing") {
  const WithSettings site("'designs': ['s', 'more/*.json', 'b.json']");
  site.folder.put("s/one.json", sound);
  site.folder.put("more/two.json", hazard);
  site.folder.put("b.json", sound);
  const Called c = site.run({"check"});
  CHECK(c.status == 1);
  for (const char* path : {"  s/one.json\n", "  more/two.json\n", "  b.json\n"}) {
    CAPTURE(path);
    CHECK(c.says(path));
  }
  CHECK(site.run({"check"}, "s").says("  ../more/two.json\n"));
  CHECK_FALSE(site.run({"check", "a.json"}).says("two.json"));
  CHECK(site.run({"check", "--no-settings"}).status == 2);
  CHECK(site.run({"check", "--no-settings"}).complains("found no DESIGN"));
  CHECK(site.run({"box"}).status == 2);
  const WithSettings one("'designs': ['a.json']");  // as if it were named: the report of one design
  CHECK(one.run({"check"}).out == one.run({"check", "a.json"}).out);
  const WithSettings dash("'designs': ['-']");  // a file of that name: settings are no command line
  CHECK(dash.run({"check"}).complains("./-: cannot be read"));
}

TEST_CASE("formats: several reports, replaced whole by the command line") {
  const WithSettings site("'formats': {'json': 'build/r.json', 'text': '-', 'html': 'build/pages/'}", hazard);
  fs::create_directory(site.folder.path("build"));
  const std::string text = site.run({"check", "a.json", "--no-settings"}).out;
  const std::string json = site.run({"check", "a.json", "--no-settings", "--format", "json"}).out;
  CHECK(site.run({"check", "a.json"}).out == text);
  CHECK(site.folder.get("build/r.json") == json);
  CHECK(fs::exists(site.folder.path("build/pages/a.html")));
  const auto files = [&] {
    Strings out;
    for (const auto& entry : fs::recursive_directory_iterator(site.folder.path("build")))
      out.push_back(entry.path().filename());
    return out;
  };
  for (const Strings& more :
       std::vector<Strings>{{"--format", "json"}, {"--output", "t.txt"}, {"--report", "markdown=m.md"}}) {
    fs::remove_all(site.folder.path("build"));
    fs::create_directory(site.folder.path("build"));
    Strings arguments{"check", "a.json"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    CAPTURE(more);
    CHECK(site.run(arguments).status == 1);
    CHECK(files().empty());
  }
  CHECK(site.run({"check", "a.json", "--format", "json"}).out == json);
  CHECK(site.run({"box", "a.json", "A-01"}).out == site.run({"box", "a.json", "A-01", "--no-settings"}).out);
  CHECK(site.run({"labels", "a.json", "--format", "csv"}).status == 0);
  const WithSettings lower("'formats': {'text': 'r.txt'}");
  lower.folder.put("sub/b.json", sound);
  CHECK(lower.run({"check", "b.json"}, "sub").out.empty());
  CHECK(lower.folder.get("r.txt") == lower.run({"check", "b.json", "--no-settings"}, "sub").out);
}

TEST_CASE("show_work, for the command that has it") {
  const WithSettings site("'show_work': true", hazard);
  CHECK(site.run({"check", "a.json"}).out ==
        site.run({"check", "a.json", "--no-settings", "--show-work"}).out);
  CHECK(site.run({"check", "a.json"}).out != site.run({"check", "a.json", "--no-settings"}).out);
  const WithSettings no("'show_work': false, 'note': {'anything': 1}, '$schema': 'x.json'", hazard);
  CHECK(no.run({"check", "a.json"}).out == no.run({"check", "a.json", "--no-settings"}).out);
  CHECK(no.run({"check", "a.json", "--show-work"}).out == site.run({"check", "a.json"}).out);
}

TEST_CASE("the nearest settings count alone") {
  const WithSettings site("'edition': '2020', 'fail_on': 'query'", query);
  site.folder.put("sub/.boxproof.json", R"({"format": "boxproof-settings/1", "edition": "2014"})");
  site.folder.put("sub/deep/b.json", query);
  const Called above = site.run({"check", "a.json"});
  CHECK(above.status == 1);
  CHECK(above.says("code.edition is 2020"));
  const Called below = site.run({"check", "b.json"}, "sub/deep");
  CHECK(below.status == 0);
  CHECK(below.says("code.edition is 2014 (the file says 2017; by ../.boxproof.json)"));
  // They go by where the run is, not by where the design is.
  CHECK(site.run({"check", "sub/deep/b.json"}).says("code.edition is 2020"));
}

TEST_CASE("--verbose names the settings and what was used of them") {
  const WithSettings site("'edition': '2020', 'fail_on': 'query', 'low_c': -20");
  CHECK(site.run({"check", "a.json", "--verbose"}).err ==
        "boxproof: settings of .boxproof.json: edition, low_c, fail_on\n");
  CHECK(site.run({"check", "a.json", "--verbose", "--edition", "2017", "--fail-on", "query", "--low-c=-10"})
            .err == "boxproof: settings of .boxproof.json: nothing of them is used here\n");
  CHECK(site.run({"check", "a.json", "--verbose", "--no-settings"}).err.empty());
  CHECK(site.run({"check", "a.json"}).err.empty());
}

TEST_CASE("broken settings stop the commands that use them, and only these") {
  const WithSettings site("'editoin': '2020'");
  for (const Strings& command : std::vector<Strings>{
           {"check", "a.json"}, {"box", "a.json", "A-01"}, {"labels", "a.json"}, {"tally", "a.json"}}) {
    CAPTURE(command);
    const Called c = site.run(command);
    CHECK(c.status == 3);
    CHECK(c.out.empty());
    CHECK(c.err.starts_with(
        ".boxproof.json:1:35: /editoin: found the key \"editoin\", which is not known here; did "
        "you mean \"edition\"?; known keys are "));
    CHECK(c.complains("\nboxproof: 1 problem with the input; nothing was judged\n"));
    Strings without = command;
    without.push_back("--no-settings");
    CHECK(site.run(without).status == 0);
  }
  site.folder.put("r.txt", site.run({"check", "a.json", "--no-settings", "--format", "json"}).out);
  for (const Strings& command : std::vector<Strings>{
           {"rules"}, {"tables"}, {"schema", "settings"}, {"compare", "r.txt", "r.txt"}, {"--version"}})
    CHECK(site.run(command).status == 0);
  for (const char* text : {"", "{", "[]", "\xFF"}) {
    site.folder.put(".boxproof.json", text);
    CHECK(site.run({"check", "a.json"}).status == 3);
  }
  fs::remove(site.folder.path(".boxproof.json"));
  fs::create_symlink("nowhere", site.folder.path(".boxproof.json"));
  CHECK(
      site.run({"check", "a.json"}).complains(".boxproof.json: cannot be read (No such file or directory)"));
  fs::remove(site.folder.path(".boxproof.json"));
  fs::create_directory(site.folder.path(".boxproof.json"));
  CHECK(site.run({"check", "a.json"}).complains("found a directory, expected a file"));
}

TEST_CASE("what is wrong with settings, with the place and what was expected") {
  const std::string lead = "{'format': 'boxproof-settings/1', ";
  struct Row {
    std::string keys, problem;
  };
  const Row rows[] = {
      {"'edition': 2020", "/edition: found 2020, expected text in quotes"},
      {"'edition': '2016'",
       "/edition: found text \"2016\", expected one of \"2008\", \"2011\", \"2014\", \"2017\", \"2020\", \"2023\""},
      {"'low_c': '-9'",
       "/low_c: found text \"-9\", expected a number; write numbers without quotes and units"},
      {"'low_c': -71",
       "/low_c: found -71, expected a number of degrees Celsius from -70 to 30; check the unit and the decimal point"},
      {"'low_c': 31",
       "/low_c: found 31, expected a number of degrees Celsius from -70 to 30; check the unit and the decimal point"},
      {"'high_c': 101",
       "/high_c: found 101, expected a number of degrees Celsius from -70 to 100; check the unit and the decimal "
       "point"},
      {"'fail_on': 'warning'",
       "/fail_on: found text \"warning\", expected one of \"hazard\", \"correction\", \"query\", \"advice\""},
      {"'exceptions': ''",
       "/exceptions: found an empty text, expected the path of a file of agreed exceptions"},
      {"'amendments': {}", "/amendments: found an object, expected text in quotes"},
      {"'baseline': null",
       "/baseline: found null, expected text in quotes; leave the key out where the value is not known"},
      {"'designs': 'sites'", "/designs: found text \"sites\", expected a list […]"},
      {"'designs': []",
       "/designs: found an empty list, expected at least one design file, folder or pattern; leave the key out where "
       "the command line names the designs"},
      {"'designs': ['a', 5]", "/designs/1: found 5, expected text in quotes"},
      {"'designs': ['']",
       "/designs/0: found an empty text, expected a design file, a folder or a pattern (* ? [a-z])"},
      {"'formats': ['text']", "/formats: found a list, expected an object {…}"},
      {"'formats': {}", "/formats: found no format, expected at least one, such as \"text\": \"-\""},
      {"'formats': {'sarf': 'x'}",
       "/formats/sarf: found the key \"sarf\", which is not known here; did you mean \"sarif\"?; known keys are text, "
       "html, markdown, json, sarif, junit, annotations"},
      {"'formats': {'text': true}", "/formats/text: found true, expected text in quotes"},
      {"'formats': {'text': ''}",
       "/formats/text: found an empty text, expected a path, or \"-\" for standard output"},
      {"'formats': {'text': '-', 'json': '-'}",
       "/formats/json: found text \"-\", where the text report goes already, expected a place for each"},
      {"'show_work': 'yes'",
       "/show_work: found text \"yes\", expected true or false; write true or false without quotes"},
      {"'edition': '2017', 'edition': '2020'",
       "/edition: found the key \"edition\" a second time in one object"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.keys);
    const Strings told = problems(lead + row.keys + "}");
    REQUIRE(told.size() == 1);
    CHECK(told[0].starts_with("s.json:1:"));
    CHECK(told[0].find(": " + row.problem) != std::string::npos);
  }
  CHECK(problems("{}") == Strings{"s.json:1:1: found no \"format\", expected it here; it is required"});
  CHECK(
      problems("{'format': 'boxproof-design/1'}") ==
      Strings{
          "s.json:1:12: /format: found text \"boxproof-design/1\", expected \"boxproof-settings/1\"; is this a "
          "settings file?"});
  CHECK(problems(lead + "'low_c': 99, 'fail_on': 1, 'x': 1}").size() == 3);  // all at once
  for (const char* keys : {"'low_c': -70", "'low_c': 30", "'high_c': -70", "'high_c': 100"}) {
    CAPTURE(keys);
    CHECK(problems(lead + keys + "}").empty());
  }
}

TEST_CASE("the bounds of the settings are those of the options") {
  for (const auto& [option, key, values] :
       std::vector<std::tuple<std::string, std::string, std::vector<double>>>{
           {"--low-c", "low_c", {-70.1, -70, 30, 30.1}}, {"--high-c", "high_c", {-70.1, -70, 100, 100.1}}})
    for (const double value : values) {
      CAPTURE(option, value);
      const WithSettings site("'" + key + "': " + std::to_string(value));
      const bool refused = site.run({"check", "a.json"}).status == 3;
      const bool option_refused =
          site.run({"check", "a.json", "--no-settings", option + "=" + std::to_string(value)}).status == 2;
      CHECK(refused == option_refused);
    }
}

TEST_CASE("reports of the settings stay under their folder") {
  for (const char* path :
       {"/tmp/x", "../x", "a/../../x", "a/..", ".git/config", "a/.b", ".profile", "..", "a/.b/"}) {
    CAPTURE(path);
    const Strings told =
        problems(std::string("{'format': 'boxproof-settings/1', 'formats': {'text': '") + path + "'}}");
    REQUIRE(told.size() == 1);
    CHECK(told[0].find("/formats/text: found text \"" + std::string(path) +
                       "\", expected a path under the folder of this file (") != std::string::npos);
  }
  for (const char* path : {"-", "x", "./x", "a/b/c.txt", "a/", "a.b/c..d", "./"}) {
    CAPTURE(path);
    CHECK(problems(std::string("{'format': 'boxproof-settings/1', 'formats': {'text': '") + path + "'}}")
              .empty());
  }
  // Nor does a link lead out of it.
  const Folder elsewhere;
  elsewhere.put("kept.txt", "kept");
  const WithSettings site("'formats': {'text': 'out/kept.txt'}");
  fs::create_symlink(elsewhere.root(), site.folder.path("out"));
  const Called c = site.run({"check", "a.json"});
  CHECK(c.status == 3);
  CHECK(c.complains(
      ".boxproof.json:1:46: /formats: found the text report that would be written, by a link, to "));
  CHECK(elsewhere.get("kept.txt") == "kept");
  const WithSettings file("'formats': {'text': 'r.txt'}");
  fs::create_symlink(elsewhere.path("kept.txt"), file.folder.path("r.txt"));
  CHECK(file.run({"check", "a.json"}).status == 3);
  CHECK(elsewhere.get("kept.txt") == "kept");
  const WithSettings within("'formats': {'text': 'in/r.txt'}");
  fs::create_directory(within.folder.path("real"));
  fs::create_symlink("real", within.folder.path("in"));
  CHECK(within.run({"check", "a.json"}).status == 0);
  CHECK(fs::exists(within.folder.path("real/r.txt")));
  const WithSettings deep("'formats': {'json': 'pages/'}");
  deep.folder.put("s/kept.json", sound);
  elsewhere.put("kept.json", "kept");
  fs::create_directory(deep.folder.path("pages"));
  fs::create_symlink(elsewhere.root(), deep.folder.path("pages/s"));
  CHECK(deep.run({"check", "s/kept.json"}).status == 3);
  CHECK(deep.run({"check", "kept.json"}, "s").status == 0);
  CHECK(elsewhere.get("kept.json") == "kept");
}

TEST_CASE("an output of the settings takes the place of no input") {
  const WithSettings site("'formats': {'text': 'a.json'}");
  CHECK(site.run({"check", "a.json"}).status == 2);
  CHECK(site.run({"check", "."}).status == 2);
  CHECK(site.folder.get("a.json") == sound);
}

TEST_CASE("words of settings do no harm where they are told") {
  for (const Hostile& hostile : hostile_texts()) {
    CAPTURE(std::string(hostile.what));
    const std::string h = hostile.text;
    for (const Json& keys : std::vector<Json>{{{h, 1}},
                                              {{"edition", h}},
                                              {{"exceptions", h}},
                                              {{"designs", {h}}},
                                              {{"formats", {{h, "x"}}}},
                                              {{"formats", {{"text", "/" + h}}}}}) {
      Json settings = keys;
      settings["format"] = "boxproof-settings/1";
      const Folder folder;
      folder.put(".boxproof.json", settings.dump());
      folder.put("a.json", sound);
      const Called c = call({"check", "--verbose"}, {"", false, {}, folder.root()});
      CHECK(c.status >= 2);
      CHECK(harm_in(c.err) == "");
    }
  }
}

TEST_CASE("the settings that the README shows are read") {
  const std::string readme = read_file(BOXPROOF_SOURCE "/README.md");
  const auto at = readme.find("\"format\": \"boxproof-settings/1\"");
  REQUIRE(at != std::string::npos);
  const auto from = readme.rfind("```json\n", at) + 8, to = readme.find("```", at);
  const Settings s = read_settings({"README.md", readme.substr(from, to - from)});
  CHECK(s.designs == Strings{"sites"});
  CHECK(s.formats.size() == 2);
}

// The schema is what an editor helps with: it knows the keys that the reader knows, and its examples are
// read.
TEST_CASE("the schema of settings has the reader's keys, each with words and an example that is read") {
  const Json schema = Json::parse(call({"schema", "settings"}).out);
  Json whole = {{"format", "boxproof-settings/1"}};
  std::string keys;
  for (const auto& [key, about] : schema["properties"].items()) {
    CAPTURE(key);
    CHECK(about["description"].get<std::string>().size() > 10);
    REQUIRE(about["examples"].size() >= 1);
    whole[key] = about["examples"][0];
  }
  CHECK_NOTHROW(read_settings({"s.json", whole.dump()}));
  const Strings told = problems("{'format': 'boxproof-settings/1', 'zzz': 1}");
  REQUIRE(told.size() == 1);
  std::string known = told[0].substr(told[0].find("known keys are ") + 15);
  std::size_t n = 1 + static_cast<std::size_t>(std::count(known.begin(), known.end(), ','));
  CHECK(n + 1 == schema["properties"].size());  // and "note", which every object may have
  for (const auto& [key, about] : schema["properties"]["formats"]["properties"].items()) {
    CAPTURE(key);
    CHECK_NOTHROW(read_settings(
        {"s.json",
         Json{{"format", "boxproof-settings/1"}, {"formats", {{key, about["examples"][0]}}}}.dump()}));
  }
  CHECK(schema["properties"]["formats"]["properties"].size() == report_formats.size());
}
