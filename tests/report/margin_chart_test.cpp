// The chart of margins: each box's nearest limit of a kind, boxes that are alike in one row.
#include <algorithm>

#include "boxproof/calculate.hpp"
#include "tests/support/example.hpp"
#include "tests/support/margin_chart.hpp"

using namespace boxproof;
using namespace boxproof::test;

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
