// The report as a page: whole, by itself, with everything in it that was found, and each thing once.
#include <algorithm>

#include "boxproof/rule.hpp"
#include "src/report/groups.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/web_page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

// The examples, the faulty one with its exceptions too.
std::vector<std::unique_ptr<Judged>> judged_examples() {
  std::vector<std::unique_ptr<Judged>> out;
  for (const Example& example : examples) out.push_back(judge_example(example, {{}, true}));
  out.push_back(judge_example("saltmarsh-faults.json", {}, {{}, true}));
  agree(*out.back(), example_json("saltmarsh-exceptions.json")["exceptions"], "2027-03-18");
  REQUIRE_FALSE(out.back()->judgement.agreed.empty());
  return out;
}

std::string box_id(const BoxResult& b) {
  return "box-" + std::to_string(b.index);
}

}  // namespace

TEST_CASE("the checker of pages sees what is wrong with one") {
  const std::string start = "<!doctype html>\n<html><body>", end = "</body></html>\n";
  CHECK(take_apart(start + "<p class=\"a\">x &amp; y</p>" + end).problems.empty());
  for (const char* wrong : {"<p>x", "x</p>", "<p><b>x</p></b>", "<p class=a>x</p>",
                            "<p class=\"a\" class=\"b\">x</p>", "a < b", "a & b", "a &nbsp; b", "a > b",
                            "<p><div>x</div></p>", "<a href=\"#x\"><b><a href=\"#y\">x</a></b></a>", "<p/>",
                            "<p class=\"a\"id=\"b\">x</p>", "<script>x"}) {
    CAPTURE(wrong);
    CHECK_FALSE(take_apart(start + wrong + end).problems.empty());
  }
}

TEST_CASE("the page is well formed") {
  for (const auto& judged : judged_examples())
    for (const bool work : {false, true}) {
      const WebPage page = take_apart(html_report(*judged, work));
      CHECK(page.problems == std::vector<std::string>());
      CHECK(page.all("h1").size() == 1);
      CHECK(page.all("main").size() == 1);
      std::size_t titles = 0;
      for (const WebElement* title : page.all("title"))
        titles += title->inside.back() == "head" ? 1 : 0;  // a drawing has its own
      CHECK(titles == 1);
    }
}

TEST_CASE("ids are there once, and every link has its target") {
  for (const auto& judged : judged_examples()) {
    const WebPage page = take_apart(html_report(*judged));
    std::map<std::string, int> ids;
    for (const WebElement& e : page.elements)
      if (e.attributes.contains("id")) ++ids[e.attribute("id")];
    for (const auto& [id, times] : ids) {
      CAPTURE(id);
      CHECK(times == 1);
    }
    std::size_t links = 0;
    for (const WebElement& e : page.elements) {
      if (!e.attributes.contains("href")) continue;
      const std::string href = e.attribute("href");
      CAPTURE(href);
      REQUIRE(href.starts_with('#'));
      CHECK(ids.contains(href.substr(1)));
      ++links;
    }
    CHECK(links >= judged->judgement.boxes.size());  // of the table alone
  }
}

TEST_CASE("the page asks for nothing from outside") {
  for (const auto& judged : judged_examples()) {
    const WebPage page = take_apart(html_report(*judged));
    for (const WebElement& e : page.elements)
      for (const char* loading : {"src", "srcset", "action", "data", "poster", "background", "ping"}) {
        CAPTURE(e.name, std::string(loading));
        CHECK_FALSE(e.attributes.contains(loading));
      }
    for (const WebElement* style : page.all("style")) {
      CHECK_FALSE(has(style->text, "url("));
      CHECK_FALSE(has(style->text, "@import"));
    }
    for (const WebElement* script : page.all("script")) {
      CHECK(script->attribute("nonce") == "page");
      for (const char* calling : {"fetch", "XMLHttpRequest", "import", "http"})
        CHECK_FALSE(has(script->text, calling));
    }
    CHECK(page.all("link").empty());
  }
}

TEST_CASE("headings go down one level at a time") {
  for (const auto& judged : judged_examples()) {
    const WebPage page = take_apart(html_report(*judged));
    int level = 0;
    for (const WebElement& e : page.elements) {
      if (e.name.size() != 2 || e.name[0] != 'h' || e.name[1] < '1' || e.name[1] > '6') continue;
      CAPTURE(e.name, e.text);
      CHECK(e.name[1] - '0' <= level + 1);
      level = e.name[1] - '0';
    }
  }
}

TEST_CASE("every finding is told, under the number that the text report gives it") {
  for (const auto& judged : judged_examples()) {
    const WebPage page = take_apart(html_report(*judged));
    const auto groups = report::group(judged->findings());
    for (std::size_t i = 0; i < groups.size(); ++i) {
      const Finding& f = groups[i].first();
      const WebElement* entry = page.by_id("finding-" + std::to_string(i + 1));
      CAPTURE(i, f.message);
      REQUIRE(entry != nullptr);
      CHECK(entry->name == "article");
      CHECK(entry->is("finding"));
      const std::string severity(report::name_of(f.severity)), rule(f.rule->id), title(f.rule->title);
      for (const std::string& part :
           {severity, rule, title, report::plain(f.message), f.section, report::to_do(f),
            report::range_of(groups[i], &Finding::found), report::range_of(groups[i], &Finding::required)})
        CHECK(has(entry->text, part));
    }
    CHECK(page.by_id("finding-" + std::to_string(groups.size() + 1)) == nullptr);
  }
}

TEST_CASE("every box has its row, its section, and in it each of its findings with a link to its entry") {
  for (const auto& judged : judged_examples()) {
    const WebPage page = take_apart(html_report(*judged));
    std::map<std::string, const WebElement*> rows;
    for (const WebElement* row : page.all("tr"))
      if (row->attributes.contains("data-box")) rows[row->attribute("data-box")] = row;
    CHECK(rows.size() == judged->judgement.boxes.size());
    for (const BoxResult& b : judged->judgement.boxes) {
      const std::string& id = judged->design.design.combiners[b.index].id;
      const WebElement* sheet = page.by_id(box_id(b));
      CAPTURE(id);
      REQUIRE(sheet != nullptr);
      REQUIRE(rows.contains(id));
      CHECK(sheet->name == "section");
      CHECK(rows[id]->attribute("data-verdict") == report::name_of(b.verdict));
      std::size_t findings = 0;
      for (const Finding& f : judged->findings())
        if (f.box == b.index) {
          ++findings;
          CHECK(has(sheet->text, report::plain(f.message)));
          CHECK(has(rows[id]->attribute("data-rules"), f.rule->id));
        }
      CHECK(has(sheet->text, "No findings.") == (findings == 0));
    }
  }
}

TEST_CASE("the head of a box's section names what is in it") {
  const auto judged = judge_example("saltmarsh.json", {});
  const WebPage page = take_apart(html_report(*judged));
  std::vector<std::string> labels, values;
  for (const WebElement* label : page.all("dt")) labels.push_back(label->text);
  for (const WebElement* value : page.all("dd")) values.push_back(value->text);
  const auto first = std::find(labels.begin(), labels.end(), "Sheet");
  REQUIRE(labels.end() - first >= 4);
  CHECK(std::vector<std::string>(first, first + 4) ==
        std::vector<std::string>{"Sheet", "Type", "Feeds", "Location"});
  const auto at = values.begin() + (first - labels.begin());
  CHECK(std::vector<std::string>(at, at + 4) ==
        std::vector<std::string>{"E-201", "A16", "INV-1", "hall A, bay 1 north"});
}

TEST_CASE("a box's marks point to the entries that tell of it") {
  const auto judged = judge_example(examples[2]);
  const WebPage page = take_apart(html_report(*judged));
  const auto groups = report::group(judged->findings());
  std::size_t checked = 0;
  for (std::size_t i = 0; i < groups.size(); ++i)
    for (const Finding* f : groups[i].findings) {
      if (!f->box) continue;
      const std::string item =
          std::to_string(i + 1) + " " + std::string(report::name_of(f->severity)) + " " +
          report::title_of(*f, {judged->design, &*judged->record, judged->edition, judged->judgement, {}});
      CAPTURE(item);
      CHECK(has(page.by_id("box-" + std::to_string(*f->box))->text, item));
      ++checked;
    }
  CHECK(checked > 20);
}

TEST_CASE("the workings are always there, and open only where they were asked for") {
  const auto judged = judge_example("saltmarsh-faults.json", {}, {{}, true});
  for (const bool work : {false, true}) {
    const WebPage page = take_apart(html_report(*judged, work));
    const auto workings = page.all("details", "working");
    CHECK(workings.size() > 10);
    for (const WebElement* w : workings) CHECK(w->attributes.contains("open") == work);
    CHECK(std::any_of(workings.begin(), workings.end(),
                      [](const WebElement* w) { return has(w->text, "= 1022.68906 V"); }));
  }
  // Judged without workings, the page has none and is whole all the same.
  const WebPage bare = take_apart(html_report(*judge_example("saltmarsh-faults.json")));
  CHECK(bare.all("details", "working").empty());
  CHECK(bare.problems.empty());
}

TEST_CASE("the same input gives the same page") {
  const std::string once = html_report(*judge_example(examples[2], {{}, true}));
  CHECK(once == html_report(*judge_example(examples[2], {{}, true})));
}
