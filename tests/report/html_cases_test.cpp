// The page of sites that are out of the ordinary: nothing found, one box chosen, nobody there, exceptions.
#include "src/report/agreed.hpp"
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

// The page, which must be well formed with a target for each link.
WebPage sound_page(const std::string& html) {
  WebPage page = take_apart(html);
  CHECK(page.problems == std::vector<std::string>());
  for (const WebElement& e : page.elements)
    if (e.attributes.contains("href")) {
      CAPTURE(e.attribute("href"));
      CHECK(page.by_id(e.attribute("href").substr(1)) != nullptr);
    }
  return page;
}

const WebElement& one(const WebPage& page, std::string_view name, std::string_view of_class = {}) {
  const auto found = page.all(name, of_class);
  CAPTURE(std::string(name), std::string(of_class));
  REQUIRE(found.size() == 1);
  return *found.front();
}

}  // namespace

TEST_CASE("the title block: site, check, verdict, totals, files, what stays energised") {
  const auto judged = judge_example(examples[2]);
  const WebPage page = sound_page(html_report(*judged));
  const WebElement& block = one(page, "header", "block");
  for (const char* text :
       {"Saltmarsh Packing Halls", "Field check, NEC 2017", "unsafe as it stands", "10 hazards",
        "26 corrections", "4 queries", "15 pieces of advice", "4 to stop", "11 to correct", "3 not visited",
        "32 to accept", "Building; low −9 °C, high 36 °C", "50 boxes, 628 strings",
        "Visited 2027-03-18 by first walk, two persons", "examples/saltmarsh.json",
        "examples/saltmarsh-visit.json", "SM-27-014",
        "A box stays energised from the array with its switch open."}) {
    CAPTURE(text);
    CHECK(has(block.text, text));
  }
  CHECK(one(page, "p", "stamp").text == "stop");
  CHECK(has(one(page, "footer", "caution").text, caution()));
  CHECK(page.elements.back().name == "script");  // behind the caution stands nothing to read
}

TEST_CASE("what the reader must know first stands in the title block") {
  const WebPage page = sound_page(
      html_report(*judge_example("ferry-shed.json"), false, {"code.edition is 2014 (the file says 2017)"}));
  CHECK(has(one(page, "div", "remarks").text,
            "Changed on the command line: code.edition is 2014 (the file says 2017)"));
  CHECK(sound_page(html_report(*judge_example(examples[0]))).all("div", "remarks").empty());
}

TEST_CASE("a site with nothing found") {
  const WebPage page = sound_page(html_report(*judge(sound_design())));
  CHECK(one(page, "p", "stamp").text == "accept");
  CHECK(has(page.by_id("findings")->text, "None."));
  CHECK(page.all("article").empty());
  CHECK(has(page.by_id("box-0")->text, "No findings."));
  CHECK(page.by_id("gone") == nullptr);
  CHECK(page.by_id("dispositions") == nullptr);
  CHECK(page.by_id("agreed") == nullptr);
}

TEST_CASE("one box chosen: only its sheet, and the page says so") {
  const auto judged = judge_example("saltmarsh-faults.json", {}, {{"A-03"}, true});
  const WebPage page = sound_page(html_report(*judged));
  CHECK(page.all("section", "box").size() == 1);
  CHECK(has(page.by_id("box-2")->text, "A-03"));
  CHECK(has(one(page, "div", "remarks").text, "Only 1 of 50 boxes is shown"));
}

TEST_CASE("few boxes are links each, more than twelve are run together behind one") {
  // A fuse that the modules do not allow, in each box.
  for (const std::size_t boxes : {std::size_t{1}, std::size_t{12}, std::size_t{13}}) {
    Json design = sound_design();
    const Json box = design["combiners"][0];
    for (std::size_t i = 0; i < boxes; ++i) {
      design["combiners"][i] = box;
      design["combiners"][i]["id"] = "A-" + std::to_string(i + 1);
      design["combiners"][i]["fuse"]["a"] = 30;
    }
    const std::string page = html_report(*judge(design));
    sound_page(page);
    const auto start = page.find("id=\"finding-1\"");
    const std::string entry = page.substr(start, page.find("</article>", start) - start);
    std::size_t links = 0;
    for (auto at = entry.find("href=\"#box-"); at != std::string::npos;
         at = entry.find("href=\"#box-", at + 1))
      ++links;
    CAPTURE(boxes, entry);
    CHECK(links == (boxes > 12 ? 1 : boxes));
    CHECK(has(entry, "A-1…A-13") == (boxes == 13));
    CHECK(has(entry, "(" + std::to_string(boxes) + " boxes)") == (boxes > 1));
  }
}

TEST_CASE("a field record without boxes") {
  const Json record{{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array()}};
  const auto judged = judge(sound_design(), "", record, {{}, true});
  const WebPage page = sound_page(html_report(*judged));
  CHECK(has(one(page, "header", "block").text, "Visited on a date not stated"));
  CHECK(one(page, "p", "stamp").text == "not-visited");
  const WebElement* sheet = page.by_id("box-0");
  CHECK(has(sheet->text, "not-visited"));
  CHECK_FALSE(has(sheet->text, "Found"));
}

TEST_CASE("plan, label and box side by side: what differs is marked with a sign and with words") {
  const auto judged = judge_example(examples[2]);
  const WebPage page = sound_page(html_report(*judged));
  // A-04 was planned with 18 modules in series and found with 19; its label says 18.
  const WebElement* sheet = page.by_id("box-3");
  CHECK(has(sheet->text, "Modules in series181819 ≠, not as planned"));
  CHECK(has(sheet->text, "A-04: 16 strings of 19; maximum 1023 V, 232 A; fuses 20 A"));
  CHECK(has(sheet->text, "Maximum, V968.99701022.7"));
  CHECK_FALSE(has(page.by_id("box-0")->text, "not as planned"));
  CHECK(has(page.by_id("box-0")->text, "Positives16–not stated16"));
  // A plan check has the plan's column only.
  const WebPage plan = sound_page(html_report(*judge_example(examples[0])));
  CHECK(has(plan.by_id("box-3")->text, "Modules in series18\n"));
  CHECK_FALSE(has(plan.by_id("box-3")->text, "Found"));
}

TEST_CASE("each box is drawn, and what the signs mean is said once") {
  const auto judged = judge_example("saltmarsh-faults.json", {}, {{}, true});
  const WebPage page = sound_page(html_report(*judged));
  CHECK(page.all("figure", "schematic").size() == judged->judgement.boxes.size());
  CHECK(page.all("ul", "drawing-key").size() == 1);
  // Where an approval hangs on something, the drawing is in sight; else it unfolds.
  std::size_t folded = 0, asked = 0;
  for (const WebElement* more : page.all("details", "more")) {
    ++(more->attributes.contains("open") ? asked : folded);
    CHECK(more->attributes.contains("open") == more->is("screen"));  // paper is saved
  }
  CHECK(folded == 37);  // of 50 boxes those to accept, as the title block counts them
  CHECK(asked == 2);    // of which no more than a question is open
}

TEST_CASE("margins over a limit say so in words") {
  const WebPage page = sound_page(html_report(*judge_example("saltmarsh-faults.json")));
  CHECK(has(page.by_id("box-2")->text, "voltage, limit for the site1022.71000 V−2.3 % over"));
  CHECK_FALSE(has(page.by_id("box-0")->text, "% over"));
}

TEST_CASE("dispositions, and what is gone, have sections as in the text report") {
  const WebPage page = sound_page(html_report(*judge_example(examples[2])));
  REQUIRE(page.by_id("dispositions") != nullptr);
  CHECK(has(page.by_id("dispositions")->text, "B-09replacewater-inside, gasket-damaged"));
  REQUIRE(page.by_id("gone") != nullptr);
  CHECK(has(page.by_id("gone")->text, "Of the plan, and not so on the box as found; not counted."));
  REQUIRE(page.by_id("gone-1") != nullptr);
  CHECK_FALSE(has(page.by_id("gone-1")->text, "Do "));
}

TEST_CASE(
    "agreed exceptions: each entry, what became of it, what it sets aside; the box's sheet points there") {
  const auto judged = judge_example("saltmarsh-faults.json", {}, {{}, true});
  agree(*judged, example_json("saltmarsh-exceptions.json")["exceptions"], "2027-03-18");
  const WebPage page = sound_page(html_report(*judged));
  const WebElement* section = page.by_id("agreed");
  REQUIRE(section != nullptr);
  CHECK(has(section->text, "ask to see it."));
  CHECK(page.all("section", "exception").size() == judged->judgement.exceptions.size());
  for (const ExceptionResult& e : judged->judgement.exceptions)
    for (const auto& [label, text] : report::exception_rows(e, judged->judgement)) {
      CAPTURE(text);
      CHECK(has(section->text, text));
    }
  for (const AgreedFinding& a : judged->judgement.agreed) CHECK(has(section->text, a.finding.message));
  const AgreedFinding& first = judged->judgement.agreed.front();
  REQUIRE(first.finding.box.has_value());
  const WebElement* sheet = page.by_id("box-" + std::to_string(*first.finding.box));
  CHECK(has(sheet->text, "Set aside by agreement:"));
  CHECK(has(sheet->text, first.finding.message));
  CHECK(has(one(page, "header", "block").text, "set aside"));

  // A file without entries says so.
  const auto none = judge_agreed(sound_design(), Json::array());
  CHECK(has(sound_page(html_report(*none)).by_id("agreed")->text, "The file has no entries."));
}

TEST_CASE("short ids stand on one line, long ones may break; a run breaks at its dots at most") {
  Json design = sound_design();
  const Json box = design["combiners"][0];
  // 20 and 21 characters, and a sequence.
  const std::string ids[] = {"ROOF-NORTH-BOX-00001", "ROOF-NORTH-BOX-00001B", "A-01", "A-02", "A-03"};
  for (std::size_t i = 0; i < std::size(ids); ++i) {
    design["combiners"][i] = box;
    design["combiners"][i]["id"] = ids[i];
  }
  const std::string page = html_report(*judge(design));
  sound_page(page);
  CHECK(has(page, "<h3><bdi class=\"id\">ROOF-NORTH-BOX-00001</bdi></h3>"));
  CHECK(has(page, "<h3><bdi>ROOF-NORTH-BOX-00001B</bdi></h3>"));
  CHECK(has(page, "<bdi class=\"id\">A-01…A-03</bdi>"));  // in the chart of margins
}

TEST_CASE("one string is a string, one box is shown") {
  Json design = sound_design();
  design["combiners"][0]["circuits"][0]["strings"] = 1;
  const WebPage page = sound_page(html_report(*judge(design)));
  CHECK(has(one(page, "header", "block").text, "1 box, 1 string, "));
  CHECK_FALSE(has(page.by_id("box-0")->text, "1 strings"));
}
