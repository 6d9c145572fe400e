// The correction list: everything that the report as text says, under the same numbers, as CommonMark.

#include <fmt/format.h>

#include "src/report/groups.hpp"
#include "src/report/markdown_text.hpp"
#include "src/report/phrases.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/hostile.hpp"
#include "tests/support/page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::string letter_of(const Judged& j, bool show_work = false) {
  std::string out;
  write_markdown({j.design, j.record ? &*j.record : nullptr, j.edition, j.judgement, {}, show_work},
                 [&](std::string_view text) { out += text; });
  return out;
}

// The item with this number: its line and those below it that are indented.
std::vector<std::string> item(const std::string& letter, std::size_t number) {
  const auto lines = lines_of(letter);
  const std::string lead = std::to_string(number) + ". ";
  std::vector<std::string> out;
  for (const std::string& line : lines) {
    if (out.empty() ? line.starts_with(lead) : line.starts_with(std::string(lead.size(), ' '))) {
      out.push_back(out.empty() ? line : line.substr(lead.size()));
    } else if (!out.empty() && !line.empty()) {
      break;
    }
  }
  return out;
}

std::string detail(const std::vector<std::string>& lines, const std::string& label) {
  const std::string lead = "- *" + label + ":* ";
  for (const std::string& line : lines)
    if (line.starts_with(lead)) return line.substr(lead.size());
  return {};
}

const std::string faults = BOXPROOF_EXAMPLES "/saltmarsh-faults.json";

}  // namespace

TEST_CASE("the items are the entries of the text report, under their numbers, with all that they say") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example, {{}, true});
    const std::string letter = letter_of(*judged, true), text = text_report(*judged, {true, false});
    std::size_t number = 0;
    for (const report::Group& g : report::group(judged->findings())) {
      const auto lines = item(letter, ++number);
      CAPTURE(std::string(example.name), number, lines);
      REQUIRE_FALSE(lines.empty());
      const Finding& f = g.first();
      CHECK(lines[0].find("(`" + std::string(f.rule->id) + "`)") != std::string::npos);
      CHECK(text.find(fmt::format("\n{:>3} {}", number, f.rule->title.substr(0, 30))) != std::string::npos);
      std::string whole;
      for (const std::string& line : lines) whole += line + "\n";
      const auto says = [&](const std::string& words) {
        CAPTURE(words, whole);
        CHECK(whole.find(report::markdown_line(words)) != std::string::npos);
      };
      if (!f.box_id.empty()) says(report::boxes_of(g));
      if (!f.lacking) says(report::range_of(g, &Finding::required));
      if (!f.lacking) says(f.message);
      says(report::to_do(f));
      CHECK(detail(lines, "Section") == report::markdown_line(f.section));
      CHECK(detail(lines, "Place")
                .starts_with(fmt::format("`{}:{}:{}`", f.place.file, f.place.line, f.place.column)));
      for (const Step& step : f.working) CHECK(whole.find(step.formula) != std::string::npos);
    }
    CHECK(item(letter, number + 1).empty());
  }
}

TEST_CASE("head, verdict, dispositions, what is gone, the caution") {
  const auto judged = judge_example(examples[2]);
  const std::string letter = letter_of(*judged);
  for (const std::string_view words :
       {"# Correction list: Saltmarsh Packing Halls\n\nField check, NEC 2017, by boxproof ",
        "\n- Totals: 50 boxes, 628 strings, ", "\n- Visit: visited 2027-03-18 by first walk",
        "\n\n**Verdict: STOP**, unsafe as it stands.\n\n- Boxes: 4 to stop, 11 to correct, ",
        "\n- Findings: 10 hazards, 26 corrections, 4 queries, 15 pieces of advice\n",
        "\n\n## Dispositions, by what was seen in the boxes\n\n- A-16: **replace** (cracked-bushing)\n",
        "\n\n## Hazards: stop, unsafe as it stands\n\n1. **",
        "\n\n## Corrections: to be corrected before approval\n\n11. **",
        "\n\n## Queries: more information needed\n\n", "\n\n## Advice: no approval hangs on it\n\n"}) {
    CAPTURE(std::string(words));
    CHECK(letter.find(words) != std::string::npos);
  }
  CHECK(letter.ends_with("\n\n> **Caution.** " + report::markdown(caution()) + "\n"));
  CHECK(letter.find("\n\n\n") == std::string::npos);
  CHECK((letter.find("## Gone") != std::string::npos) == !judged->judgement.gone.empty());
}

TEST_CASE("what a record takes from the plan is told in short") {
  const auto judged =
      judge(with_box({{"fuse", {{"a", 30}}}}), {}, Json::parse(R"({"format": "boxproof-asbuilt/1", "boxes": [
                              {"id": "A-01", "fuse": {"a": 15}}]})"));
  REQUIRE_FALSE(judged->judgement.gone.empty());
  CHECK(letter_of(*judged).find(
            "\n## Gone: of the plan, and not so on the boxes as found; not counted\n\n- A-01: ") !=
        std::string::npos);
}

TEST_CASE("nothing found: the letter says so, with the verdict") {
  const std::string letter = letter_of(*judge(sound_design()));
  CHECK(letter.find("**Verdict: ACCEPT**, nothing found above advice.") != std::string::npos);
  CHECK(letter.find("\n## Findings: none\n\nThere is nothing to correct.\n") != std::string::npos);
  CHECK(letter.find("\n1. ") == std::string::npos);
  CHECK(letter_of(*judge(with_box({{"fuse", {{"a", 30}}}}))).find("Findings: none") == std::string::npos);
}

TEST_CASE("what to submit: the sheets of the boxes; on site, the evidence") {
  const auto plan = judge(with_box({{"fuse", {{"a", 30}}}}));
  CHECK(detail(item(letter_of(*plan), 1), "Submit") == "sheet E-1, revised");
  Json two = with_box({{"fuse", {{"a", 30}}}});
  two["combiners"].push_back(two["combiners"][0]);
  two["combiners"][1]["id"] = "A-02";
  two["combiners"][1]["sheet"] = "E-2";
  CHECK(detail(item(letter_of(*judge(two)), 1), "Submit") == "sheets E-1, E-2, revised");
  CHECK(detail(item(letter_of(*judge(with_box({{"fuse", {{"a", 30}}}, {"sheet", nullptr}}))), 1), "Submit") ==
        "the plan, revised");
  CHECK(detail(item(letter_of(*judge(with({{"site", {{"temperature_source", nullptr}}}}))), 1), "Submit") ==
        "the answer, and the plan with it");
  const Json seen = Json::parse(R"({"format": "boxproof-asbuilt/1", "boxes": [{"id": "A-01",
    "seen": [{"what": "burned-bus"}], "count": {"positive": 9, "negative": 8}}]})");
  const std::string letter = letter_of(*judge(sound_design(), {}, seen));
  const auto burned = item(letter, 1), polarity = item(letter, 2);
  CHECK(detail(burned, "Show").starts_with("a photo of the part"));
  CHECK(detail(polarity, "Show").starts_with("the box counted and read again in a field record"));
  CHECK(detail(polarity, "Submit").empty());
}

TEST_CASE("agreed exceptions stand in a section of their own") {
  const Called c = call({"check", faults, "--exceptions", BOXPROOF_EXAMPLES "/saltmarsh-exceptions.json",
                         "--on", "2027-03-18", "--format", "markdown"});
  CHECK(c.status == 1);
  CHECK(c.says("\n## Agreed exceptions: no verdict hangs on what is set aside here\n"));
  CHECK(c.says(
      "\n- Disconnect too far from the box (`disconnect/too-far`) on A-10: in force; 1 finding set aside."));
  CHECK(c.says("\n  - Set aside, a correction: A-10; The disconnect of A-10 is 5 m away"));
  CHECK(c.says(": EXPIRED at the end of 2026-12-31; its 1 finding stands. Agreed by "));
  CHECK_FALSE(call({"check", faults, "--format", "markdown"}).says("Agreed exceptions"));
}

TEST_CASE("the command line: overrides are told, a file is written, the help names the format") {
  CHECK(call({"check", faults, "--format", "markdown", "--low-c", "-3"})
            .says("\n- Changed on the command line: site.low\\_c is −3 °C (the file says −9 °C)\n"));
  const Folder folder;
  CHECK(call({"check", faults, "--format", "markdown", "--output", folder.path("letter.md")}).out.empty());
  CHECK(folder.get("letter.md") == call({"check", faults, "--format", "markdown"}).out);
  CHECK(call({"check", "--help"}).says("markdown"));
  CHECK(call({"check", faults, "--format", "markdwon"}).complains("markdown"));
  CHECK_FALSE(call({"check", faults, "--format", "markdown", "--color", "always"}).says("\x1b"));
}

namespace {

// What makes the structure of a letter: of each line the blanks and marks before its first word.
std::vector<std::string> skeleton(const std::string& letter) {
  std::vector<std::string> out;
  for (const std::string& line : lines_of(letter)) {
    std::size_t end = 0;
    while (end < line.size() &&
           std::string_view(" #>-`.0123456789*").find(line[end]) != std::string_view::npos)
      ++end;
    out.push_back(line.substr(0, end));
  }
  return out;
}

}  // namespace

// A design that is hostile everywhere makes the same headings, lists and blocks as one that is not.
TEST_CASE("no text of a file changes the structure of the letter") {
  Json design = with_box({{"fuse", {{"a", 30}, {"dc", nullptr}}}});
  const auto letter_with = [&](const std::string& text) {
    return letter_of(*judge(hostile_design(design, text), {}, nullptr, {{}, true}), true);
  };
  const auto harmless = skeleton(letter_with("x"));
  for (const auto& list : {markdown_texts(), hostile_texts()})
    for (const Hostile& hostile : list) {
      if (hostile.text.size() > 1000) continue;
      CAPTURE(std::string(hostile.what));
      const auto is = skeleton(letter_with(hostile.text + "x"));
      REQUIRE(is.size() == harmless.size());
      for (std::size_t i = 0; i < is.size(); ++i) {
        // A text may begin with what looks like a mark, behind the marks of the line or a backslash.
        CAPTURE(is[i], harmless[i]);
        CHECK(is[i].starts_with(harmless[i].substr(0, harmless[i].find_last_of("-#>`*. ") + 1)));
      }
    }
}

TEST_CASE("no text of a file ends a block of workings") {
  Json design = with_box({{"fuse", {{"a", 30}}}});
  const std::string letter =
      letter_of(*judge(hostile_design(design, "```\n````\n# x `"), {}, nullptr, {{}, true}), true);
  std::size_t fences = 0;
  for (const std::string& line : lines_of(letter)) {
    const auto start = line.find_first_not_of(' ');
    if (start != std::string::npos && line.substr(start).starts_with("```")) ++fences;
    CHECK_FALSE(line.substr(start == std::string::npos ? 0 : start).starts_with("# x"));
  }
  CHECK(fences > 0);
  CHECK(fences % 2 == 0);
}
