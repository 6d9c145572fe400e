// The command `rules`: which rules, which editions, which format, and where it goes.
#include <algorithm>
#include <nlohmann/json.hpp>

#include "boxproof/edition.hpp"
#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Json = nlohmann::json;
using Strings = std::vector<std::string>;

Json rules_json(Strings arguments) {
  arguments.insert(arguments.begin(), {"rules", "--format", "json"});
  const Called c = call(arguments);
  REQUIRE(c.status == 0);
  REQUIRE(c.err.empty());
  return Json::parse(c.out);
}

Strings names(const Json& list, const char* of, const char* key) {
  Strings out;
  for (const Json& entry : list[of]) out.push_back(entry[key]);
  return out;
}

}  // namespace

TEST_CASE("rules: one rule in each format") {
  const Json one = rules_json({"fuse/poles"});
  CHECK(names(one, "rules", "id") == Strings{"fuse/poles"});
  CHECK(one["editions"].size() == edition_names.size());
  CHECK(call({"rules", "fuse/poles"}).says("\nWHAT IT FINDS\n"));
  CHECK(call({"rules", "fuse/poles", "--format", "text"}).out == call({"rules", "fuse/poles"}).out);
  CHECK(call({"rules", "fuse/poles", "--format", "markdown"}).says("\n## What it finds\n"));
}

TEST_CASE("rules: the editions that were asked for, oldest first and once each") {
  for (const auto& [asked, expected] :
       std::vector<std::pair<Strings, Strings>>{{{"--edition", "2017"}, {"2017"}},
                                                {{"--edition=2023", "--edition=2008"}, {"2008", "2023"}},
                                                {{"--edition=2011", "--edition=2011"}, {"2011"}},
                                                {{}, {edition_names.begin(), edition_names.end()}}}) {
    const Json list = rules_json(asked);
    CHECK(names(list, "editions", "edition") == expected);
    for (const Json& rule : list["rules"]) {
      Strings keys;
      for (const auto& [name, place] : rule["editions"].items()) keys.push_back(name);
      CHECK(keys == expected);
    }
  }
  const Called page = call({"rules", "fuse/poles", "--edition", "2014"});
  CHECK(page.says("  2014  "));
  CHECK_FALSE(page.says("  2017  "));
}

TEST_CASE("rules: the topics that were asked for", "[slow]") {
  for (const Rule* rule : all_rules()) {
    const std::string topic(rule->id.substr(0, rule->id.find('/')));
    const Strings ids = names(rules_json({"--topic", topic}), "rules", "id");
    CHECK(std::count(ids.begin(), ids.end(), rule->id) == 1);
    for (const std::string& id : ids) CHECK(id.starts_with(topic + "/"));
  }
  CHECK(names(rules_json({"--topic", "current", "--topic", "current"}), "rules", "id") ==
        Strings{"current/box-rating", "current/inverter-input", "current/inputs"});
  const Called two = call({"rules", "--topic", "site", "--topic", "tally"});
  CHECK(two.says("site/totals"));
  CHECK(two.says("tally/strings"));
  CHECK_FALSE(two.says("fuse/"));
}

TEST_CASE("rules: what goes to a file is what goes to the terminal") {
  const Folder folder;
  for (const std::string format : {"text", "markdown", "json"}) {
    const Called c = call({"rules", "--format", format, "--output", folder.path(format)});
    CHECK(c.status == 0);
    CHECK(c.out.empty());
    CHECK(folder.get(format) == call({"rules", "--format", format}).out);
  }
  const Called lost = call({"rules", "--output", folder.path("")});
  CHECK(lost.status == 2);
  CHECK(lost.complains("it is a directory"));
}

TEST_CASE("rules: wrong use") {
  for (const auto& [arguments, said] : std::vector<std::pair<Strings, std::string>>{
           {{"--format", "mardown"}, "did you mean \"markdown\"?"},
           {{"--format", "html"}, "expected one of text, markdown, json"},
           {{"--edition", "2016"}, "found \"2016\""},
           {{"--topic", "fuses"}, "did you mean \"fuse\"?"},
           {{"fuse/poles", "--topic", "fuse"}, "excludes"},
           {{"fuse/pole"}, "did you mean \"fuse/poles\"?"},
           {{"fuse/poles", "fuse/heat"}, "one argument too many"}}) {
    Strings whole{"rules"};
    whole.insert(whole.end(), arguments.begin(), arguments.end());
    const Called c = call(whole);
    CAPTURE(arguments);
    CHECK(c.status == 2);
    CHECK(c.out.empty());
    CHECK(c.complains(said));
  }
}
