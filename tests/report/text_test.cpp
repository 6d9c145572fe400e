// The report for people: 80 columns, verdict first, caution last, colour that adds nothing but colour.
#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::string unwrapped(std::string text) {
  for (char& c : text)
    if (c == '\n') c = ' ';
  return text;
}

// A design with awkward names wherever a file can name something.
Json named(const std::string& name) {
  Json design = sound_design();
  design["site"]["name"] = name;
  design["site"]["temperature_source"] = name;
  Json& box = design["combiners"][0];
  box["sheet"] = name;
  box["location"] = name;
  box["circuits"][0]["id"] = name;
  box["fuse"]["a"] = 30;
  return design;
}

}  // namespace

TEST_CASE("no line of a report is wider than 80 columns") {
  for (const Example& example : examples)
    for (const bool work : {false, true})
      for (const bool colour : {false, true}) {
        CAPTURE(std::string(example.name), work, colour);
        const auto judged = judge_example(example, {{}, work});
        CHECK(too_wide(text_report(*judged, {work, colour})) == std::vector<std::string>{});
      }
}

TEST_CASE("no line ends in blanks, and the report ends with one line end") {
  for (const Example& example : examples) {
    const std::string page = text_report(*judge_example(example, {{}, true}), {true, false});
    for (const std::string& line : lines_of(page)) {
      CAPTURE(line);
      CHECK_FALSE(line.ends_with(' '));
    }
    CHECK(page.ends_with(".\n"));
    CHECK_FALSE(page.ends_with("\n\n"));
  }
}

TEST_CASE("the verdict stands before the boxes and the findings, the caution last") {
  for (const Example& example : examples) {
    const std::string page = text_report(*judge_example(example));
    const auto verdict = page.find("\nVERDICT  ");
    REQUIRE(verdict != std::string::npos);
    CHECK(verdict < page.find("\nBOXES"));
    for (const std::string_view heading : {"HAZARDS:", "CORRECTIONS:", "QUERIES:", "ADVICE:"})
      if (page.find(heading) != std::string::npos) CHECK(verdict < page.find(heading));
    const auto lines = lines_of(page.substr(0, verdict));
    CHECK(lines.size() <= 12);  // on the first screen
    CHECK(unwrapped(page).ends_with(std::string(caution()) + " "));
  }
}

TEST_CASE("the verdict in words") {
  struct Case {
    Json design;
    std::string_view line;
  };
  const std::vector<Case> cases{
      {sound_design(), "VERDICT  ACCEPT  nothing found above advice"},
      {with({{"site", {{"temperature_source", nullptr}}}}),
       "VERDICT  CLARIFY  cannot be judged without more information"},
      {with_box({{"disconnect", {{"distance_m", 4}}}}),
       "VERDICT  CORRECT  does not meet the adopted code or the approved plan"},
      {with_box({{"fuse", {{"a", 30}}}}), "VERDICT  STOP  unsafe as it stands"},
  };
  for (const Case& c : cases) CHECK(text_report(*judge(c.design)).find(c.line) != std::string::npos);
  const std::string accepted = text_report(*judge(sound_design()));
  CHECK(accepted.find("FINDINGS: none\n") != std::string::npos);
  CHECK(accepted.find("Findings: 0 hazards, 0 corrections, 0 queries, 0 pieces of advice") !=
        std::string::npos);
}

TEST_CASE("every finding of the judgement is told, every box has its row") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    const std::string page = text_report(*judged);
    for (const Finding& f : judged->findings())
      CHECK(page.find("[" + std::string(f.rule->id) + "]") != std::string::npos);
    for (const BoxResult& b : judged->judgement.boxes) {
      const std::string row = "\n  " + judged->design.design.combiners[b.index].id + " ";
      const auto at = page.find(row);
      REQUIRE(at != std::string::npos);
      const std::string line = lines_of(page.substr(at + 1)).front();
      CHECK(line.ends_with(verdict_names[static_cast<std::size_t>(b.verdict)]));
    }
  }
}

TEST_CASE("no colour codes without colour; with colour the same text") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example, {{}, true});
    const std::string bare = text_report(*judged, {true, false}),
                      coloured = text_report(*judged, {true, true});
    CHECK(bare.find('\x1b') == std::string::npos);
    CHECK(coloured != bare);
    CHECK(without_colour(coloured) == bare);
    for (std::size_t i = 0; i < 50; i += 7) {
      const std::string box = box_report(*judged, i, {true, false});
      CHECK(box.find('\x1b') == std::string::npos);
      CHECK(without_colour(box_report(*judged, i, {true, true})) == box);
    }
  }
}

// Seventy columns of name fit a line of eighty with the codes around them or without.
TEST_CASE("colour does not wrap a long name of a site") {
  for (std::size_t words = 10; words <= 16; ++words) {
    std::string name = "Hall";
    for (std::size_t i = 1; i < words; ++i) name += " hall";
    const auto judged = judge(with({{"site", {{"name", name}}}}));
    CAPTURE(name.size());
    CHECK(without_colour(text_report(*judged, {false, true})) == text_report(*judged));
  }
}

TEST_CASE("control characters of a file do not reach the page") {
  const std::string name = "a\x1b[31mb\rc\td\x7f\nz\u009b1m\u202ex";
  const auto judged = judge(named(name), {}, nullptr, {{}, true});
  REQUIRE(judged->find("fuse/over-module-limit") != nullptr);
  for (const std::string& page :
       {text_report(*judged, {true, false}), box_report(*judged, 0, {true, false})}) {
    CHECK(control_characters(page) == 0);
    CHECK(page.find("\u009b") == std::string::npos);
    CHECK(page.find("\u202e") == std::string::npos);
    CHECK(page.find("\\u{1B}[31m") != std::string::npos);
  }
}

namespace {

// Names that a line cannot hold, with blanks and without.
std::vector<std::string> long_names() {
  std::string one_word = "no-blank";
  while (one_word.size() < 120) one_word += "-anywhere";
  return {"a rather long name of a thing that somebody wrote into a design file without thinking of it",
          one_word};
}

}  // namespace

TEST_CASE("long names stay on the page of a report") {
  for (const std::string& name : long_names())
    CHECK(too_wide(text_report(*judge(named(name)))) == std::vector<std::string>{});
}

TEST_CASE("long names stay on the page of a box") {
  for (const std::string& name : long_names())
    CHECK(too_wide(box_report(*judge(named(name)), 0)) == std::vector<std::string>{});
}

// A margin of −10 % or less is a column wider than the place kept for it, and pushes the rest of its row
// aside.
TEST_CASE("the columns of the boxes stand under each other") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    const std::string page = text_report(*judged);
    const auto lines = lines_of(page.substr(page.find("\n  box ") + 1));
    const auto verdict_column = columns_of(lines.front()) - std::string_view("verdict").size();
    for (std::size_t i = 0; i < 50; ++i) {
      const BoxResult& b = judged->judgement.boxes[i];
      const auto word = verdict_names[static_cast<std::size_t>(b.verdict)];
      CAPTURE(lines[i + 1]);
      CHECK(columns_of(lines[i + 1]) - word.size() == verdict_column);
    }
  }
}

TEST_CASE("a selection says that it is one") {
  const auto judged = judge_example(examples[0], {{"A-0?"}, false});
  const std::string page = text_report(*judged);
  CHECK(page.find("Only 9 of 50 boxes are shown; the site's own findings are left out.") !=
        std::string::npos);
  CHECK(page.find("\n  A-09 ") != std::string::npos);
  CHECK(page.find("\n  A-10 ") == std::string::npos);
  CHECK(text_report(*judge_example(examples[0])).find("Only ") == std::string::npos);
}
