// The chart of margins: each box's verdict and its nearest limit of a kind, the worst first.
#include "src/report/margin_chart.hpp"

#include <algorithm>
#include <map>

#include "boxproof/calculate.hpp"
#include "boxproof/rule.hpp"
#include "src/report/margin_rows.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/web_page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Strings = std::vector<std::string>;

ReportInput input(const Judged& j) {
  return {j.design, j.record ? &*j.record : nullptr, j.edition, j.judgement, {}};
}

std::string chart(const Judged& j) {
  std::string out;
  const ReportInput r = input(j);
  report::write_margin_chart(report::PageIndex(r), [&](std::string_view piece) { out += piece; });
  return out;
}

WebPage page_of(const std::string& chart) {
  WebPage page = take_apart("<!doctype html>\n" + chart);
  CHECK(page.problems == Strings{});
  return page;
}
WebPage page_of(const Json& design, const Json& record = nullptr) {
  return page_of(chart(*judge(design, {}, record)));
}

std::vector<report::BoxShares> shares_of(const Judged& j) {
  const ReportInput r = input(j);
  return report::box_shares(report::PageIndex(r));
}

// What the cells say, row by row: boxes, verdict, voltage, current, ampacity.
std::vector<Strings> rows_of(const WebPage& page) {
  std::vector<Strings> out;
  for (const WebElement& e : page.elements) {
    if (e.name != "td" && (e.name != "th" || e.attribute("scope") != "row")) continue;
    if (e.name == "th") out.emplace_back();
    out.back().push_back(e.text);
  }
  return out;
}

// Boxes with this many amperes of enclosure, in order; other limits are far.
Json sites_with(const std::vector<Json>& patches) {
  Json design = sound_design();
  const Json box = design["combiners"][0];
  design["combiners"] = Json::array();
  for (std::size_t i = 0; i < patches.size(); ++i) {
    Json one = box;
    one["id"] = "B-" + std::to_string(i + 1);
    one.merge_patch(patches[i]);
    design["combiners"].push_back(one);
  }
  return design;
}
Json box_rated(double amps) {
  return {{"enclosure", {{"rated_a", amps}}}, {"fuse", {{"a", 40}}}, {"disconnect", {{"rated_a", 400}}}};
}

}  // namespace

TEST_CASE("a box is one row with the nearest limit of each kind") {
  // 18 · 30 V · (1 + 0.3 % · 35) = 596.7 V of the site's 1000 V; the fuse's 9.6 A · 1.25 · 1.25 = 15 A of
  // 15 A; the output carries 1.25 · 9 · 1.25 · 9.6 A = 135 A of the enclosure's 200 A; the wires below.
  const auto rows = rows_of(page_of(sound_design()));
  REQUIRE(rows.size() == 1);
  CHECK(rows[0][0] == "A-01");
  CHECK(rows[0][1] == "verdictaccept");
  CHECK(rows[0][2] == "voltage59.7 % site limit");
  CHECK(rows[0][3] == "current100.0 % fuse");
  CHECK(rows[0][4].ends_with(" % output wire"));
}

TEST_CASE("what is over a limit says so, from just over on; what is at it does not") {
  // 135 A (see above) against the box.
  struct Case {
    double rated;
    std::string says;
  };
  for (const Case& c : {Case{136, "99.3 % box current"},
                        {135, "100.0 % box current"},
                        {134.99, "100.0 %, over box current"},
                        {130, "103.8 %, over box current"},
                        {122.8, "109.9 %, over box current"},
                        {84, "160.7 %, over (off the scale) box current"}}) {
    const WebPage page = page_of(sites_with({box_rated(c.rated)}));
    CAPTURE(c.rated);
    CHECK(rows_of(page).at(0).at(3) == "current" + c.says);
    const bool over = c.says.find("over") != std::string::npos;
    CHECK(page.all("path", "over").size() == (over ? 1 : 0));
    CHECK(page.all("b").size() == (over ? 1 : 0));
    CHECK(page.all("path", "limit").size() == (over ? 4 : 3));  // drawn light within a filled bar, too
  }
}

TEST_CASE("no bar leaves the axis, and one that is far over does not squeeze the others") {
  const WebPage page = page_of(sites_with({box_rated(10), box_rated(150)}));
  for (const WebElement* path : page.all("path")) {
    const std::string d = path->attribute("d");
    CAPTURE(d);
    for (std::size_t i = 0; i < d.size(); ++i)
      if (d[i] == 'H' || d[i] == 'L') CHECK(std::stoi(d.substr(i + 1)) <= 1120);
  }
  const auto used = page.all("path", "used");
  // 135 / 150 = 90.0 % stands at 900 of 1000.
  CHECK(std::any_of(used.begin(), used.end(), [](const WebElement* e) {
    return e->attribute("d").find("H900V") != std::string::npos;
  }));
}

TEST_CASE("rows of one verdict go by the thinnest margin, and boxes that are alike as printed share one") {
  const auto rows = rows_of(page_of(sites_with(
      {box_rated(180), box_rated(150), box_rated(180), box_rated(180.001), box_rated(120), box_rated(180)})));
  REQUIRE(rows.size() == 3);
  CHECK(rows[0][0] == "B-5");
  CHECK(rows[1][0] == "B-2");
  CHECK(rows[2][0] == "B-1, B-3, B-4, B-6 4 boxes");
}

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

TEST_CASE("each row links to its first box, and names as many as a reader takes in") {
  std::vector<Json> many;
  for (int i = 0; i < 60; ++i) many.push_back(box_rated(i % 3 == 0 ? 150 : 180));
  const WebPage page = page_of(sites_with(many));
  auto links = page.all("a");
  std::erase_if(links, [](const WebElement* a) { return !a->attribute("href").starts_with("#box-"); });
  REQUIRE(links.size() == 2);
  CHECK(links[0]->attribute("href") == "#box-0");
  CHECK(links[1]->attribute("href") == "#box-1");
  CHECK(rows_of(page).at(0).at(0) == "B-1, B-4, B-7, B-10, B-13, B-16 and 14 more 20 boxes");
  CHECK(rows_of(page).at(1).at(0) ==
        "B-2, B-3, B-5, B-6, B-8, B-9, B-11, B-12, B-14, B-15, B-17, B-18 and 28 more 40 boxes");
}

TEST_CASE("what is not stated is a question mark and no bar") {
  struct Case {
    Json patch;
    std::size_t column;
    std::string says;
  };
  for (const Case& c : {Case{{{"enclosure", {{"rated_a", nullptr}}}}, 3, "current100.0 % ? fuse"},
                        {{{"enclosure", {{"rated_v", nullptr}}}}, 2, "voltage59.7 % ? site limit"},
                        {{{"output", {{"run", nullptr}}}}, 4, "ampacity"},
                        {{{"fuse", {{"a", nullptr}}}}, 3, "current67.5 % ? box current"}}) {
    const auto rows = rows_of(page_of(sites_with({c.patch})));
    CAPTURE(c.patch.dump());
    CHECK(rows.at(0).at(c.column).find(c.says) == 0);
    CHECK(rows.at(0).at(c.column).find('?') != std::string::npos);
  }
  const WebPage bare = page_of(Json::parse(
      R"({"format": "boxproof-design/1", "site": {"name": "Bare", "use": "building"}, "code": {"edition": "2017"},
        "modules": {"M": {"voc_v": 30, "isc_a": 9.6}}, "inverters": {"I": {}}, "combiners": [{"id": "A", "inverter":
        "I", "circuits": [{"id": "1", "module": "M", "series": 18, "strings": 6}]}]})"));
  const auto rows = rows_of(bare);
  REQUIRE(rows.size() == 1);
  CHECK(Strings(rows[0].begin() + 2, rows[0].end()) == Strings{"voltage?", "current?", "ampacity?"});
  CHECK(bare.all("path", "used").empty());
  CHECK(bare.all("path", "unk").size() == 3);
  CHECK(page_of(sound_design()).all("path", "unk").empty());
}

TEST_CASE("of more than forty rows the rest is said") {
  const auto boxes = [](int n, double first) {
    std::vector<Json> out;
    for (int i = 0; i < n; ++i) out.push_back(box_rated(first + 2 * i));
    return out;
  };
  const std::string forty = chart(*judge(sites_with(boxes(40, 140))));
  CHECK(forty.find("figcaption") == std::string::npos);
  const WebPage more = page_of(sites_with(boxes(43, 140)));
  CHECK(rows_of(more).size() == 40);
  // The 41st box is rated 140 + 2 · 40 = 220 A: 135 A leave 38.6 %. The voltage leaves 40.3 % in all, the
  // conductors more than the box.
  REQUIRE(more.all("figcaption").size() == 1);
  CHECK(
      more.all("figcaption")[0]->text.starts_with("and 3 boxes more: 3 stop; none nearer to a limit than "));
  const WebPage over = page_of(sites_with(boxes(45, 50)));
  // Rated 50 + 2 · 40 = 130 A and 132, 134 A: three more of the last five are below 135 A.
  CHECK(over.all("figcaption").at(0)->text == "and 5 boxes more: 5 stop; 3 of them over a limit.");
}

TEST_CASE("of the boxes that were visited the chart shows what was found") {
  const Json record{
      {"format", "boxproof-asbuilt/1"},
      {"boxes", Json::array({{{"id", "A-01"}, {"count", {{"positive", 12}, {"negative", 12}}}}})}};
  const WebPage page = page_of(sound_design(), record);
  // 12 · 1.25 · 9.6 A = 144 A, continuously 180 A of the disconnect's and the box's 200 A; the fuse stays.
  CHECK(page.all("caption").at(0)->text.find("as found where it was visited") != std::string::npos);
  const auto judged = judge(sound_design(), {}, record);
  const auto shares = shares_of(*judged);
  CHECK(shares.at(0).shares[2].tenths > shares_of(*judge(sound_design())).at(0).shares[2].tenths);
}

TEST_CASE("every margin of the examples is of the kind that its unit and name say") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    BoxFacts facts;
    FoundBox own;
    for (const BoxResult& box : judged->judgement.boxes) {
      facts_of(judged->design, judged->edition, judged->record ? &*judged->record : nullptr, box, own, facts);
      const auto all = margins(judged->design.design, facts, judged->edition);
      const report::UsedShares shares = report::used_shares(judged->design.design, facts, judged->edition);
      double most = 0;
      for (const Margin& m : all) {
        CAPTURE(std::string(m.of));
        const report::LimitKind kind = report::kind_of_margin(m);
        CHECK((kind == report::LimitKind::voltage) == (m.unit == "V"));
        CHECK((kind == report::LimitKind::ampacity) == (m.of.find("conductor ") != std::string_view::npos));
        CHECK(shares[static_cast<std::size_t>(kind)].tenths >= static_cast<int>(1000 * m.value / m.limit));
        most = std::max(most, m.value / m.limit);
      }
      CHECK(report::most_used(shares) == static_cast<int>(1000 * most + 0.5));
    }
  }
}

TEST_CASE("hostile ids stay words in the chart") {
  const std::string hostile = "</table><script>x</script>\"&\x1b[1m" + std::string(500, 'W');
  Json design = sites_with({box_rated(150)});
  design["combiners"][0]["id"] = hostile;
  const std::string text = chart(*judge(design));
  const WebPage page = page_of(text);
  CHECK(page.all("script").empty());
  CHECK(text.find('\x1b') == std::string::npos);
  CHECK(rows_of(page).at(0).at(0).starts_with("</table><script>x</script>\"&"));
  CHECK(rows_of(page).at(0).at(0).size() < 60);
}
