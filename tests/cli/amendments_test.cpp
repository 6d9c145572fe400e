// The example under local amendments: a disconnect beside each output but where the box stands by the
// inverter, a colder design temperature, a lower voltage drop; the report names each amended value on what it
// touched.
#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"

using namespace boxproof::test;

namespace {

const std::string site = std::string(BOXPROOF_EXAMPLES) + "/ferry-shed.json";

// The findings as "box rule severity", with their messages.
std::map<std::string, std::string> findings(const Called& called) {
  std::map<std::string, std::string> out;
  const Json report = Json::parse(called.out);
  for (const Json& f : report["findings"])
    out[f["box"].get<std::string>() + " " + f["rule"].get<std::string>() + " " +
        f["severity"].get<std::string>()] = f["message"];
  return out;
}

std::vector<std::string> names(const std::map<std::string, std::string>& findings) {
  std::vector<std::string> out;
  for (const auto& [name, message] : findings) out.push_back(name);
  return out;
}

using Names = std::vector<std::string>;

// The example's design with other amendments, on standard input.
Called check_with(const std::string& amendments) {
  Json design = example_json("ferry-shed.json");
  design["code"]["amendments"] = Json::parse(amendments);
  return call({"check", "-", "--format", "json"}, {design.dump(), false, {}});
}

}  // namespace

TEST_CASE("the amended example: each amendment finds what it is there for") {
  const Called called = call({"check", site, "--format", "json"});
  CHECK(called.status == 1);
  const auto found = findings(called);
  CHECK(names(found) == Names{"F-2 disconnect/too-far correction", "F-3 label/values correction",
                              "F-3 voltage/site-limit hazard", "F-4 conductor/voltage-drop advice",
                              "F-6 disconnect/missing correction"});
  const auto names_value = [&](const std::string& finding, const std::string& value) {
    CAPTURE(finding, value);
    const auto at = found.at(finding).find("Amended locally: ");
    REQUIRE(at != std::string::npos);
    CHECK(found.at(finding).find(value, at) != std::string::npos);
  };
  names_value("F-2 disconnect/too-far correction", "disconnect.large.within_m (1 in place of 3)");
  names_value("F-2 disconnect/too-far correction", "rules.disconnect/too-far.section");
  names_value("F-3 voltage/site-limit hazard", "voltage.design_low.at_most_c (-14 in place of 30)");
  names_value("F-3 label/values correction", "voltage.design_low.at_most_c (-14 in place of 30)");
  names_value("F-4 conductor/voltage-drop advice", "conductor.voltage_drop.max_pct (1.5 in place of 2)");
  names_value("F-6 disconnect/missing correction", "disconnect.large_above_a (0 in place of 30)");
  // 18 · 50.4 V · (1 + 0.29 % · 39) = 1009.8 V; at the plan's −9 °C it is 996.7 V.
  CHECK(found.at("F-3 voltage/site-limit hazard").find("1009.8 V at −14 °C") != std::string::npos);
  CHECK(found.at("F-4 conductor/voltage-drop advice").find("1.5 % is accepted") != std::string::npos);
}

TEST_CASE("the amended example: the head of the report lists what was amended") {
  const Called text = call({"check", site});
  CHECK(text.says("low −9 °C (judged at −14 °C)"));
  for (const char* line :
       {"voltage.design_low.at_most_c (-14 in place of 30)", "disconnect.large_above_a (0 in place of 30)",
        "disconnect.large.within_m (1 in place of 3)",
        "disconnect.large.unless_output_up_to_m (3 in place of 0)",
        "conductor.voltage_drop.max_pct (1.5 in place of 2)"}) {
    CAPTURE(line);
    CHECK(text.says(std::string("  Amended locally: ") + line + "\n"));
  }
  CHECK(text.says("section   690.7; Saltmarsh Quay ordinance, article 4\n"));
  const Json amended = Json::parse(call({"check", site, "--format", "json"}).out)["code"]["amended"];
  CHECK(std::count(amended.begin(), amended.end(), "conductor.voltage_drop.max_pct") == 1);
}

TEST_CASE("the amended example: by the edition alone two boxes have findings, of its own disconnect rule") {
  CHECK(names(findings(check_with("{}"))) ==
        Names{"F-5 disconnect/missing correction", "F-6 disconnect/missing query"});
}

TEST_CASE("the amended example: each amendment alone") {
  const Names edition{"F-5 disconnect/missing correction", "F-6 disconnect/missing query"};
  const auto with = [&](Names more) {
    more.insert(more.end(), edition.begin(), edition.end());
    std::sort(more.begin(), more.end());
    return more;
  };
  CHECK(names(findings(check_with(R"({"voltage": {"design_low": {"at_most_c": -14}}})"))) ==
        with({"F-3 label/values correction", "F-3 voltage/site-limit hazard"}));
  CHECK(names(findings(check_with(R"({"conductor": {"voltage_drop": {"max_pct": 1.5}}})"))) ==
        with({"F-4 conductor/voltage-drop advice"}));
  CHECK(
      names(findings(check_with(
          R"({"disconnect": {"large_above_a": 0, "large": {"within_m": 1, "unless_output_up_to_m": 3}}})"))) ==
      Names{"F-2 disconnect/too-far correction", "F-6 disconnect/missing correction"});
}

TEST_CASE("an amendment that names an unknown key, or another type, is an error and nothing is judged") {
  const Called key = check_with(R"({"conductor": {"voltage_drop": {"max_pc": 1.5}}})");
  CHECK(key.status == 3);
  CHECK(key.err.find("/code/amendments/conductor/voltage_drop/max_pc") != std::string::npos);
  CHECK(key.err.find("did you mean \"max_pct\"") != std::string::npos);
  const Called type = check_with(R"({"conductor": {"voltage_drop": {"max_pct": "1.5"}}})");
  CHECK(type.status == 3);
  CHECK(type.err.find("found text \"1.5\", expected the type that the value has in the edition: 2") !=
        std::string::npos);
  CHECK(type.out.empty());
}

TEST_CASE("an amendment that repeats the edition's value amends nothing") {
  const Called same = check_with(R"({"conductor": {"voltage_drop": {"max_pct": 2}}})");
  CHECK(Json::parse(same.out)["code"]["amended"].empty());
  CHECK(names(findings(same)) == names(findings(check_with("{}"))));
}
