// Pieces of the page: ids run together, safe text, wrapping, findings that are told as one.
#include "src/report/layout.hpp"
#include "boxproof/rule.hpp"
#include "src/report/groups.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"

using namespace boxproof;
using namespace boxproof::report;

namespace {

std::string together(const std::vector<std::string_view>& ids) {
  return run_together(ids);
}

}  // namespace

TEST_CASE("ids in sequence are run together") {
  std::vector<std::string> names;
  for (int i = 1; i <= 38; ++i) names.push_back((i < 10 ? "A-0" : "A-") + std::to_string(i));
  CHECK(run_together({names.begin(), names.end()}) == "A-01…A-38");
  CHECK(together({}) == "");
  CHECK(together({"A-01"}) == "A-01");
  CHECK(together({"A-01", "A-02"}) == "A-01, A-02");  // two in a row are no range
  CHECK(together({"A-01", "A-02", "A-03"}) == "A-01…A-03");
  CHECK(together({"A-01", "A-02", "A-03", "A-05", "A-06", "A-08"}) == "A-01…A-03, A-05, A-06, A-08");
  CHECK(together({"A-01", "A-02", "A-03", "B-04", "B-05"}) == "A-01…A-03, B-04, B-05");
  CHECK(together({"A-03", "A-02", "A-01"}) == "A-03, A-02, A-01");  // the given order stays
  CHECK(together({"A-01", "A-01"}) == "A-01, A-01");
  CHECK(together({"A-8", "A-9", "A-10", "A-11"}) == "A-8…A-11");
  CHECK(together({"A-98", "A-99", "A-100"}) == "A-98…A-100");
  CHECK(together({"north", "south", "roof"}) == "north, south, roof");
  CHECK(together({"7", "8", "9"}) == "7…9");
  CHECK(together({"A-010", "A-11", "A-12"}) == "A-010, A-11, A-12");  // fewer digits: another numbering
  CHECK(together({"A\x1b-1"}) == "A\\u{1B}-1");
}

// "A-1…A-03" would be read as, of which two do not exist.
TEST_CASE("ids whose leading noughts differ are not one sequence") {
  CHECK(together({"A-1", "A-02", "A-03"}) == "A-1, A-02, A-03");
  CHECK(together({"A-08", "A-09", "A-010"}) == "A-08, A-09, A-010");
}

TEST_CASE("text of a file is made safe for a terminal, and nothing else is changed") {
  CHECK(plain("Saltmarsh ½ °C Größe 箱 𝟙…") == "Saltmarsh ½ °C Größe 箱 𝟙…");
  CHECK(plain("") == "");
  CHECK(plain("a\x1b[2Jb") == "a\\u{1B}[2Jb");
  CHECK(plain("a\nb\tc\rd") == "a\\u{A}b\\u{9}c\\u{D}d");
  CHECK(plain(std::string_view("a\0b", 3)) == "a\\u{0}b");
  CHECK(plain("\x7f") == "\\u{7F}");
  CHECK(plain("\u0085\u009b") == "\\u{85}\\u{9B}");
  CHECK(plain("\u00a0") == "\u00a0");
  CHECK(plain("\ufffd\ufffe\uffff") == "\ufffd\\u{FFFE}\\u{FFFF}");
  CHECK(plain("a\xff\xc3z\xe2\x82") == "a\\u{FFFD}\\u{FFFD}z\\u{FFFD}\\u{FFFD}");
  for (const std::string_view mark :
       {"\u200e", "\u200f", "\u061c", "\u202a", "\u202e", "\u2066", "\u2069", "\u2028", "\ufeff"})
    CHECK(plain(mark).starts_with("\\u{"));
}

TEST_CASE("padding and cutting count code points") {
  CHECK(left("A", 3) == "A  ");
  CHECK(right("A", 3) == "  A");
  CHECK(left("°°", 3) == "°° ");
  CHECK(left("abcdef", 4) == "abc…");
  CHECK(left("°°°°°", 4) == "°°°…");
  CHECK(right("abcdef", 4) == "abcdef");  // a number is never cut
  CHECK(width_of("−9 °C") == 5);
}

TEST_CASE("paragraphs are wrapped at 80 columns, each line behind its indent") {
  std::string text;
  for (int i = 0; i < 60; ++i) text += (i ? " word°" : "word°");
  const std::string wrapped = wrap(text, 4, "lead");
  const auto lines = test::lines_of(wrapped);
  CHECK(lines.size() == 5);  // 12 words of 5 columns and their blanks, 71, fit 76 columns
  CHECK(lines.front().starts_with("leadword°"));
  for (std::size_t i = 1; i < lines.size(); ++i) CHECK(lines[i].starts_with("    word°"));
  CHECK(test::too_wide(wrapped).empty());
  CHECK(wrap("", 4) == "\n");
  CHECK(grouped(10886) == "10 886");
  CHECK(grouped(1234567) == "1 234 567");
  CHECK(grouped(999) == "999");
}

TEST_CASE("a group holds each finding once, and all of them are in a group") {
  for (const test::Example& example : test::examples) {
    const auto judged = judge_example(example);
    const auto groups = group(judged->findings());
    std::size_t held = 0;
    for (const Group& g : groups) {
      held += g.findings.size();
      for (const Finding* f : g.findings) {
        CHECK(f->rule == g.first().rule);
        CHECK(f->severity == g.first().severity);
        CHECK(f->basis == g.first().basis);
        CHECK(f->section == g.first().section);
        CHECK(f->box_id.empty() == g.first().box_id.empty());
      }
    }
    CHECK(held == judged->findings().size());
    for (std::size_t i = 1; i < groups.size(); ++i) {
      const Finding& a = groups[i - 1].first();
      const Finding& b = groups[i].first();
      CHECK(std::pair(a.severity, a.rule->id) <= std::pair(b.severity, b.rule->id));
    }
  }
}

TEST_CASE("the same advice on 14 boxes is one entry with their ids") {
  const auto judged = test::judge_example("saltmarsh.json");
  const auto groups = group(judged->findings());
  REQUIRE(groups.size() == 1);
  CHECK(groups[0].findings.size() == 14);
  CHECK(boxes_of(groups[0]) == "A-15…A-28");
  CHECK(box_count(groups[0]) == 14);
  CHECK(parts_of(groups[0]) == "output conductor");
  CHECK(range_of(groups[0], &Finding::found) == "300 kcmil aluminum");
}
