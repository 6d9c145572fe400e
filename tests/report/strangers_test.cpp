// Visited boxes that are not on the plan: in the counts of verdicts and among the dispositions.
#include "src/report/strangers.hpp"

#include "src/report/phrases.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"
#include "tests/support/said.hpp"
#include "tests/support/web_page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

Json stranger(std::string_view id, const std::vector<std::string_view>& words) {
  Json box{{"id", id}, {"count", {{"positive", 3}}}};
  for (const std::string_view word : words) box["seen"].push_back({{"what", word}});
  return box;
}

std::unique_ptr<Judged> judged_with(const std::vector<Json>& boxes, const CheckOptions& options = {}) {
  return judge(with_second_box(sound_design()), "2017",
               Json{{"format", "boxproof-asbuilt/1"}, {"boxes", boxes}}, options);
}

const Json agrees{{"id", "A-01"}, {"count", {{"positive", 9}, {"negative", 9}}}};

std::string letter_of(const Judged& j) {
  std::string out;
  write_markdown({j.design, &*j.record, j.edition, j.judgement, {}},
                 [&](std::string_view text) { out += text; });
  return out;
}

}  // namespace

TEST_CASE("a burned bus in a box that is not on the plan is told beside the verdict") {
  const auto j =
      judged_with({agrees, stranger("Z-9", {"burned-bus", "loose-terminal"}), stranger("Z-1", {})});
  CHECK(j->judgement.verdict == Verdict::stop);
  CHECK(report::verdicts_line(j->judgement) ==
        "1 not visited, 1 to accept; not on the plan: 1 to stop, 1 to correct");
  const std::string text = text_report(*j), letter = letter_of(*j), page = html_report(*j);
  CHECK(text.find("         Boxes: 1 not visited, 1 to accept; not on the plan: 1 to stop, 1 to\n"
                  "         correct\n") != std::string::npos);
  CHECK(text.find("DISPOSITIONS, by what was seen in the boxes\n"
                  "  Z-9 replace  burned-bus, loose-terminal (repair); not on the plan\n") !=
        std::string::npos);
  CHECK(letter.find("- Boxes: 1 not visited, 1 to accept; not on the plan: 1 to stop, 1 to correct\n") !=
        std::string::npos);
  CHECK(letter.find("- Z-9: **replace** (burned-bus, loose-terminal (repair); not on the plan)\n") !=
        std::string::npos);
  CHECK(page.find("<li class=\"stop\"><strong>1</strong> not on the plan, to stop</li>"
                  "<li class=\"correct\"><strong>1</strong> not on the plan, to correct</li>") !=
        std::string::npos);
  CHECK(
      page.find(
          "<tr><th scope=\"row\"><bdi class=\"id\">Z-9</bdi></th><td><span class=\"tag disposition\">replace</span></td>"
          "<td>burned-bus, loose-terminal (repair); not on the plan</td></tr>") != std::string::npos);
  CHECK(too_wide(text).empty());
}

TEST_CASE("the report for programs has boxes of the plan alone, as before") {
  const Json report = Json::parse(json_report(*judged_with({agrees, stranger("Z-9", {"burned-bus"})})));
  REQUIRE(report["boxes"].size() == 2);
  CHECK(report["boxes"][0]["id"] == "A-01");
  CHECK(report["boxes"][1]["id"] == "B-02");
}

TEST_CASE("boxes of the plan come before others, and each keeps its own findings") {
  Json burned = agrees;
  burned["seen"] = {{{"what", "debris-inside"}}};
  const auto j = judged_with(
      {stranger("Z-9", {"loose-terminal"}), burned, stranger("Z-1", {"loose-terminal", "burned-bus"})});
  const std::string text = text_report(*j);
  CHECK(text.find("  A-01 correct  debris-inside\n"
                  "  Z-1  replace  burned-bus, loose-terminal (repair); not on the plan\n"
                  "  Z-9  repair   loose-terminal; not on the plan\n") != std::string::npos);
  const auto strangers = report::strangers(j->judgement);
  REQUIRE(strangers.size() == 2);
  CHECK(strangers[0].findings.size() == 3);  // tally/not-on-plan is one of them
  CHECK(strangers[1].findings.size() == 2);
}

TEST_CASE("no stranger, no word of one; of a selection those that it chose") {
  CHECK(report::verdicts_line(judged_with({agrees})->judgement) == "1 not visited, 1 to accept");
  CheckOptions chosen;
  chosen.boxes = {"A-01"};
  const std::vector<Json> boxes{agrees, stranger("Z-9", {"burned-bus"})};
  CHECK(report::verdicts_line(judged_with(boxes, chosen)->judgement) == "1 to accept");
  chosen.boxes = {"Z-*"};
  CHECK(report::verdicts_line(judged_with(boxes, chosen)->judgement) == "not on the plan: 1 to stop");
}
