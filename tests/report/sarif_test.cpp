// SARIF as a code host and other readers take it.
#include <set>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/region.hpp"
#include "tests/support/sarif.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

bool says(const Json& result, std::string_view text) {
  return result["message"]["text"].get<std::string>().find(text) != std::string::npos;
}

Json visit(const Json& box) {
  Json seen = box;
  seen["id"] = "A-01";
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({seen})}};
}

Json place_of(const Json& result) {
  return result["locations"][0]["physicalLocation"];
}

}  // namespace

TEST_CASE("a log begins with its schema and version") {
  SarifRun run;
  const auto judged = judge(sound_design());
  run.judged = {judged.get()};
  const std::string text = run.text();
  const auto schema = text.find("\"$schema\""), version = text.find("\"version\"");
  CHECK(schema < version);
  CHECK(version < text.find("\"runs\""));
  CHECK(text.substr(0, 4) == "{\n  ");
  CHECK(text.ends_with("}\n"));
  CHECK(run.text() == text);  // the same bytes each time
}

TEST_CASE("the rules are all rules in order, with their pages") {
  const Json log = sarif_log(*judge(sound_design()));
  const Json& driver = log["runs"][0]["tool"]["driver"];
  CHECK(driver["name"] == "boxproof");
  CHECK(driver["version"] == version());
  CHECK(driver["semanticVersion"] == version());
  CHECK_FALSE(driver.contains("informationUri"));
  CHECK(driver["fullDescription"]["text"].get<std::string>().find(caution()) != std::string::npos);
  std::set<std::string> names;
  const auto rules = all_rules();
  for (std::size_t i = 0; i < rules.size(); ++i) {
    const Rule& rule = *rules[i];
    const Json& told = driver["rules"][i];
    CAPTURE(std::string(rule.id));
    CHECK(told["id"] == rule.id);
    const std::string name = told["name"];
    CHECK(names.insert(name).second);
    CHECK((name.front() >= 'A' && name.front() <= 'Z'));
    CHECK(name.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789") ==
          std::string::npos);
    CHECK(told["shortDescription"]["text"] == rule.title);
    CHECK(told["fullDescription"]["text"] == rule.explain[0]);
    CHECK(told["fullDescription"]["text"].get<std::string>().size() <= 1024);  // what a code host takes
    const std::string help = told["help"]["text"], markdown = told["help"]["markdown"];
    for (const std::string_view edition : edition_names) {
      CHECK(help.find(edition) != std::string::npos);
      CHECK(markdown.find(edition) != std::string::npos);
    }
    CHECK(help.find("WHAT TO DO") != std::string::npos);
    CHECK(markdown.find("## What to do") != std::string::npos);
    CHECK(told["properties"]["tags"] == Json::array({std::string(rule.id.substr(0, rule.id.find('/')))}));
    // No text of ours is taken for a placeholder or a link.
    for (const std::string* text : {&help, &markdown}) CHECK(text->find_first_of("{}") == std::string::npos);
    CHECK(help.find("](") == std::string::npos);
  }
  CHECK(driver["rules"][0]["name"] != driver["rules"][1]["name"]);
}

TEST_CASE("names and levels of some rules") {
  const Json log = sarif_log(*judge(sound_design()));
  const auto rule = [&](std::string_view id) {
    for (const Json& r : log["runs"][0]["tool"]["driver"]["rules"])
      if (r["id"] == id) return r;
    return Json();
  };
  CHECK(rule("fuse/over-module-limit")["name"] == "FuseOverModuleLimit");
  CHECK(rule("fuse/over-module-limit")["defaultConfiguration"]["level"] == "error");
  CHECK(rule("fuse/over-module-limit")["properties"]["severity"] == "hazard");
  CHECK(rule("tally/strings")["defaultConfiguration"]["level"] == "error");
  CHECK(rule("tally/strings")["properties"]["severity"] == "correction");
  CHECK(rule("tally/not-visited")["defaultConfiguration"]["level"] == "warning");
  CHECK(rule("tally/not-visited")["properties"]["problem.severity"] == "warning");
}

TEST_CASE("severities become levels") {
  Json design = with_box({{"fuse", {{"a", 30}}}, {"disconnect", {{"lockable", false}}}});
  design["combiners"][0]["enclosure"].erase("listed");
  design["combiners"][0]["circuits"][0]["run"]["length_m"] = 400;  // voltage drop: advice
  const auto judged = judge(design, "2020");
  const Json results = sarif_results(*judged);
  REQUIRE(results.size() == judged->findings().size());
  std::set<std::string> seen;
  std::size_t rank = 0;
  for (const Json& r : results) {
    const std::string severity = r["properties"]["severity"];
    seen.insert(severity);
    CHECK(r["level"] == (severity == "query" ? "warning" : severity == "advice" ? "note" : "error"));
    const auto here = static_cast<std::size_t>(
        std::find(severity_names.begin(), severity_names.end(), severity) - severity_names.begin());
    CHECK(here >= rank);  // the worst first
    rank = here;
  }
  CHECK(seen == std::set<std::string>{"advice", "correction", "hazard", "query"});
}

TEST_CASE("the first sentence stands alone; found, required, section and remedy follow") {
  const auto judged = judge(with_box({{"fuse", {{"a", 30}}}}));
  const Json r = result_of(sarif_results(*judged), "fuse/over-module-limit");
  const Finding& f = *judged->find("fuse/over-module-limit");
  const std::string text = r["message"]["text"];
  CHECK(text.starts_with(f.message));
  CHECK(text.find("A-01") < f.message.size());
  CHECK(says(r, " Found: 30 A; required: 20 A."));
  CHECK(says(r, " Section: " + f.section + " (edition 2017)."));
  CHECK(says(r, std::string(" What to do: ") + std::string(f.rule->remedy)));
  CHECK(r["properties"]["found"] == 30);
  CHECK(r["properties"]["required"] == 20);
  CHECK(r["properties"]["unit"] == "A");
  CHECK(r["properties"]["section"] == f.section);
  CHECK(r["properties"]["basis"] == "design");
  CHECK_FALSE(r["properties"].contains("working"));
  CHECK_FALSE(r.contains("suppressions"));
  CHECK_FALSE(r.contains("baselineState"));
  CHECK_FALSE(r.contains("relatedLocations"));
}

TEST_CASE("a query names the box, what is missing and which rules wait for it") {
  Json design = sound_design();
  design["combiners"][0]["fuse"].erase("dc");
  const Json results = sarif_results(*judge(design));
  const Json r = result_of(results, "fuse/not-dc");
  CHECK(r["message"]["text"].get<std::string>().starts_with("Box A-01: fuse/dc is not stated"));
  CHECK(r["level"] == "warning");
  CHECK(r["properties"]["cannot_judge"][0] == "fuse/not-dc");

  Json rating = sound_design();
  rating["combiners"][0]["fuse"].erase("a");
  const Json several = sarif_results(*judge(rating));
  bool waiting = false;
  for (const Json& one : several) waiting = waiting || one["properties"]["cannot_judge"].size() > 1;
  CHECK(waiting);
}

TEST_CASE("an id that is only a part of another does not name the box") {
  Json design = sound_design();
  design["combiners"][0]["id"] = "A";  // "A" is in every "30 A", which is no name either
  design["combiners"][0]["fuse"]["a"] = 30;
  const Json r = result_of(sarif_results(*judge(design)), "fuse/over-module-limit");
  CHECK(says(r, "A"));
  Json other = sound_design();
  other["combiners"][0]["id"] = "tate";  // in "stated"
  other["combiners"][0]["fuse"].erase("dc");
  CHECK(result_of(sarif_results(*judge(other)), "fuse/not-dc")["message"]["text"]
            .get<std::string>()
            .starts_with("Box tate: "));
}

TEST_CASE("places: the value's own bytes, the box, the part and the pointer") {
  const auto judged = judge(with_box({{"fuse", {{"a", 30}}}}));
  const Json r = result_of(sarif_results(*judged), "fuse/over-module-limit");
  CHECK(place_of(r)["artifactLocation"] == Json({{"uri", "design.json"}, {"uriBaseId", "%SRCROOT%"}}));
  CHECK(cut(judged->document.text, region_of(place_of(r)["region"])) == "30");
  const Json& logical = r["locations"][0]["logicalLocations"];
  REQUIRE(logical.size() == 3);
  CHECK(logical[0] == Json({{"name", "A-01"}, {"fullyQualifiedName", "A-01"}, {"kind", "box"}}));
  CHECK(logical[1] ==
        Json({{"name", "circuit 1"}, {"fullyQualifiedName", "A-01/circuit 1"}, {"kind", "part"}}));
  CHECK(logical[2] ==
        Json({{"name", "a"}, {"fullyQualifiedName", "/combiners/0/fuse/a"}, {"kind", "value"}}));
}

TEST_CASE("a finding of the site itself") {
  Json design = sound_design();
  design["site"]["permit"] = {{"strings", 8}};
  const Json results = sarif_results(*judge(design));
  REQUIRE(results.size() == 1);
  const Json& logical = results[0]["locations"][0]["logicalLocations"];
  CHECK(logical[0]["kind"] == "site");
  CHECK_FALSE(results[0]["properties"].contains("box"));
  CHECK_FALSE(says(results[0], "Box"));
}

TEST_CASE("the other account is a related place that the message links to") {
  const auto judged = judge(sound_design(), {}, visit({{"count", {{"series", 17}}}}));
  const Json r = result_of(sarif_results(*judged), "tally/series");
  CHECK(place_of(r)["artifactLocation"]["uri"] == "record.json");
  CHECK(cut(judged->record_document.text, region_of(place_of(r)["region"])) == "17");
  CHECK(says(r, " [What the plan says](1)."));
  REQUIRE(r["relatedLocations"].size() == 1);
  const Json& other = r["relatedLocations"][0];
  CHECK(other["id"] == 1);
  CHECK(other["message"]["text"] == "What the plan says.");
  CHECK(other["physicalLocation"]["artifactLocation"]["uri"] == "design.json");
  CHECK(cut(judged->document.text, region_of(other["physicalLocation"]["region"])) == "18");

  const auto poles = judge(sound_design(), {}, visit({{"count", {{"positive", 9}, {"negative", 8}}}}));
  CHECK(says(result_of(sarif_results(*poles), "tally/polarity"), "[What else the field record says](1)."));

  Json design = with_box({{"fuse", {{"a", 25}}}});
  const auto changed = judge(design, {}, visit({{"fuse", {{"a", 30}}}}));
  CHECK(says(result_of(sarif_results(*changed), "fuse/over-module-limit"), "As found: "));
  CHECK(
      says(result_of(sarif_results(*changed), "fuse/over-module-limit"), "[What the field record says](1)."));
}

TEST_CASE("what is gone from the plan is no result") {
  Json design = with_box({{"fuse", {{"a", 30}}}});
  const auto judged = judge(design, {}, visit({{"fuse", {{"a", 15}}}}));
  REQUIRE(judged->judgement.gone.size() == 1);
  CHECK(results_of(sarif_results(*judged), "fuse/over-module-limit").empty());
}

TEST_CASE("workings are in the results where they are asked for") {
  const auto judged = judge(with_box({{"fuse", {{"a", 30}}}, {"disconnect", {{"rated_v", 500}}}}), {},
                            nullptr, {{}, true, {}});
  const Json results = sarif_results(*judged, true);
  const Json r = result_of(results, "voltage/equipment-rating");
  REQUIRE(!r["properties"]["working"].empty());
  CHECK(r["properties"]["working"][0]["symbol"] == "Vmax");
  CHECK(r["properties"]["working"] == [&] {
    const Json report = Json::parse(json_report(*judged, true));
    for (const Json& f : report["findings"])
      if (f["rule"] == "voltage/equipment-rating") return f["working"];
    return Json();
  }());
}

TEST_CASE("amended keys are named") {
  Json design = sound_design();
  design["code"]["amendments"] = {{"voltage", {{"limits", {{"building", {{"max_v", 500}}}}}}}};
  const auto judged = judge(design);
  const Json r = result_of(sarif_results(*judged), "voltage/site-limit");
  REQUIRE(r["properties"]["amended"].size() == 1);
  CHECK(says(r, "Amended locally: "));
  const Json log = sarif_log(*judged);
  const Json& remarks = log["runs"][0]["artifacts"][0]["properties"]["remarks"];
  REQUIRE(remarks.size() == 1);
  CHECK(remarks[0].get<std::string>().starts_with("Amended locally: "));
}

TEST_CASE("fingerprints: by design and box, the same when values and places change") {
  const auto print = [](const Json& design, std::string_view name = "design.json") {
    auto judged = judge(design);
    judged->document.name = name;
    return result_of(sarif_results(*judged), "fuse/over-module-limit")["partialFingerprints"];
  };
  Json design = with_box({{"fuse", {{"a", 30}}}});
  const Json before = print(design);
  design["combiners"][0]["fuse"]["a"] = 25;
  design["site"]["name"] = "Another\nname";
  CHECK(print(design) == before);
  CHECK(print(design, "./design.json") == before);
  const Json elsewhere = print(design, "other.json");
  CHECK(elsewhere["primaryLocationLineHash"] != before["primaryLocationLineHash"]);
  CHECK(elsewhere["boxproof/v1"] == before["boxproof/v1"]);
  const auto judged = judge(design);
  CHECK(before["boxproof/v1"] == fingerprint(*judged->find("fuse/over-module-limit")));
  CHECK(before["primaryLocationLineHash"].get<std::string>().ends_with(":1"));
  design["combiners"][0]["id"] = "A-02";
  CHECK(print(design)["boxproof/v1"] != before["boxproof/v1"]);
}

TEST_CASE("findings with one fingerprint are numbered") {
  auto judged = judge(with_box({{"fuse", {{"a", 30}}}}));
  auto& findings = judged->judgement.findings;
  REQUIRE(findings.size() == 1);
  findings.push_back(findings.front());
  findings.push_back(findings.front());
  std::vector<std::string> ends;
  for (const Json& r : sarif_results(*judged))
    ends.push_back(r["partialFingerprints"]["primaryLocationLineHash"].get<std::string>().substr(16));
  CHECK(ends == std::vector<std::string>{":1", ":2", ":3"});
}

TEST_CASE("the examples, whole") {
  for (const Example& example : examples) {
    CAPTURE(std::string(example.name));
    const auto judged = judge_example(example);
    const Json log = sarif_log(*judged);
    CHECK(log["runs"][0]["results"].size() == judged->findings().size());
    CHECK(log["runs"][0]["properties"]["caution"] == caution());
    CHECK(log["runs"][0]["invocations"][0]["executionSuccessful"] == true);
    CHECK(log["runs"][0]["invocations"][0]["toolExecutionNotifications"].empty());
    const Json& artifact = log["runs"][0]["artifacts"][0];
    CHECK(path_of(artifact["location"]) == judged->document.name);
    CHECK(artifact["properties"]["verdict"] ==
          verdict_names[static_cast<std::size_t>(judged->judgement.verdict)]);
  }
}
