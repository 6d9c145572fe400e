// What reports say of a baseline: news in full, what is on it in brief and in words, entries that cover
// nothing any more, and that it approves nothing.
#include "boxproof/baseline.hpp"

#include <algorithm>

#include "boxproof/report.hpp"
#include "tests/support/baseline.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"
#include "tests/support/said.hpp"
#include "tests/support/web_page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

bool has(std::string_view page, std::string_view text) {
  return page.find(text) != std::string_view::npos;
}

// The faulty example beside a baseline of it, changed.
template <class Change>
std::unique_ptr<Judged> faults(Change&& change) {
  auto judged = judge_example(examples[1]);
  Baseline baseline = baseline_of(judged->judgement);
  change(baseline.entries);
  hold_beside(*judged, baseline);
  return judged;
}
std::unique_ptr<Judged> faults() {
  return faults([](std::vector<BaselineEntry>&) {});
}

// Of the faulty example: A-10's switch is new, and two entries occur no more, one is graver.
std::unique_ptr<Judged> changed_faults() {
  return faults([](std::vector<BaselineEntry>& entries) {
    std::erase_if(entries, [](const BaselineEntry& e) { return e.rule == "disconnect/too-far"; });
    for (BaselineEntry& e : entries)
      if (e.rule == "current/inputs") e.severity = Severity::advice;
    for (const char* box : {"A-01", "A-02"})
      entries.push_back(
          {"design.json", std::string(15, '0') + box[3], "fuse/not-dc", box, "fuse", Severity::query, {}});
    std::sort(entries.begin(), entries.end(), comes_before);
  });
}

std::string markdown_report(const Judged& j) {
  std::string out;
  write_markdown({j.design, nullptr, j.edition, j.judgement, {}}, [&](std::string_view t) { out += t; });
  return out;
}

std::string from(const std::string& page, std::string_view text) {
  const auto at = page.find(text);
  CAPTURE(std::string(text), page);
  REQUIRE(at != std::string::npos);
  return page.substr(at);
}

}  // namespace

TEST_CASE("without a baseline no report speaks of one") {
  const auto judged = judge_example(examples[1]);
  for (const std::string& page :
       {json_report(*judged), text_report(*judged), markdown_report(*judged), html_report(*judged)}) {
    CHECK_FALSE(has(page, "aseline of"));
    CHECK_FALSE(has(page, "\"baseline\""));
    CHECK_FALSE(has(page, "on the baseline"));
    CHECK_FALSE(has(page, "\"fresh\""));
  }
}

TEST_CASE("the text report tells what is on the baseline after the news, a line an entry") {
  const auto judged = changed_faults();
  const std::string page = text_report(*judged);
  CHECK(too_wide(page).empty());
  CHECK(has(page,
            "  Held beside the baseline of 2027-03-18 (existing). A baseline approves\n"
            "    nothing: what is on it stands, and counts in every verdict. No hazard is\n"
            "    ever on it.\n"));
  CHECK(has(page,
            "         Findings: 10 hazards, 11 corrections, 3 queries, 16 pieces of advice;\n"
            "         new, not on the baseline: 10 hazards, 2 corrections\n"));
  CHECK(has(page, "VERDICT  STOP"));
  const std::string section = from(page, "On the baseline of 2027-03-18 (existing)\n");
  const std::string before = page.substr(0, page.size() - section.size());
  CHECK(has(before, "[disconnect/too-far]"));
  CHECK(has(before, "[current/inputs]"));
  CHECK_FALSE(has(before, "[fuse/too-small]"));
  CHECK_FALSE(has(section, "disconnect/too-far"));
  CHECK(has(section, " correction fuse/too-small on B-15, circuit low, circuit high\n"));
  CHECK(has(section, " advice conductor/aluminum on A-15…A-28 (14 boxes), output conductor\n"));
  CHECK(has(section,
            "  Graver than on the baseline, and so told above:\n"
            "  – advice current/inputs on A-17, inputs\n"
            "  No longer occurs: remove the entry, or write the baseline anew:\n"
            "  – query fuse/not-dc on A-01, A-02 (2 boxes), fuse\n"));
  // The numbers go on.
  const auto last = std::count(before.begin(), before.end(), '[');
  CHECK(last > 10);
  const std::string first_known = section.substr(section.find('\n') + 1, 4);
  CHECK(std::stoi(first_known) > 10);
}

TEST_CASE("where all is on the baseline the report says that nothing is new") {
  auto judged = judge_example(examples[0]);
  hold_beside(*judged, baseline_of(judged->judgement));
  const std::string page = text_report(*judged);
  CHECK(has(page, "14 pieces of advice; all\n"));
  CHECK(has(page, "         on the baseline, none new\n"));
  CHECK(has(page,
            "FINDINGS: none that are new\n\n"
            "On the baseline of 2027-03-18 (existing)\n"
            "  1 advice conductor/aluminum on A-15…A-28 (14 boxes), output conductor\n\n"));
  CHECK(has(markdown_report(*judged), "## Findings: none that are new\n\n## On the baseline of 2027-03-18 "));
  // Without findings and without entries there is no section, but the reader is told.
  auto sound = judge(sound_design());
  hold_beside(*sound, baseline_of(sound->judgement));
  const std::string quiet = text_report(*sound);
  CHECK(has(quiet, "Held beside the baseline of 2027-03-18 (existing)."));
  CHECK(has(quiet, "FINDINGS: none\n"));
  CHECK_FALSE(has(quiet, "On the baseline of"));
  CHECK_FALSE(has(quiet, "none new"));
}

TEST_CASE("the correction list has what is on the baseline below the corrections") {
  const std::string page = markdown_report(*changed_faults());
  CHECK(has(page, "- Held beside the baseline of 2027-03-18 (existing). A baseline approves nothing: "));
  CHECK(has(page, "; new, not on the baseline: 10 hazards, 2 corrections\n"));
  const std::string section = from(page, "## On the baseline of 2027-03-18 (existing)\n\n");
  CHECK(has(section,
            ". Overcurrent device below the least rating (`fuse/too-small`), a correction: B-15, circuit "
            "low, circuit high\n"));
  CHECK(has(section,
            "Graver than on the baseline, and so told above:\n\n- advice current/inputs on A-17, inputs\n"));
  CHECK(has(section,
            "No longer occurs: remove the entry, or write the baseline anew:\n\n- query fuse/not-dc on A-01, "
            "A-02 (2 boxes), fuse\n"));
  CHECK_FALSE(has(section, "*Do:*"));
  CHECK(has(section, "> **Caution.**"));
}

TEST_CASE("entries have the same numbers in text, correction list and page") {
  const auto judged = changed_faults();
  const WebPage page = take_apart(html_report(*judged));
  const std::string text = text_report(*judged), list = markdown_report(*judged);
  std::size_t known = 0;
  for (const WebElement& e : page.elements) {
    const std::string id = e.attribute("id");
    if (!id.starts_with("finding-")) continue;
    const std::string number = id.substr(8);
    CAPTURE(number, e.text);
    const std::string rule = [&] {
      const auto slash = e.text.find('/');
      const auto start = e.text.find_last_of(" \n", slash) + 1;
      return e.text.substr(start, e.text.find_first_of(" \n", slash) - start);
    }();
    CHECK(has(list, "\n" + number + ". "));
    const std::string line =
        text.substr(text.find("\n" + std::string(3 - number.size(), ' ') + number + " ") + 1, 400);
    CHECK(has(line, rule));
    known += e.name == "li";
  }
  CHECK(known > 10);
}

TEST_CASE("the page keeps what is on the baseline, marked in words") {
  const auto judged = changed_faults();
  const std::string html = html_report(*judged);
  const WebPage page = take_apart(html);
  CHECK(page.problems == std::vector<std::string>{});
  const WebElement* section = page.by_id("baseline");
  REQUIRE(section != nullptr);
  CHECK(has(section->text, "On the baseline of 2027-03-18 (existing)"));
  CHECK(has(section->text, "A baseline approves nothing"));
  CHECK(has(section->text, "Overcurrent device below the least rating"));
  CHECK_FALSE(has(section->text, "Disconnect too far"));
  CHECK(has(section->text, "query fuse/not-dc on A-01, A-02 (2 boxes), fuse"));
  CHECK(has(section->text, "advice current/inputs on A-17, inputs"));
  // On the sheet of the box and in its drawing.
  const std::size_t b15 = 28 + 14;
  const WebElement* sheet = page.by_id("box-" + std::to_string(b15));
  REQUIRE(sheet != nullptr);
  CHECK(has(sheet->text, "B-15"));
  CHECK(has(sheet->text, "correction on the baseline:"));
  CHECK(has(sheet->text, "correction, Overcurrent device below the least rating, on the baseline"));
  const WebElement* a10 = page.by_id("box-9");
  REQUIRE(a10 != nullptr);
  CHECK_FALSE(has(a10->text, "on the baseline"));
  // Every link leads somewhere.
  for (const WebElement& e : page.elements)
    if (const std::string href = e.attribute("href"); href.starts_with("#")) {
      CAPTURE(href);
      CHECK(page.by_id(href.substr(1)) != nullptr);
    }
  const auto all_known = faults();
  const WebPage other = take_apart(html_report(*all_known));
  for (const WebElement& e : other.elements)
    if (const std::string href = e.attribute("href"); href.starts_with("#")) {
      CAPTURE(href);
      CHECK(other.by_id(href.substr(1)) != nullptr);
    }
  // One that covers nothing has its section too.
  auto sound = judge(sound_design());
  hold_beside(*sound, baseline_of(sound->judgement));
  const WebPage quiet = take_apart(html_report(*sound));
  CHECK(quiet.problems == std::vector<std::string>{});
  REQUIRE(quiet.by_id("baseline") != nullptr);
  CHECK(has(quiet.by_id("baseline")->text, "Nothing that is on it was found."));
}

TEST_CASE("the report for programs has the baseline, and counts apart") {
  const auto judged = changed_faults();
  const Json report = Json::parse(json_report(*judged));
  const Json plain = Json::parse(json_report(*judge_example(examples[1])));
  CHECK(report["site"]["counts"] == plain["site"]["counts"]);
  CHECK(report["site"]["verdict"] == plain["site"]["verdict"]);
  CHECK(report["boxes"] == plain["boxes"]);
  CHECK(report["findings"].size() == plain["findings"].size());
  CHECK(report["site"]["fresh"] == Json{{"hazard", 10}, {"correction", 2}, {"query", 0}, {"advice", 0}});
  CHECK(report["site"]["known"] == Json{{"hazard", 0}, {"correction", 9}, {"query", 3}, {"advice", 16}});
  const Json& b = report["baseline"];
  CHECK(b["name"] == "baseline.json");
  CHECK(b["date"] == "2027-03-18");
  CHECK(b["reason"] == "existing");
  CHECK(b["caution"].get<std::string>().starts_with("A baseline approves nothing"));
  REQUIRE(b["stale"].size() == 2);
  CHECK(b["stale"][0] == Json{{"fingerprint", "0000000000000001"},
                              {"rule", "fuse/not-dc"},
                              {"box", "A-01"},
                              {"part", "fuse"},
                              {"severity", "query"}});
  REQUIRE(b["graver"].size() == 1);
  CHECK(b["graver"][0]["rule"] == "current/inputs");
  CHECK_FALSE(plain.contains("baseline"));
  CHECK_FALSE(plain["site"].contains("fresh"));
}

TEST_CASE("a comparison reads reports with a baseline") {
  const auto judged = changed_faults();
  const Json with = Json::parse(json_report(*judged)),
             without = Json::parse(json_report(*judge_example(examples[1])));
  const auto compared = compare_reports(with, without);
  const auto other = compare_reports(without, without);
  CHECK(compared->fate("disconnect/too-far") == other->fate("disconnect/too-far"));
  CHECK(compared->fates("fuse/too-small") == other->fates("fuse/too-small"));
  CHECK(compare_reports(without, with)->fate("current/inputs") == "still-open");
}
