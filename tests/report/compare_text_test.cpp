// The comparison for people, as text and as Markdown: what stands where, and that nothing hostile gets
// through.
#include <fmt/format.h>

#include "src/report/compare.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::string text_of(const ComparedReports& c, bool colour = false) {
  std::string out;
  report::write_comparison_text(c.comparison, colour, [&](std::string_view piece) { out += piece; });
  return out;
}
std::string markdown_of(const ComparedReports& c) {
  std::string out;
  report::write_comparison_markdown(c.comparison, [&](std::string_view piece) { out += piece; });
  return out;
}

Json example(const char* record) {
  return report_json(*judge_example("saltmarsh.json", record));
}
const std::unique_ptr<ComparedReports>& visits() {
  static const auto c =
      compare_reports(example("saltmarsh-visit.json"), example("saltmarsh-second-visit.json"));
  return c;
}

bool has(const std::string& page, std::string_view what) {
  return page.find(what) != std::string::npos;
}
// Whether these stand in the page, one behind the other.
bool in_order(const std::string& page, const std::vector<std::string>& pieces) {
  std::size_t at = 0;
  for (const std::string& piece : pieces) {
    CAPTURE(piece);
    at = page.find(piece, at);
    if (at == std::string::npos) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("the sections of a second visit, what keeps an approval up first, the caution last") {
  const std::string page = text_of(*visits());
  CHECK(in_order(page,
                 {"comparison\n", "Saltmarsh Packing Halls\n",
                  "  before  before.json: field check of 2027-03-18, NEC 2017: STOP\n",
                  "  after   after.json: field check of 2027-04-22, NEC 2017: STOP\n",
                  "  The later record has nothing of 1 box of the plan.\n",
                  "VERDICT  STOP → STOP  unsafe as it stands\n",
                  "         Of 55 findings before, 34 are corrected, 19 are still open, 2 were not\n"
                  "         looked at again. 1 is new.\n",
                  "Open or new: 1 hazard, 6 corrections, 1 query, 14 pieces of advice\n", "NEW (1 hazard)",
                  "STILL OPEN (4 corrections", "NOT LOOKED AT AGAIN (2 corrections)", "measured/9/voc_v",
                  "CORRECTED (10 hazards", "CHANGED BOXES", std::string(caution().substr(0, 30))}));
  CHECK(too_wide(page).empty());
  CHECK_FALSE(has(page, "AGREED"));
  CHECK_FALSE(has(page, "OFF THE PLAN"));
  CHECK_FALSE(has(page, "Nothing changed"));
  CHECK(control_characters(page) == 0);
}

TEST_CASE("colour says nothing that the words do not") {
  const std::string page = text_of(*visits(), true);
  CHECK(has(page, "\x1b[1;31mNEW"));
  CHECK(without_colour(page) == text_of(*visits()));
}

TEST_CASE("nothing changed") {
  const Json last = example("saltmarsh-final-visit.json");
  const std::string page = text_of(*compare_reports(last, last));
  CHECK(has(page, "Nothing changed between the two reports."));
  CHECK(has(page, "Of 14 findings before, 14 are still open. None is new."));
  CHECK_FALSE(has(page, "CORRECTED"));
  const Json empty = plan_report(sound_design());
  CHECK(has(text_of(*compare_reports(empty, empty)), "The earlier report has no findings. None is new."));
}

TEST_CASE("what differs in a finding that is still open is said, alike boxes once") {
  Json before = with_second_box(with_circuit({{"series", 40}}));
  Json after = with_second_box(with_circuit({{"series", 38}}));
  const auto c = compare_reports(plan_report(before), plan_report(after));
  const std::string page = text_of(*c);
  CHECK(in_order(page, {"[voltage/site-limit]", "boxes     A-01, B-02  (2 boxes)",
                        "changed   found was 1326 V, now 1259.7 V", "section   690.7"}));
  const Json query = plan_report(with_box({{"fuse", {{"dc", nullptr}}}}));
  Json graver = query;
  graver["findings"][0]["severity"] = "hazard";
  CHECK(has(text_of(*compare_reports(query, graver)), "changed   was a query, now a hazard"));
  CHECK_FALSE(has(text_of(*compare_reports(query, query)), "    changed "));
}

TEST_CASE("boxes that came and went, and changes that nobody asked for") {
  const Json one = plan_report(sound_design()), two = plan_report(with_second_box(sound_design()));
  CHECK(in_order(text_of(*compare_reports(one, two)), {"NEW BOXES", "B-02  (1 box)"}));
  CHECK(in_order(text_of(*compare_reports(two, one)), {"BOXES TAKEN OFF THE PLAN", "B-02  (1 box)"}));
  CHECK(in_order(markdown_of(*compare_reports(two, one)), {"## Boxes taken off the plan", "B-02 (1 box)"}));
  const auto changed = compare_reports(one, plan_report(with_circuit({{"series", 17}})));
  CHECK(in_order(text_of(*changed),
                 {"CHANGED BOXES", "– A-01", "modules 162 → 153", "Nothing had been asked for"}));
  CHECK(has(markdown_of(*changed), "(nothing had been asked for there)"));
}

TEST_CASE("the Markdown has the same sections, each finding once") {
  const std::string page = markdown_of(*visits());
  CHECK(in_order(page, {"# Comparison: Saltmarsh Packing Halls\n\n", "- Before: before.json: field check",
                        "Verdict: **STOP → STOP**", "## New\n", "`condition/loose-terminal`",
                        "## Still open\n", "## Not looked at again\n",
                        "   - Why: The box was visited, but the record does not say "
                        "again: measured/9/voc\\_v, measured/irradiance\\_w\\_m2",
                        "## Corrected\n", "## Changed boxes\n"}));
  CHECK(page.ends_with("switch open.\n"));
}

TEST_CASE("names that are written to deceive are shown as they are") {
  const std::string nasty = "<b>A\x1b[2J`|\n# \u202ex";
  Json design = with_box({{"id", nasty}, {"fuse", {{"dc", false}}}});
  design["site"]["name"] = nasty;
  Json before = plan_report(design), after = before;
  after["site"]["name"] = "other" + nasty;
  after["findings"][0]["unit"] = nasty;
  after["findings"][0]["found"] = 7;
  after["findings"][0]["section"] = nasty;
  after["findings"][0]["part"] = nasty;
  after["findings"][0]["message"] = nasty;
  after["tool"]["version"] = nasty;
  after["boxes"][0]["calc"]["circuits"][0]["id"] = nasty;
  after["findings"].push_back(after["findings"][0]);
  after["findings"].back()["fingerprint"] = "00000000000000aa";
  for (const auto& c : {compare_reports(before, after), compare_reports(after, before)}) {
    const std::string text = text_of(*c), page = markdown_of(*c);
    for (const std::string* one : {&text, &page}) {
      CHECK(control_characters(*one) == 0);
      CHECK_FALSE(has(*one, "\u202e"));
      CHECK(has(*one, "\\u{1B}"));
    }
    CHECK(too_wide(text).empty());
    CHECK_FALSE(has(page, "<b>"));
    CHECK_FALSE(has(page, "\n# \\"));
  }
}
