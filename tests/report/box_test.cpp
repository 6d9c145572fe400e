// One box on one screen.
#include <algorithm>
#include <sstream>

#include "boxproof/rule.hpp"
#include "src/rules/notes.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

bool has(const std::string& page, const std::string& text) {
  return page.find(text) != std::string::npos;
}

// The words of the page with one blank between them: what it says, however it is laid out.
std::string said(const std::string& page) {
  std::istringstream words(page);
  std::string out;
  for (std::string word; words >> word;) out += word + " ";
  return out;
}

std::string box_of(const Json& design, const Json& record = nullptr) {
  return box_report(*judge(design, {}, record), 0);
}

Json visit(Json seen = Json::object(), const std::string& id = "A-01") {
  seen["id"] = id;
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({seen})}};
}

}  // namespace

TEST_CASE("no screen of any box of the examples is wider than 80 columns") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example, {{}, true});
    for (std::size_t i = 0; i < 50; ++i) {
      CAPTURE(std::string(example.name), i);
      CHECK(too_wide(box_report(*judged, i)) == std::vector<std::string>{});
      CHECK(too_wide(box_report(*judged, i, {true, true})) == std::vector<std::string>{});
    }
  }
}

TEST_CASE("a screen holds all that the box needs, in this order") {
  const std::string page = box_of(sound_design());
  std::size_t at = 0;
  for (const std::string_view label :
       {"BOX A-01, sheet E-1", "\nVERDICT", "\nCOUNT", "\nFUSE", "\nWIRE", "\nBOX ", "\nDISCONNECT",
        "\nLABEL", "\nMARGINS", "\nFINDINGS    none"}) {
    CAPTURE(std::string(label));
    const auto found = page.find(label, at);
    REQUIRE(found != std::string::npos);
    at = found;
  }
  CHECK(said(page).ends_with(std::string(caution()) + " "));
  CHECK(has(page, "NEC 2017"));
  CHECK(has(page, "feeds I"));
}

TEST_CASE("what should be counted") {
  const std::string one = said(box_of(sound_design()));
  CHECK(has(one, "9 positives, 9 negatives, 9 fuses (one pole); 9 inputs used of 12"));
  CHECK(has(one, "circuit 1: 9 strings of 18 modules M"));
  const std::string both = said(box_of(with_box({{"fuse", {{"poles", "both"}}}})));
  CHECK(has(both, "9 positives, 9 negatives, 18 fuses (both poles)"));
  CHECK_FALSE(has(said(box_of(with_box({{"fuse", nullptr}}))), "9 fuses"));
  const std::string joined = said(box_of(with_circuit({{"strings", 8}, {"strings_per_fuse", 2}})));
  CHECK(has(joined, "4 positives, 4 negatives, 4 fuses (one pole); 4 inputs used of 12"));
  CHECK(has(joined, "8 strings of 18 modules M, 2 joined on each fuse"));
}

TEST_CASE("the fuse line says what is needed, and where the plan is silent") {
  // 1.5625 · 9.6 A = 15 A exactly.
  const std::string page = said(box_of(sound_design()));
  CHECK(has(page, "15 A, 1000 V, DC, listed for PV, one pole"));
  CHECK(has(page, "circuit 1: at least 15 A, module allows 20 A"));
  CHECK(has(said(box_of(with_box({{"fuse", {{"dc", false}, {"pv_listed", false}}}}))),
            "NOT FOR DC, not listed for PV"));
  CHECK(has(said(box_of(with_box({{"fuse", nullptr}}))), "none on the plan, and needed"));
  Json silent = sound_design();
  silent["combiners"][0]["fuse"].erase("a");
  silent["combiners"][0]["fuse"].erase("poles");
  CHECK(has(said(box_of(silent)), "? A, 1000 V, DC, listed for PV, poles ?"));
}

TEST_CASE("the label that the box should have") {
  // 18 · 30 V · (1 + 0.003 · 35) = 596.7 V; 9 · 1.25 · 9.6 A = 108 A.
  CHECK(has(said(box_of(sound_design())),
            "should say A-01: 9 strings of 18; maximum 597 V, 108 A; fuses 15 A"));
  // As it is printed on labels, up to a tenth: 9 · 1.25 · 9.61 A = 108.1125 A.
  CHECK(has(said(box_of(with({{"modules", {{"M", {{"isc_a", 9.61}}}}}}))), "maximum 597 V, 108.2 A"));
  Json no_low = sound_design();
  no_low["site"].erase("low_c");
  CHECK(has(said(box_of(no_low)), "maximum ? V, 108 A"));
}

TEST_CASE("a margin that is overrun is marked") {
  const std::string page = box_of(with_box({{"fuse", {{"a", 10}}}}));
  const auto lines = lines_of(page);
  const auto fuse = std::find_if(lines.begin(), lines.end(),
                                 [](const std::string& l) { return has(l, "fuse, least rating"); });
  REQUIRE(fuse != lines.end());
  CHECK(fuse->ends_with("!"));
  CHECK(has(*fuse, "of 10 A"));
  // Every margin of the box has a line of its own.
  const auto judged = judge(sound_design());
  BoxFacts facts;
  FoundBox own;
  facts_of(judged->design, judged->edition, nullptr, judged->judgement.boxes[0], own, facts);
  const std::string sound = box_report(*judged, 0);
  for (const Margin& m : margins(judged->design.design, facts, judged->edition)) {
    CHECK(has(sound, std::string(m.of)));
    CHECK(has(sound, shown(m.value) + " of " + shown(m.limit) + " " + std::string(m.unit)));
  }
  CHECK_FALSE(has(sound, "!"));
}

TEST_CASE("with a record: as built, or not visited") {
  const std::string built =
      box_of(sound_design(), visit({{"count", {{"positive", 10}, {"negative", 10}}}, {"fuse", {{"a", 20}}}}));
  CHECK(has(built, "As built, where the record has a value"));
  CHECK(has(said(built), "10 positives, 10 negatives, 10 fuses"));
  CHECK(has(said(built), "20 A, 1000 V, DC"));
  CHECK(has(said(built), "[tally/strings; "));
  const std::string unseen = box_of(sound_design(), visit(Json::object(), "A-77"));
  CHECK(has(unseen, "Not visited"));
  CHECK(has(said(unseen), "VERDICT not-visited"));
  CHECK_FALSE(has(box_of(sound_design()), "isited"));
}

TEST_CASE("a screen tells the findings of its own box, all of them and no others") {
  const auto judged = judge_example("saltmarsh-faults.json");
  for (std::size_t i = 0; i < 50; ++i) {
    const std::string page = box_report(*judged, i);
    for (const Finding& f : judged->findings()) {
      if (f.box != i) continue;
      CAPTURE(f.message);
      CHECK(has(said(page), f.message + " [" + std::string(f.rule->id) + "; " + f.section + "]"));
    }
    const bool any = std::any_of(judged->findings().begin(), judged->findings().end(),
                                 [&](const Finding& f) { return f.box == i; });
    CHECK(has(page, "FINDINGS    none") == !any);
    CHECK_FALSE(has(page, "[site/"));
  }
}
