// Findings marked in the drawing of a box: every one, where it belongs, apart from each other, within the
// sheet; and text from a file stays text.
#include <algorithm>
#include <set>

#include "boxproof/rule.hpp"
#include "src/report/schematic.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/drawn.hpp"
#include "tests/support/example.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/rule_case.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Strings = std::vector<std::string>;

// What must be true of any drawing.
void check_drawing(const Drawn& drawn) {
  CHECK(drawn.parts.problems == Strings{});
  const Extent sheet = sheet_of(drawn);
  const auto texts = texts_of(drawn), callouts = callouts_of(drawn);
  for (const auto* all : {&texts, &callouts})
    for (const Extent& e : *all) {
      CAPTURE(e.what, e.left, e.right, e.top, e.bottom);
      CHECK(e.left >= sheet.left);
      CHECK(e.right <= sheet.right);
      CHECK(e.top >= sheet.top);
      CHECK(e.bottom <= sheet.bottom);
    }
  for (std::size_t i = 0; i < callouts.size(); ++i) {
    for (std::size_t k = i + 1; k < callouts.size(); ++k) {
      CAPTURE(callouts[i].what, callouts[k].what);
      CHECK_FALSE(overlap(callouts[i], callouts[k]));
    }
    for (const Extent& text : texts) {
      CAPTURE(callouts[i].what, text.what);
      CHECK_FALSE(overlap(callouts[i], text));
    }
  }
}

// The numbers of the entries that a box's findings are in.
std::set<std::string> numbers_of(const Drawn& drawn) {
  const Strings all = drawn.marked_numbers();
  return {all.begin(), all.end()};
}

Json visit(Json seen) {
  seen["id"] = "A-01";
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({seen})}};
}

}  // namespace

TEST_CASE("every drawing of the examples is well formed, its callouts are apart and all there") {
  std::set<std::string> ids;
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    for (std::size_t i = 0; i < judged->judgement.boxes.size(); ++i) {
      const Drawn drawn = draw(*judged, i);
      CAPTURE(std::string(example.name), i);
      check_drawing(drawn);
      CHECK(numbers_of(drawn).empty() == (drawn.marks == 0));
      constexpr std::size_t few_kilobytes = 8000;
      CHECK(drawn.svg.size() < few_kilobytes);
      for (const WebElement& e : drawn.parts.elements)
        if (const std::string id = e.attribute("id"); !id.empty())
          CHECK(ids.insert(std::string(example.name) + id).second);
    }
  }
}

TEST_CASE("the mark of every rule case is in the drawing, with a link that has a name") {
  for (const RuleCase& c : every_rule_case()) {
    const auto judged = c.judged("2017", true);
    CAPTURE(c.rule, c.part);
    const Drawn drawn = draw(*judged);
    check_drawing(drawn);
    std::set<std::string> linked;
    for (const WebElement* a : drawn.parts.all("a", "call")) {
      const std::string number = a->attribute("href").substr(std::string("#finding-").size());
      CHECK(a->text.starts_with("finding " + number + ": "));
      linked.insert(number);
    }
    CHECK(linked == numbers_of(drawn));
    const bool any = std::any_of(judged->findings().begin(), judged->findings().end(),
                                 [](const Finding& f) { return f.box == 0U; });
    CHECK(linked.empty() != any);
  }
}

TEST_CASE("the part that a finding concerns is heavier, and no other") {
  struct Case {
    Json patch;
    Strings hit;
  };
  const std::vector<Case> cases{
      {Json::object(), {}},
      {{{"fuse", {{"dc", false}}}}, {"fuse"}},
      {{{"disconnect", {{"rated_a", 100}}}}, {"switch"}},
      {{{"enclosure", {{"listed", false}}}}, {"case"}},
      {{{"egc", {{"size", "12 AWG"}}}}, {"earth"}},
      {{{"output", {{"ocpd_a", 110}}}}, {"device"}},
      {{{"labels", Json::array()}}, {"lbl"}},
  };
  for (const Case& c : cases) {
    CAPTURE(c.patch.dump());
    CHECK(draw(with_box(c.patch)).hit() == c.hit);
  }
}

TEST_CASE("the string that a measurement is about is heavier among its group") {
  const Drawn drawn =
      draw(sound_design(), visit({{"measured", {{"strings", {{{"position", 3}, {"reversed", true}}}}}}}));
  const auto inputs = drawn.parts.all("path", "in");
  REQUIRE(inputs.size() == 2);
  CHECK_FALSE(inputs[0]->is("hit"));
  REQUIRE(inputs[1]->is("hit"));
  const std::string d = inputs[1]->attribute("d");
  CHECK(std::count(d.begin(), d.end(), 'M') == 1);
  CHECK(drawn.inputs() == 9);
}

TEST_CASE("four severities have four shapes") {
  const std::string key = report::schematic_key();
  const WebPage page = take_apart("<!doctype html>\n" + key);
  CHECK(page.problems == Strings{});
  std::set<std::string> shapes;
  for (const WebElement* path : page.all("path")) {
    std::string commands;  // the kinds of strokes, without their lengths
    for (const char c : path->attribute("d"))
      if (c >= 'A' && c <= 'z') commands += c;
    shapes.insert(commands);
  }
  CHECK(shapes.size() == 4);
  for (const std::string_view severity : severity_names) CHECK(key.find(severity) != std::string::npos);
}

TEST_CASE("many marks on one part stand in rows") {
  Json seen = Json::array();
  for (const std::string_view word : condition_words)
    seen.push_back({{"what", word}, {"where", "fuse holder"}});
  const auto judged = judge(sound_design(), {}, visit({{"seen", seen}}));
  const Drawn drawn = draw(*judged);
  check_drawing(drawn);
  const Strings numbers = drawn.marked_numbers();
  CHECK(numbers.size() == numbers_of(drawn).size());
  CHECK(numbers.size() == condition_words.size());
}

TEST_CASE("hostile text stays text, is cut in the drawing and whole in its title") {
  const std::string hostile =
      "<script>alert(1)</script>&\"'\xE2\x80\xAE]]><a href=x>\x1b[31m" + std::string(300, 'W');
  Json design = sound_design();
  design["combiners"][0]["id"] = hostile;
  design["combiners"][0]["circuits"][0]["id"] = hostile;
  design["combiners"][0]["enclosure"]["type"] = hostile;
  design["modules"][hostile] = design["modules"]["M"];
  design["combiners"][0]["circuits"][0]["module"] = hostile;
  design["inverters"][hostile] = design["inverters"]["I"];
  design["combiners"][0]["inverter"] = hostile;
  design["conductors"]["string"]["insulation"] = hostile;
  const Drawn drawn = draw(design);
  check_drawing(drawn);
  CHECK(drawn.parts.all("script").empty());
  CHECK(drawn.parts.all("a", "call").size() == drawn.parts.all("a").size());
  CHECK(drawn.svg.find('\x1b') == std::string::npos);
  CHECK(drawn.svg.find("\xE2\x80\xAE") == std::string::npos);
  const auto titles = drawn.parts.all("title");
  const auto whole = [&](std::string_view end) {
    return std::any_of(titles.begin(), titles.end(), [&](const WebElement* t) {
      return t->text.ends_with(end) && t->text.find("<script>alert(1)</script>") != std::string::npos;
    });
  };
  CHECK(whole(std::string(300, 'W')));
  CHECK(drawn.says("…"));
}

TEST_CASE("a mark without a link is no link, and an entry that speaks twice of a part is one callout") {
  const auto judged = judge(with_box({{"fuse", {{"dc", false}}}}));
  BoxFacts facts;
  FoundBox own;
  const BoxResult& box = judged->judgement.boxes[0];
  facts_of(judged->design, judged->edition, nullptr, box, own, facts);
  const Finding* finding = &judged->findings()[0];
  const auto calls = [&](const std::vector<report::Mark>& marks) {
    const WebPage page =
        take_apart("<!doctype html>\n" +
                   report::schematic({judged->design, nullptr, judged->edition, judged->judgement, {}}, box,
                                     facts, marks));
    CHECK(page.all("a").empty());
    Strings out;
    for (const WebElement* g : page.all("g", "call")) out.push_back(g->text.substr(0, g->text.find(':')));
    return out;
  };
  CHECK(calls({{finding, 7, ""}}) == Strings{"finding 7"});
  CHECK(calls({{finding, 7, ""}, {finding, 7, ""}}) == Strings{"finding 7"});
  CHECK(calls({{finding, 7, ""}, {finding, 123456, ""}}) == Strings{"finding 7", "finding 123456"});
}
