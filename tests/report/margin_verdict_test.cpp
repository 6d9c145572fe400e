// The chart of margins: verdicts beside the bars, with the findings that no bar tells, the worst on top.
#include <algorithm>
#include <map>

#include "boxproof/rule.hpp"
#include "tests/support/example.hpp"
#include "tests/support/margin_chart.hpp"

using namespace boxproof;
using namespace boxproof::test;

TEST_CASE("a hazard that no margin shows is on top, with its finding, and not in a row with sound boxes") {
  // The planted faults: A-06 has 30 A fuses on modules that allow 25 A, A-17 two circuits more than inputs.
  const auto judged = judge_example("saltmarsh-faults.json");
  const std::string text = chart(*judged);
  const auto rows = rows_of(page_of(text));
  std::vector<std::string> verdicts;
  std::map<std::string, std::string> by_box;
  for (const Strings& row : rows) {
    by_box[row[0]] = row[1];
    const std::string verdict = row[1].substr(7, row[1].find(' ', 7) - 7);
    if (verdicts.empty() || verdicts.back() != verdict) verdicts.push_back(verdict);
  }
  CHECK(verdicts == Strings{"stop", "correct", "clarify", "accept"});
  CHECK(by_box["A-06"].starts_with("verdictstop "));
  CHECK(by_box["A-06"].ends_with(" Fuse larger than the module allows"));
  CHECK(by_box["A-17"].ends_with(" More inputs used than the box has"));
  CHECK(by_box["A-12"].ends_with(" Disconnect needed at the box and none there"));
  CHECK(by_box["B-08"].ends_with(" fuse/dc not stated"));
  CHECK(by_box["B-10"] == "verdictstop");  // its bar tells why: 968.9 V on a fuse for 600 V
  CHECK(rows[0][0] == "B-10");
  // The link goes to the entry of that name.
  const ReportInput r = input(*judged);
  const report::PageIndex page(r);
  for (std::size_t i = 0; i < page.groups.size(); ++i)
    if (page.groups[i].first().rule->id == "fuse/over-module-limit")
      CHECK(text.find("<a href=\"#finding-" + std::to_string(i + 1) + "\">") != std::string::npos);
}

TEST_CASE(
    "a box that nobody visited has that word alone, between what is to be corrected and what is accepted") {
  const auto rows = rows_of(page_of(chart(*judge_example("saltmarsh.json", "saltmarsh-visit.json"))));
  const auto at = [&](std::string_view verdict) {  // the rows of this verdict
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < rows.size(); ++i)
      if (rows[i][1].starts_with(verdict)) out.push_back(i);
    return out;
  };
  const auto unvisited = at("verdictnot-visited");
  REQUIRE(unvisited.size() == 3);  // B-10, B-18 and A-13
  for (const std::size_t i : unvisited) CHECK(rows[i][1] == "verdictnot-visited");
  CHECK(at("verdictcorrect").back() < unvisited.front());
  CHECK(unvisited.back() < at("verdictaccept").front());
}

TEST_CASE("boxes of one row have one verdict and the same findings beside the bars, in all examples") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    std::map<std::uint32_t, Verdict> verdicts;
    for (const BoxResult& b : judged->judgement.boxes) verdicts[b.index] = b.verdict;
    const auto shares = shares_of(*judged);
    REQUIRE(shares.size() == verdicts.size());
    for (std::size_t i = 0; i < shares.size(); ++i) {
      CHECK(shares[i].verdict == verdicts.at(shares[i].box));
      // No hazard and no correction is silent: a bar is over its limit, or the finding is named.
      const auto& used = shares[i].shares;
      const bool over = std::any_of(used.begin(), used.end(), [](const auto& s) { return s.over; });
      const bool open = std::any_of(used.begin(), used.end(), [](const auto& s) { return s.incomplete; });
      if (shares[i].verdict >= Verdict::correct) CHECK((over || !shares[i].besides.empty()));
      if (shares[i].verdict == Verdict::clarify) CHECK((open || !shares[i].besides.empty()));
      if (i > 0 && shares[i - 1].reads_as(shares[i])) CHECK(shares[i - 1].box < shares[i].box);
    }
  }
}

TEST_CASE("a box of which a limit is not stated stands before all that are accepted, thin as they may be") {
  // B-1 has 0.4 % left of its box: 135 A of 135.6 A; 20 A fuses leave a quarter. B-3 does not say what its
  // box is rated for.
  const auto box = [](const Json& rated_a) {
    return Json{{"fuse", {{"a", 20}}}, {"enclosure", {{"rated_a", rated_a}}}};
  };
  const auto judged = judge(sites_with({box(135.6), box(190), box(nullptr)}));
  const auto rows = rows_of(page_of(chart(*judged)));
  REQUIRE(rows.size() == 3);
  CHECK(rows[0][0] == "B-3");
  CHECK(rows[0][1].starts_with("verdictclarify"));
  CHECK(rows[0][3].find(" ?") != std::string::npos);
  CHECK(rows[1][0] == "B-1");
  // Its query set aside, it is accepted, and no calmer for that.
  auto agreed = judge(sites_with({box(190), box(nullptr)}));
  agreed->judgement.findings.clear();
  for (BoxResult& b : agreed->judgement.boxes) b.verdict = Verdict::accept;
  const auto after = rows_of(page_of(chart(*agreed)));
  REQUIRE(after.size() == 2);
  CHECK(after[0][0] == "B-2");
  CHECK(after[0][1] == "verdictaccept");
  CHECK(after[0][3].find(" ?") != std::string::npos);
}

TEST_CASE("more findings than a reader takes in are counted, and those that read the same are named once") {
  const Json patch{{"fuse", {{"a", 30}, {"pv_listed", false}}},
                   {"enclosure", {{"inputs", 8}, {"listed", false}}},
                   {"disconnect", {{"distance_m", 99}, {"load_break", false}}}};
  const auto judged = judge(with_box(patch));
  const auto besides = shares_of(*judged).at(0).besides;
  REQUIRE(besides.size() > 4);
  CHECK(std::is_sorted(besides.begin(), besides.end()));
  const WebPage page = page_of(chart(*judged));
  CHECK(rows_of(page).at(0).at(1).ends_with(" and " + std::to_string(besides.size() - 3) + " findings more"));
  CHECK(page.all("a").size() == 4);  // the box, and three findings
}
