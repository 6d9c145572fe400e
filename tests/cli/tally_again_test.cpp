// boxproof tally --again: the sheet of a second visit, in its three formats, and what cannot be one.
#include <algorithm>

#include "tests/support/compared.hpp"
#include "tests/support/page.hpp"
#include "tests/support/tally_sheet.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const std::string visit = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-visit.json";
const std::string faults = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-faults.json";

// Reports in a folder that is there for one test.
struct Reports {
  Folder folder;
  std::string check(const std::string& name, std::vector<std::string> arguments) const {
    const std::string path = folder.path(name);
    arguments.insert(arguments.begin(), "check");
    for (const char* more : {"--format", "json", "--output"}) arguments.emplace_back(more);
    arguments.push_back(path);
    REQUIRE(call(arguments).status <= 1);
    return path;
  }
  std::string first() const { return check("first.json", {clean_example, "--asbuilt", visit}); }
};

// The ids of boxes on which a report has something open.
std::vector<std::string> open_boxes(const std::string& report) {
  std::vector<std::string> open, out;
  const Json whole = Json::parse(report);
  for (const Json& f : whole["findings"])
    if (f["severity"] != "advice" && f["box"].is_string()) open.push_back(f["box"]);
  for (const std::string& id : all_ids())
    if (std::find(open.begin(), open.end(), id) != open.end()) out.push_back(id);
  return out;
}

Json plan_in(const std::string& page) {
  constexpr std::string_view opening = "<script type=\"application/json\" id=\"plan\">";
  const std::size_t from = page.find(opening) + opening.size();
  return Json::parse(page.substr(from, page.find("</script>", from) - from));
}

// A report with its text replaced, as nobody but a forger would.
std::string changed(const Reports& r, const Json& patch) {
  Json report = Json::parse(r.folder.get("first.json"));
  report.merge_patch(patch);
  return r.folder.put("changed.json", report.dump());
}

}  // namespace

TEST_CASE("tally --again: the boxes with something open, in the plan's order") {
  const Reports r;
  const std::string first = r.first();
  const std::vector<std::string> open = open_boxes(r.folder.get("first.json"));
  CHECK(open.size() == 18);
  CHECK(ids_of({"--again", first}) == open);
  CHECK(ids_of({"--again", first, "--box", "A-1*"}) ==
        std::vector<std::string>{"A-11", "A-13", "A-14", "A-16", "A-19"});
  const Called text = tally({"--again", first});
  CHECK(text.status == 0);
  CHECK(text.err.empty());
  CHECK(too_wide(text.out).empty());
  CHECK(tells(text.out, "a field check of 2027-03-18, NEC 2017: STOP."));
  CHECK(tells(text.out,
              "On this sheet: 18 boxes of 50 on the plan, with 10 hazards, 23 corrections, 4 queries."));
  CHECK(tells(text.out, "What is not looked at again stays open."));
  CHECK(tells(text.out, "Not on it: 15 pieces of advice."));
  CHECK(tells(
      tally({"--again", first, "--box", "A-1*"}).out,
      "5 boxes of 50 on the plan, with 7 corrections, 1 query. 13 more with something open are left out by "
      "--box A-1*."));
}

TEST_CASE("tally --again: what to look at in a box, the worst first") {
  const Reports r;
  const Called text = tally({"--again", r.first(), "--box", "A-04"});
  CHECK(tells(
      text.out,
      "AGAIN [ ] HAZARD tally/series: The inspector counted 19 modules in series in the strings of A-04; the "
      "plan has 18. look at: modules in series"));
  CHECK(tells(
      text.out,
      "[ ] CORRECTION tally/label: The label on A-04 says 18 modules in series; the inspector found 19. look "
      "at: label: modules in series"));
  CHECK(text.out.find("HAZARD voltage/site-limit") < text.out.find("CORRECTION tally/label"));
  CHECK(text.out.find("[ ] ") < text.out.find("  PLAN    "));
  CHECK_FALSE(text.says("tracking-window"));  // advice
  const auto look = [&](const char* id) {
    return tally({"--again", r.folder.path("first.json"), "--box", id}).out;
  };
  CHECK(tells(look("B-03"), "look at: odd fuses, or all alike"));
  CHECK(tells(look("B-09"), "look at: conditions seen, or none"));
  CHECK(tells(look("A-19"), "look at: string 9: Voc"));
  CHECK(tells(look("A-26"), "look at: output material; positives;"));
  CHECK(tells(look("A-26"), "output oxide inhibitor"));
  CHECK(tells(look("B-10"), "look at: the whole box, as for a first visit"));
  CHECK_FALSE(tally({}).says("look at:"));
}

TEST_CASE("tally --again: what is open of the site and of boxes off the plan stands in the head") {
  const Reports r;
  const std::string out = tally({"--again", r.first()}).out;
  const std::string head = out.substr(0, out.find("A box stays energised"));
  CHECK(tells(head, "OPEN ELSEWHERE, of the site and of boxes that are not on the plan"));
  CHECK(tells(head, "The site as found has 628 strings; the permit says 627."));
  CHECK(tells(head, "Box B-1O of the field record is not on the plan"));
  CHECK(control_characters(out) == 0);
}

TEST_CASE("tally --again: with CSV the choice and what it cannot close stand on standard error") {
  const Reports r;
  const Called c = tally({"--again", r.first(), "--format", "csv"});
  CHECK(tells(c.err, "What is not looked at again stays open."));
  CHECK(tells(c.err, "Box B-1O of the field record is not on the plan"));
  // Label values in V and A and of fuses, readings, output conductors, odd fuses, a type: no columns.
  CHECK(tells(c.err, "CSV has no column for what closes 22 findings on "));
  CHECK_FALSE(tells(tally({"--again", r.folder.path("first.json"), "--format", "csv", "--box", "B-09"}).err,
                    "CSV has no column"));
}

TEST_CASE("tally --again: the page knows what to look at, and keeps its counts apart") {
  const Reports r;
  const std::string first = r.first();
  const std::string page = tally({"--again", first, "--format", "html"}).out;
  const Json again = plan_in(page), plain_sheet = plan_in(tally({"--format", "html"}).out);
  CHECK(again["key"] != plain_sheet["key"]);
  CHECK(again["stamp"] == plain_sheet["stamp"]);
  CHECK(again["second"] == Json{{"date", "2027-03-18"}, {"visited", true}});
  CHECK_FALSE(plain_sheet.contains("second"));
  CHECK(again["boxes"].size() == 18);
  CHECK(again["others"].size() == 32);
  const Json& a04 = again["boxes"][0];
  CHECK(a04["id"] == "A-04");
  REQUIRE(a04["again"].size() == 8);
  CHECK(a04["again"][0]["severity"] == "hazard");
  CHECK(a04["again"][0]["rule"] == "tally/series");
  CHECK(a04["again"][0]["keys"] ==
        Json{"count/series", "count/positive", "count/negative", "count/fuses", "count/modules"});
  CHECK(a04["again"][0]["look"] ==
        "modules in series; positives; negatives; fuses, how many; modules on the box");
  CHECK_FALSE(again["others"][0].contains("again"));
  CHECK(page.find("Open elsewhere: 3 of the site") < page.find("<main"));
  CHECK(plan_in(tally({"--again", first, "--format", "html"}).out)["key"] == again["key"]);
  // Another visit's report: other counts.
  const std::string later = changed(r, {{"visit", {{"date", "2027-05-01"}}}});
  CHECK(plan_in(tally({"--again", later, "--format", "html"}).out)["key"] != again["key"]);
}

TEST_CASE("tally --again: a report of a plan check") {
  const Reports r;
  const std::string report = r.check("plan.json", {faults});
  const Called c = call({"tally", faults, "--again", report});
  CHECK(tells(c.out, "a plan check, NEC 2017: STOP."));
  CHECK(tells(c.out,
              "CORRECTION disconnect/too-far: on the plan: The disconnect of A-10 is 5 m away; it may be 3 m "
              "at most. look at: disconnect, distance from the box"));
  // The permit, the source of the temperatures, a length that is not stated.
  CHECK(tells(c.out, "Not on it: 3 findings that only the plan can close, "));
  CHECK_FALSE(c.says("OPEN ELSEWHERE"));
  CHECK_FALSE(c.says("B-02, sheet"));
  CHECK(plan_in(call({"tally", faults, "--again", report, "--format", "html"}).out)["second"]["visited"] ==
        false);
}

TEST_CASE("tally --again: nothing open, or nothing that a box could show") {
  const Reports r;
  const std::string last =
      r.check("last.json",
              {clean_example, "--asbuilt", std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-final-visit.json"});
  const Called c = tally({"--again", last});
  CHECK(c.status == 0);
  CHECK(tells(c.out, "No box is on this sheet: nothing is open that could be seen on one."));
  CHECK_FALSE(c.says("\n  PLAN "));
  CHECK(ids_of({"--again", last}).empty());
  CHECK(plan_in(tally({"--again", last, "--format", "html"}).out)["boxes"].empty());
  const Called none = tally({"--again", r.first(), "--box", "A-01"});
  CHECK(none.status == 0);
  CHECK(tells(none.out, "No box is on this sheet. 18 more with something open are left out by --box A-01."));
}

TEST_CASE("tally --again: a report that does not fit the plan is told") {
  const Reports r;
  const std::string first = r.first();
  const std::string fits = tally({"--again", first}).out;
  CHECK_FALSE(tells(fits, "Is it one of this plan?"));
  CHECK_FALSE(tells(fits, "Check the second visit by the edition of the report"));
  CHECK(tells(tally({"--again", changed(r, {{"site", {{"name", "Elsewhere <b>"}}}})}).out,
              "The report is of a site named \"Elsewhere <b>\". Is it one of this plan?"));
  const Called page = tally({"--again", r.folder.path("changed.json"), "--format", "html"});
  CHECK(page.says("Elsewhere &lt;b&gt;"));
  CHECK_FALSE(page.says("Elsewhere <b>"));
  CHECK(tells(tally({"--again", first, "--edition", "2020"}).out,
              "The report goes by NEC 2017, this sheet by NEC 2020."));
  CHECK(tells(
      tally({"--again", r.check("some.json", {clean_example, "--asbuilt", visit, "--box", "A-04"})}).out,
      "The report shows only 1 box: what is open on others is not on this sheet."));
}

TEST_CASE("tally --again: texts of a report do no harm") {
  const Reports r;
  r.first();
  Json report = Json::parse(r.folder.get("first.json"));
  for (Json& f : report["findings"]) f["message"] = "</script><b>\u001b[2J\u202e";
  const std::string bad = r.folder.put("bad.json", report.dump());
  for (const char* format : {"text", "html"}) {
    const std::string out = tally({"--again", bad, "--format", format}).out;
    CHECK(out.find("\u001b") == std::string::npos);
    CHECK(out.find("\u202e") == std::string::npos);
    CHECK(out.find("u{1B}[2J") != std::string::npos);
  }
  const std::string page = tally({"--again", bad, "--format", "html"}).out;
  CHECK(page.find("<b>\\u") == std::string::npos);
  CHECK(plan_in(page)["boxes"].size() == 18);
}

TEST_CASE("tally --again: wrong use and bad input") {
  const Reports r;
  const std::string first = r.first();
  for (const std::vector<std::string>& sample :
       {std::vector<std::string>{"--sample", "3"}, std::vector<std::string>{"--plan", "iso2859"}}) {
    std::vector<std::string> more{"--again", first};
    more.insert(more.end(), sample.begin(), sample.end());
    const Called c = tally(more);
    CHECK(c.status == 2);
    CHECK(c.out.empty());
    CHECK(c.complains("found --again with a sample, expected one of the two"));
  }
  CHECK(call({"tally", "-", "--again", "-"}).complains("found - for both the design and the report"));
  CHECK(tally({"--again"}).status == 2);
  const auto bad = [&](const std::string& path, const char* said) {
    const Called c = tally({"--again", path});
    CHECK(c.status == 3);
    CHECK(c.out.empty());
    CAPTURE(c.err);
    CHECK(c.complains(said));
  };
  bad(clean_example, "this is a design: make one with boxproof check --format json");
  bad(visit, "this is a field record");
  bad("/nowhere.json", "/nowhere.json");
  bad(r.folder.put("text.txt", "boxproof 0.1.0"), "expected a report in JSON");
  CHECK(
      call({"tally", clean_example, "--again", "-"}, {r.folder.get("first.json"), false, {}}).says("AGAIN"));
}
