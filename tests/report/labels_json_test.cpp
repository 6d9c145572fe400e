// The label schedule as JSON (boxproof-labels/1).
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/schedule.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

Json json_of(const Json& design, std::string_view edition = {}) {
  return Json::parse(schedule_of(report::write_labels_json, design, edition));
}

}  // namespace

TEST_CASE("JSON: the head") {
  const Json j = json_of(sound_design());
  CHECK(j["format"] == "boxproof-labels/1");
  CHECK(j["tool"]["version"] == std::string(version()));
  CHECK(j["code"]["edition"] == "2017");
  CHECK(j["code"]["amended"] == Json::array());
  CHECK(j["site"]["name"] == "Test site");
  CHECK(j["basis"] == "design");
  CHECK(j["caution"] == std::string(caution()));
  const Json amended =
      json_of(put(sound_design(), "/code/amendments",
                  {{"labels", {{"over_pct", 5}}}, {"voltage", {{"design_low", {{"at_most_c", -20}}}}}}));
  CHECK(amended["code"]["amended"].size() == 2);
  // 612.9 V at −20 °C.
  REQUIRE(amended["labels"][2]["kind"] == "max-voltage");
  CHECK(amended["labels"][2]["values"]["max_v"]["printed"] == 613);
}

TEST_CASE("JSON: computed and printed values agree with the calculation, in every edition") {
  for (const std::string_view edition : edition_names) {
    const auto judged = judge(sound_design(), edition);
    BoxFacts facts;
    const Combiner& box = judged->design.design.combiners.front();
    box_facts(judged->design.design, box, judged->edition, facts);
    const LabelContents contents = label_contents(facts, judged->edition);
    const Json j = json_of(sound_design(), edition);
    std::size_t values = 0;
    for (const Json& label : j["labels"]) {
      const LabelRule* rule = judged->edition.labels.find(label["kind"].get<std::string>());
      CAPTURE(edition, label.dump());
      const bool plan = label["needed"] == "plan";
      CHECK(label["section"].is_null() == plan);
      if (plan) {  // as its text: of a voltage or source label the two maxima
        const bool stating = label["kind"] == "max-voltage" || label["kind"] == "dc-power-source";
        CHECK(label["values"].size() == (stating ? 2 : 0));
        if (stating) CHECK(label["values"]["max_v"]["printed"] == 597);
        if (stating) CHECK(label["values"]["max_a"]["printed"] == 108);
        continue;
      }
      REQUIRE(rule != nullptr);
      CHECK(label["section"] == rule->section);
      CHECK(label["unverified"] == rule->unverified);
      CHECK(label["prescribed"] == !rule->words.empty());
      CHECK(label["box"].is_null() == !rule->on_box());
      REQUIRE(label["values"].size() == rule->values.size());
      for (const LabelValue v : rule->values) {
        const Json& stated = label["values"][std::string(label_value_names[static_cast<std::size_t>(v)])];
        CHECK(stated["computed"].get<double>() == *contents.of(v));
        CHECK(stated["printed"].get<double>() == printed(v, *contents.of(v)));
        ++values;
      }
    }
    CHECK(values > 0);  // the site's own are the highest of its boxes, here of one
  }
}

TEST_CASE("JSON: what is not stated, and what cannot be computed") {
  const Json bare = with_labels(sound_design(), Json::array());
  const Json j = json_of(without(without(bare, "/combiners/0/disconnect/distance_m"), "/site/low_c"), "2014");
  bool directory = false, source = false;
  for (const Json& label : j["labels"]) {
    if (label["kind"] == "directory") {
      directory = true;
      CHECK(label["needed"] == "not stated");
      CHECK(label["not_stated"] == "/disconnect/distance_m");
    }
    if (label["kind"] == "dc-power-source") {
      source = true;
      CHECK(label["needed"] == "yes");
      CHECK(label["not_stated"] == "/site/low_c");
      CHECK(label["values"]["max_v"]["computed"].is_null());
      CHECK(label["values"]["max_v"]["printed"].is_null());
      CHECK(label["text"].get<std::string>().find("MAXIMUM VOLTAGE ____ V DC") != std::string::npos);
    }
  }
  CHECK(directory);
  CHECK(source);
}

TEST_CASE("JSON: names with quotes and control characters") {
  const std::string name = "A\"\\\n\t\u0001é";
  const Json j = json_of(put(put(sound_design(), "/combiners/0/id", name), "/site/name", name));
  CHECK(j["site"]["name"] == name);
  CHECK(j["labels"][1]["box"] == name);
}
