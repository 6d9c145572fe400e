// What the commands do, and the exit status they end with: 0 nothing found, 1 something found, 2 wrong use, 3
// bad input.
#include "src/cli/run.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "boxproof/edition.hpp"
#include "boxproof/finding.hpp"
#include "boxproof/report.hpp"
#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Arguments = std::vector<std::string>;

const std::string clean = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh.json";
const std::string faults = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-faults.json";
const std::string visit = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-visit.json";

// The sound design with one thing in it that is as grave as its name says.
std::string design_of(std::string_view gravest) {
  Json design = sound_design();
  Json& box = design["combiners"][0];
  if (gravest == "hazard") box["fuse"]["dc"] = false;
  if (gravest == "correction") box["fuse"]["pv_listed"] = false;
  if (gravest == "advice")
    design["conductors"]["feeder"] = {{"size", "500 kcmil"},    {"material", "aluminum"},
                                      {"insulation", "XHHW-2"}, {"insulation_c", 90},
                                      {"rated_v", 1000},        {"stranding", "coarse"}};
  if (gravest == "query") box["fuse"].erase("pv_listed");
  return design.dump();
}

std::string gravest_of(const std::string& design) {
  const auto judged = judge(Json::parse(design));
  for (std::size_t i = 0; i < severity_names.size(); ++i)
    if (judged->judgement.counts[i] > 0) return std::string(severity_names[i]);
  return "none";
}

}  // namespace

TEST_CASE("a design may stand behind an option that may be repeated") {
  const Folder folder;
  CHECK(call({"check", "--box", "A-01", clean}).status == 0);
  CHECK(call({"check", "--box", "A-01", "--box", "A-02", clean}).status == 0);
  CHECK(call({"tally", "--box", "A-01", clean}).status == 0);
  CHECK(call({"check", "--report", "json=" + folder.path("r.json"), clean}).status == 0);
  CHECK(folder.names() == Arguments{"r.json"});
}

TEST_CASE("check ends with 1 where something is at or above --fail-on") {
  for (const std::string gravest : {"hazard", "correction", "query", "advice", "none"}) {
    const std::string design = design_of(gravest);
    REQUIRE(gravest_of(design) == gravest);
    // From worst to mildest; nothing found counts as below all of them.
    const std::vector<std::string> scale{"hazard", "correction", "query", "advice", "none"};
    const auto rank = [&](const std::string& word) {
      return std::find(scale.begin(), scale.end(), word) - scale.begin();
    };
    for (const std::string fail_on : {"hazard", "correction", "query", "advice"}) {
      CAPTURE(gravest, fail_on);
      const Called c = call({"check", "-", "--fail-on", fail_on}, {design, false, {}});
      CHECK(c.status == (rank(gravest) <= rank(fail_on) ? 1 : 0));
      CHECK(c.err.empty());
      CHECK_FALSE(c.out.empty());
    }
    CHECK(call({"check", "-"}, {design, false, {}}).status == (rank(gravest) <= rank("correction") ? 1 : 0));
  }
}

TEST_CASE("the examples") {
  CHECK(call({"check", clean}).status == 0);
  CHECK(call({"check", clean, "--asbuilt", visit}).status == 1);
  CHECK(call({"check", faults}).status == 1);
  CHECK(call({"check", faults, "--format", "json"}).status == 1);
  CHECK(Json::parse(call({"check", faults, "--format", "json"}).out)["format"] == "boxproof-report/1");
  CHECK(call({"check", clean, "--show-work"}).status == 0);
}

TEST_CASE("no arguments: the help, to standard error, with 2") {
  const Called c = call({});
  CHECK(c.status == 2);
  CHECK(c.out.empty());
  CHECK(c.complains("Usage: boxproof"));
}

TEST_CASE("help of the program and of every command, to standard output, with 0") {
  for (const char* flag : {"--help", "-h"}) {
    for (const std::string command : {"", "check", "box", "labels", "tally", "compare", "baseline", "draft",
                                      "schedule", "rules", "tables", "schema", "completion", "man"}) {
      CAPTURE(flag, command);
      const Called c = call(command.empty() ? Arguments{flag} : Arguments{command, flag});
      CHECK(c.status == 0);
      CHECK(c.err.empty());
      CHECK(c.says("Usage: boxproof" + (command.empty() ? "" : " " + command)));
      // Only check and compare fail on what they find, and only the commands that read a file can find it
      // unreadable.
      const bool all = command.empty(), fails = command == "check" || command == "compare";
      const bool reads = fails || command == "box" || command == "labels" || command == "tally" ||
                         command == "baseline" || command == "draft" || command == "schedule";
      std::string text = c.out;  // as it is before it is wrapped
      std::replace(text.begin(), text.end(), '\n', ' ');
      const auto says = [&](std::string_view words) { return text.find(words) != std::string::npos; };
      CHECK(says("Exit status: 0 "));
      CHECK(says("2 wrong use"));
      CHECK(says("0 nothing at or above --fail-on; 1 something is;") == (command == "check"));
      CHECK(says("0 nothing open or new at or above --fail-on; 1 something is;") == (command == "compare"));
      CHECK(says("0 done;") == !fails);
      CHECK(says("1 check or compare found something at or above --fail-on;") == all);
      CHECK(says("--fail-on") == (all || fails));
      CHECK(says("3 an input") == (all || reads));
      CHECK(c.says("aid to review and no approval"));
    }
  }
  CHECK(call({"--help"}).says("schema"));
}

TEST_CASE("the version on one line, and below it the data that judges") {
  for (const char* flag : {"--version", "-V"}) {
    const Called c = call({flag});
    CHECK(c.status == 0);
    CHECK(c.out == "boxproof " + std::string(version()) + "\ndata " + data_revision() +
                       " (editions 2008 2011 2014 2017 2020 2023)\n");
    CHECK(c.err.empty());
  }
}

TEST_CASE("box: one box on one screen") {
  const Called c = call({"box", clean, "A-03"});
  CHECK(c.status == 0);
  CHECK(c.err.empty());
  CHECK(c.says("A-03"));
  CHECK_FALSE(c.says("A-04"));
  CHECK(call({"box", clean, "A-03", "--asbuilt", visit}).status == 0);
  const Called unknown = call({"box", clean, "A-1"});
  CHECK(unknown.status == 2);
  CHECK(unknown.out.empty());
  CHECK(unknown.err == "boxproof: found no box \"A-1\" on the plan; the nearest ids are A-01, A-10, A-11\n");
}

TEST_CASE("rules: the list and a page of each", "[slow]") {
  const Called list = call({"rules"});
  CHECK(list.status == 0);
  for (const Rule* rule : all_rules()) {
    CHECK(list.says(rule->id));
    const Called page = call({"rules", std::string(rule->id)});
    CHECK(page.status == 0);
    CHECK(page.says(rule->title));
    for (const std::string_view name : edition_names) CHECK(page.says("  " + std::string(name) + "  "));
  }
  const Called unknown = call({"rules", "voltage/site-limt"});
  CHECK(unknown.status == 2);
  CHECK(unknown.err ==
        "boxproof: found no rule \"voltage/site-limt\"; did you mean \"voltage/site-limit\"?; boxproof "
        "rules lists them\n");
  CHECK(call({"rules", "zz"}).err == "boxproof: found no rule \"zz\"; boxproof rules lists them\n");
}

TEST_CASE("tables: each topic of each edition, and two editions against each other") {
  const Called all = call({"tables"});
  CHECK(all.status == 0);
  for (const char* topic :
       {"limits", "cold", "ampacity", "correction", "adjustment", "roof", "ratings", "grounding",
        "resistance", "disconnect", "insulation", "enclosure", "protection"}) {
    CAPTURE(topic);
    for (const std::string_view edition : edition_names) {
      const Called c = call({"tables", topic, "--edition", std::string(edition)});
      CHECK(c.status == 0);
      CHECK(c.out.size() > 60);
      CHECK(c.out.size() < all.out.size());
    }
  }
  CHECK(call({"tables", "cold", "roof"}).status == 0);
  const Called against = call({"tables", "--edition", "2017", "--against", "2014"});
  CHECK(against.status == 0);
  CHECK(against.says("voltage.limits.building.kind\n"));
  CHECK(against.says("690.7"));
  CHECK(call({"tables", "--edition", "2017", "--against", "2017"}).out ==
        "What 2017 states differently from 2017\nnothing differs\n");
  CHECK_FALSE(against.says("nothing differs"));
  CHECK(call({"tables", "hot"}).status == 2);
}
