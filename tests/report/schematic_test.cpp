// A box drawn: what is drawn is what the plan or the record has, and what is not stated is not drawn as if it
// were.
#include "src/report/schematic.hpp"

#include <algorithm>
#include <set>

#include "tests/support/catch.hpp"
#include "tests/support/drawn.hpp"
#include "tests/support/example.hpp"
#include "tests/support/judge.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Strings = std::vector<std::string>;

Json strings_of(int strings, int inputs = 60) {
  Json circuit = sound_design()["combiners"][0]["circuits"][0];
  circuit["strings"] = strings;
  return with_box({{"circuits", {circuit}}, {"enclosure", {{"inputs", inputs}}}});
}

Json visit(Json seen) {
  seen["id"] = "A-01";
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({seen})}};
}

// Nothing but what the format demands.
Json bare_design() {
  return Json::parse(R"({"format": "boxproof-design/1", "site": {"name": "Bare", "use": "building"},
    "code": {"edition": "2017"}, "modules": {"M": {"voc_v": 30, "isc_a": 9.6}}, "inverters": {"I": {}},
    "combiners": [{"id": "A-01", "inverter": "I", "circuits": [{"id": "1", "module": "M", "series": 18,
    "strings": 6}]}]})");
}

}  // namespace

TEST_CASE("as many inputs are drawn as there are, up to 32") {
  struct Case {
    int strings;
    std::size_t drawn;
    bool said;
  };
  for (const Case& c : {Case{1, 1, false}, {9, 9, false}, {32, 32, false}, {33, 4, true}, {48, 4, true}}) {
    const Drawn drawn = draw(strings_of(c.strings));
    CAPTURE(c.strings);
    CHECK(drawn.inputs() == c.drawn);
    CHECK(drawn.fuses() == c.drawn);
    CHECK(drawn.has("dots") == c.said);
    CHECK(drawn.says(std::to_string(c.strings) + " inputs, 4 drawn") == c.said);
  }
}

TEST_CASE("in every box of the examples as many inputs and fuses are drawn as are found in it") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    for (std::size_t i = 0; i < judged->judgement.boxes.size(); ++i) {
      BoxFacts facts;
      FoundBox own;
      facts_of(judged->design, judged->edition, judged->record ? &*judged->record : nullptr,
               judged->judgement.boxes[i], own, facts);
      const Drawn drawn = draw(*judged, i);
      CAPTURE(std::string(example.name), facts.box->id);
      REQUIRE(facts.inputs <= 32);
      CHECK(drawn.inputs() == facts.inputs);
      CHECK(drawn.fuses() == facts.inputs * (!facts.box->fuse                         ? 0U
                                             : *facts.box->fuse->poles == Poles::both ? 2U
                                                                                      : 1U));
    }
  }
}

TEST_CASE("fuses are drawn in the poles that have one") {
  const Drawn one = draw(sound_design()), both = draw(with_box({{"fuse", {{"poles", "both"}}}})),
              none = draw(with_box({{"fuse", nullptr}})),
              open = draw(with_box({{"fuse", {{"poles", nullptr}}}}));
  CHECK(one.fuses() == 9);
  CHECK(one.says("in one pole"));
  CHECK(both.fuses() == 18);
  CHECK(both.says("18 fuses, 15 A"));
  CHECK(none.fuses() == 0);
  CHECK(none.says("no fuses"));
  // Not stated: the second is there as a dashed place.
  CHECK(open.parts.all("path", "fuse").size() == 2);
  CHECK(open.says("? fuses, 15 A"));
  CHECK(open.says("poles ?"));
  const auto fuses = open.parts.all("path", "fuse");
  CHECK(std::count_if(fuses.begin(), fuses.end(), [](const WebElement* e) { return e->is("unk"); }) == 1);
}

TEST_CASE("a disconnect is drawn as what it is and where it is") {
  const auto with_switch = [](const Json& patch) { return draw(with_box({{"disconnect", patch}})); };
  const Drawn in_box = draw(sound_design()), away = with_switch({{"distance_m", 30}}),
              isolating = with_switch({{"load_break", false}}), open = with_switch({{"load_break", nullptr}}),
              nowhere = with_switch({{"distance_m", nullptr}}), none = with_switch(nullptr);
  CHECK(in_box.says("load-break switch"));
  CHECK(in_box.says("in the box"));
  CHECK(away.says("30 m away"));
  CHECK(nowhere.says("distance ?"));
  CHECK(isolating.says("isolating switch"));
  CHECK(none.says("no disconnect"));
  CHECK_FALSE(none.has("switch"));
  const auto ring = [](const Drawn& d) {
    return d.parts.all("path", "switch").at(0)->attribute("d").find('a') != std::string::npos;
  };
  CHECK(ring(in_box));
  CHECK_FALSE(ring(isolating));
  CHECK_FALSE(ring(open));
  CHECK(open.parts.all("path", "switch").at(0)->is("unk"));
  // Away from the box its symbol stands below the enclosure's lower edge.
  const auto top_of = [](const Drawn& d) {
    const std::string path = d.parts.all("path", "switch").at(0)->attribute("d");
    return std::stoi(path.substr(path.find(' ') + 1));
  };
  const auto floor_of = [](const Drawn& d) {
    const std::string path = d.parts.all("path", "case").at(0)->attribute("d");
    return std::stoi(path.substr(path.find('V') + 1));
  };
  CHECK(top_of(in_box) < floor_of(in_box));
  CHECK(top_of(away) > floor_of(away));
  CHECK(top_of(nowhere) > floor_of(nowhere));
}

TEST_CASE("what is not stated is dashed and has a question mark") {
  const Drawn bare = draw(bare_design()), sound = draw(sound_design());
  for (const std::string_view style : {"case", "lbl", "out", "earth"}) {
    CAPTURE(std::string(style));
    const auto drawn = bare.parts.all("path", style);
    REQUIRE_FALSE(drawn.empty());
    CHECK(std::all_of(drawn.begin(), drawn.end(), [](const WebElement* e) { return e->is("unk"); }));
  }
  for (const std::string_view text :
       {"type ?", "listed ?", "? V, ? A", "6 of ? inputs used", "conductor ?", "output conductor ?",
        "labels ?", "grounding ?", "up to ? V", "? / –"}) {
    CAPTURE(std::string(text));
    CHECK(bare.says(text));
  }
  CHECK_FALSE(bare.has("switch"));
  CHECK_FALSE(bare.has("fuse"));
  CHECK_FALSE(bare.has("device"));
  CHECK_FALSE(sound.has("unk"));
  CHECK_FALSE(sound.says("?"));
}

TEST_CASE("strings joined ahead of a fuse, conductors in parallel and several groups are drawn and said") {
  const Drawn joined = draw(with_circuit({{"strings", 8}, {"strings_per_fuse", 2}}));
  CHECK(joined.inputs() == 4);
  CHECK(joined.says("2 joined on a fuse"));
  CHECK(joined.has("fork"));
  const Drawn parallel = draw(with_box({{"output", {{"run", {{"parallel", 3}}}}}}));
  CHECK(parallel.says("3 in parallel"));
  const std::string out = parallel.parts.all("path", "out").at(0)->attribute("d");
  CHECK(std::count(out.begin(), out.end(), 'M') == 3);
  Json three = sound_design();
  Json& circuits = three["combiners"][0]["circuits"];
  for (const char* id : {"2", "3"}) {
    circuits.push_back(circuits[0]);
    circuits.back()["id"] = id;
    circuits.back()["strings"] = 1;
  }
  const Drawn groups = draw(three);
  CHECK(groups.says("11 strings in all"));
  CHECK(groups.inputs() == 11);
  CHECK(groups.says("3: M"));
  CHECK_FALSE(draw(sound_design()).says("in all"));
}

TEST_CASE("of very many groups the rest is said") {
  Json design = sound_design();
  Json& circuits = design["combiners"][0]["circuits"];
  const Json one = circuits[0];
  circuits = Json::array();
  const auto drawn_with = [&](int groups) {
    while (static_cast<int>(circuits.size()) < groups) {
      circuits.push_back(one);
      circuits.back()["id"] = "g" + std::to_string(circuits.size());
      circuits.back()["strings"] = 1;
    }
    return draw(design);
  };
  const Drawn twelve = drawn_with(12), thirteen = drawn_with(13);
  CHECK(twelve.inputs() == 12);
  CHECK_FALSE(twelve.says("groups more"));
  CHECK(thirteen.inputs() == 11);
  CHECK(thirteen.says("2 groups more"));
  CHECK(thirteen.says("2 inputs, none drawn"));
}

TEST_CASE("plan, label and count stand side by side, and what differs is told by a sign and by weight") {
  const Drawn same =
      draw(sound_design(), visit({{"posted", {{"strings", 9}, {"series", 18}, {"fuse_a", 15}}},
                                  {"count", {{"positive", 9}, {"negative", 9}, {"fuses", 9}, {"series", 18}}},
                                  {"fuse", {{"a", 15}}}}));
  CHECK(same.says("plan / posted / found"));
  CHECK(same.says("9 / 9 / 9"));
  CHECK(same.says("18 / 18 / 18"));
  CHECK(same.says("9 / – / 9"));
  CHECK(same.says("15 / 15 / 15"));
  CHECK(same.svg.find("≠") == std::string::npos);
  const Drawn other = draw(
      sound_design(), visit({{"posted", {{"strings", 8}, {"series", 18}, {"fuse_a", 20}, {"max_v", 500}}},
                             {"count", {{"positive", 10}, {"negative", 9}, {"fuses", 8}, {"series", 17}}},
                             {"fuse", {{"a", 20}}},
                             {"mixed_fuses", {{{"position", 4}, {"a", 30}}}},
                             {"enclosure", {{"type", "3R"}}},
                             {"output", {{"size", "3/0 AWG"}}},
                             {"disconnect", {{"works", false}}}}));
  for (const std::string_view text :
       {"9 / ≠8 / ≠10", "9 / – / ≠10", "9 / – / 9", "18 / 18 / ≠17", "9 / – / ≠8", "15 / ≠20 / ≠20",
        "≠ 30 A at 4", "≠ type 3R", "plan type 4X", "≠ 3/0 AWG copper", "plan 4/0 AWG copper",
        "≠ does not work", "≠ 10 strings of 17", "597 / ≠500"}) {
    CAPTURE(std::string(text));
    CHECK(other.says(text));
  }
  for (const WebElement& e : other.parts.elements) {
    if ((e.name != "text" && e.name != "tspan") || e.text.find("≠") == std::string::npos) continue;
    CAPTURE(e.text);
    const auto inner = other.parts.all("tspan", "b");
    CHECK((e.is("b") || std::any_of(inner.begin(), inner.end(), [&](const WebElement* t) {
             return e.text.find(t->text) != std::string::npos;
           })));
  }
  CHECK(other.has("odd"));
  const std::string said = other.parts.all("desc").at(0)->text;
  for (const std::string_view text :
       {"Not as on the plan, or not enough: ", "strings: plan 9, posted 8, found 10; ", "type 3R; ",
        "30 A at 4; ", "max V: should 564, plan 597, posted 500"}) {
    CAPTURE(std::string(text), said);
    CHECK(said.find(text) != std::string::npos);
  }
  CHECK(same.parts.all("desc").at(0)->text.find("Not as") == std::string::npos);
  CHECK_FALSE(same.has("odd"));
  CHECK(draw(sound_design()).svg.find("posted") == std::string::npos);
}

TEST_CASE("found strings of another length are drawn as a group of their own, and a missing switch is none") {
  Json each = Json::array({18, 18, 18, 18, 18, 18, 18, 18, 17});
  const Drawn split =
      draw(sound_design(), visit({{"count", {{"positive", 9}, {"negative", 9}, {"series", each}}}}));
  CHECK(split.inputs() == 9);
  CHECK(split.says("≠ 8 strings of 18"));
  CHECK(split.says("≠ 1 string of 17"));
  CHECK(split.says("18 / – / ≠17,18"));
  const Drawn none =
      draw(sound_design(), visit({{"disconnect", {{"present", false}}}, {"count", {{"fuses", 0}}}}));
  CHECK_FALSE(none.has("switch"));
  CHECK(none.says("≠ no disconnect"));
  CHECK_FALSE(none.has("fuse"));
  CHECK(none.says("≠ no fuses"));
}

TEST_CASE("the whole drawing is said in words") {
  const Drawn drawn = draw(sound_design());
  const WebElement& svg = drawn.parts.elements.at(0);
  CHECK(svg.attribute("role") == "img");
  CHECK(drawn.parts.by_id(svg.attribute("aria-labelledby"))->text == "Box A-01, one-line drawing");
  CHECK(
      drawn.parts.by_id(svg.attribute("aria-describedby"))->text ==
      "9 strings on 9 inputs, each with a fuse of 15 A in one pole, to a bus, a load-break switch of 1000 V, 200 A "
      "(in the box), and by 4/0 AWG copper to inverter I; enclosure type 4X.");
  const Drawn marked = draw(with_box({{"fuse", {{"dc", false}}}}));
  CHECK(marked.parts.elements.at(0).attribute("role") == "group");
  CHECK(marked.svg.find("1 finding is marked.") != std::string::npos);
}
