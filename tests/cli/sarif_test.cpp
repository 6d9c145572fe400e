// check --format sarif and --report sarif=FILE.
#include <fmt/format.h>

#include <set>

#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/sarif.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const std::string examples_folder = BOXPROOF_EXAMPLES;

Json parsed(const std::string& text) {
  Json log = Json::parse(text);
  check_log(log);
  return log["runs"][0];
}

}  // namespace

TEST_CASE("check --format sarif: as many results as findings, and the same status") {
  for (const auto& [design, record] :
       std::vector<std::pair<std::string, std::string>>{{"saltmarsh-faults.json", ""},
                                                        {"saltmarsh.json", "saltmarsh-visit.json"},
                                                        {"saltmarsh.json", "saltmarsh-visit.csv"},
                                                        {"ferry-shed.json", ""}}) {
    std::vector<std::string> arguments{"check", examples_folder + "/" + design};
    if (!record.empty()) arguments.insert(arguments.end(), {"--asbuilt", examples_folder + "/" + record});
    CAPTURE(design, record);
    const auto with = [&](const std::string& format) {
      std::vector<std::string> all = arguments;
      all.insert(all.end(), {"--format", format});
      return call(all);
    };
    const Called sarif = with("sarif"), json = with("json");
    CHECK(sarif.status == json.status);
    CHECK(sarif.err.empty());
    const Json findings = Json::parse(json.out)["findings"];
    const Json run = parsed(sarif.out);
    REQUIRE(run["results"].size() == findings.size());
    std::multiset<std::string> told, found;
    for (const Json& r : run["results"])
      told.insert(r["ruleId"].get<std::string>() + " " +
                  r["partialFingerprints"]["boxproof/v1"].get<std::string>() + " " +
                  r["locations"][0]["physicalLocation"]["region"]["startLine"].dump());
    for (const Json& f : findings)
      found.insert(f["rule"].get<std::string>() + " " + f["fingerprint"].get<std::string>() + " " +
                   f["line"].dump());
    CHECK(told == found);
  }
}

TEST_CASE("--report sarif=FILE beside the text") {
  const Folder folder;
  const std::string design = examples_folder + "/saltmarsh-faults.json";
  const Called both = call({"check", design, "--report", "sarif=" + folder.path("log.sarif")});
  CHECK(both.status == 1);
  CHECK(both.out == call({"check", design}).out);
  CHECK(folder.get("log.sarif") == call({"check", design, "--format", "sarif"}).out);
}

TEST_CASE("a design on standard input") {
  Surroundings around;
  around.in = with_box({{"fuse", {{"a", 30}}}}).dump();
  const Called c = call({"check", "-", "--format", "sarif"}, around);
  const Json run = parsed(c.out);
  CHECK(run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "stdin");
}

TEST_CASE("a design that cannot be read: status 3, and a log that says so") {
  const Folder folder;
  const std::string design = folder.put("design.json", "{\"format\": \"boxproof-design/1\",\n \"site\": 7}");
  const Called c = call({"check", design, "--format", "sarif"});
  CHECK(c.status == 3);
  CHECK(c.complains("design.json:2:"));
  const Json run = parsed(c.out);
  CHECK(run["invocations"][0]["executionSuccessful"] == false);
  const Json& told = run["invocations"][0]["toolExecutionNotifications"];
  REQUIRE(!told.empty());
  CHECK(told.back()["locations"][0]["physicalLocation"]["region"] ==
        Json({{"startLine", 2}, {"startColumn", 10}}));
  CHECK(run["results"].empty());
}

TEST_CASE("agreed exceptions are suppressed results") {
  const Called c =
      call({"check", examples_folder + "/saltmarsh-faults.json", "--exceptions",
            examples_folder + "/saltmarsh-exceptions.json", "--on", "2027-03-18", "--format", "sarif"});
  std::size_t suppressed = 0;
  const Json run = parsed(c.out);
  for (const Json& r : run["results"]) suppressed += r.contains("suppressions") ? 1 : 0;
  const Called json =
      call({"check", examples_folder + "/saltmarsh-faults.json", "--exceptions",
            examples_folder + "/saltmarsh-exceptions.json", "--on", "2027-03-18", "--format", "json"});
  CHECK(suppressed == Json::parse(json.out)["agreed"].size());
  CHECK(suppressed > 0);
}

TEST_CASE("many designs make one run; one that cannot be read does not stop the others") {
  const Folder folder;
  folder.put("a.json", with_box({{"disconnect", {{"distance_m", 10}}}}).dump());
  folder.put("b.json", "{\"format\": \"boxproof-design/1\"");
  folder.put("c.json", with_box({{"fuse", {{"a", 30}}}}).dump());
  const Called c = call(
      {"check", folder.path("a.json"), folder.path("b.json"), folder.path("c.json"), "--format", "sarif"});
  CHECK(c.status == 3);
  const Json run = parsed(c.out);
  REQUIRE(run["results"].size() == 2);
  CHECK(run["results"][0]["properties"]["severity"] == "hazard");
  CHECK(run["artifacts"].size() == 2);
  CHECK(run["invocations"][0]["executionSuccessful"] == false);
  CHECK(run["invocations"][0]["toolExecutionNotifications"].size() == 1);
  CHECK(c.out == call({"check", folder.path("a.json"), folder.path("b.json"), folder.path("c.json"),
                       "--format", "sarif"})
                     .out);
}

TEST_CASE("more findings than a consumer takes, over many designs") {
  // A box whose every label is missing and much is not stated gives some thirty findings.
  Json design = sound_design();
  Json box = design["combiners"][0];
  box["fuse"] = {{"a", 30}};
  box["enclosure"] = Json::object();
  box["disconnect"] = Json::object();
  box["labels"] = Json::array();
  design["combiners"] = Json::array();
  for (int i = 0; i < 250; ++i) {
    box["id"] = fmt::format("A-{:03}", i);
    design["combiners"].push_back(box);
  }
  const std::string text = design.dump();
  const Folder folder;
  std::vector<std::string> arguments{"check", "--format", "sarif"};
  for (int i = 0; i < 6; ++i) arguments.push_back(folder.put(fmt::format("{}.json", i), text));
  const std::string log = call(arguments).out;
  // To take it apart would take most of a minute: results stand on lines of their own.
  const auto lines_with = [&](std::string_view words) {
    std::size_t n = 0;
    for (auto at = log.find(words); at != std::string::npos; at = log.find(words, at + 1)) ++n;
    return n;
  };
  const auto results = log.find("\n    \"results\": [\n"), end = log.find("\n    ],\n", results);
  REQUIRE(end != std::string::npos);
  const Json run = Json::parse(log.substr(0, results) + "\"results\": []," + log.substr(end + 8))["runs"][0];
  const Json& properties = run["properties"];
  std::size_t all = 0, left_out = 0;
  for (const auto& [severity, n] : properties["counts"].items()) {
    all += n.get<std::size_t>();
    left_out += properties["left_out"][severity].get<std::size_t>();
  }
  REQUIRE(all > 25'000);
  CHECK(lines_with("\n{\"ruleId\": ") == 25'000);
  CHECK(left_out == all - 25'000);
  CHECK(properties["left_out"]["hazard"] == 0);
  CHECK(lines_with("\"properties\": {\"severity\": \"hazard\"") == properties["counts"]["hazard"]);
  CHECK(run["invocations"][0]["toolExecutionNotifications"][0]["message"]["text"]
            .get<std::string>()
            .starts_with("Left out for the limit of 25000 results"));
}
