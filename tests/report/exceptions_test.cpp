// Agreed exceptions in the reports: text, JSON, and the screen of one box.
#include "boxproof/exceptions.hpp"

#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

Json agreed_entries() {
  return example_json("saltmarsh-exceptions.json")["exceptions"];
}

std::unique_ptr<Judged> faults(const Json& entries = agreed_entries(), std::string_view day = "2027-03-18") {
  auto judged = judge_example(examples[1]);
  agree(*judged, entries, day);
  return judged;
}

bool has(std::string_view page, std::string_view text) {
  return page.find(text) != std::string_view::npos;
}

// The page from this text to its end.
std::string from(const std::string& page, std::string_view text) {
  const auto at = page.find(text);
  CAPTURE(std::string(text));
  REQUIRE(at != std::string::npos);
  return page.substr(at);
}

}  // namespace

TEST_CASE("without an exceptions file no report speaks of exceptions") {
  const auto judged = judge_example(examples[1]);
  for (const std::string& page : {json_report(*judged), text_report(*judged), box_report(*judged, 9)}) {
    CHECK_FALSE(has(page, "xception"));
    CHECK_FALSE(has(page, "greed"));
    CHECK_FALSE(has(page, "XCEPTION"));
  }
}

TEST_CASE("the text report has the agreed exceptions in a section of their own") {
  const std::string page = text_report(*faults());
  CHECK(has(page, "  Agreed exceptions count as on 2027-03-18, the day given with --on.\n"));
  CHECK(has(page, "         Agreed exceptions: 1 finding set aside; 1 entry expired\n"));
  CHECK(has(page, "10 hazards, 10 corrections, 3 queries"));
  CHECK(too_wide(page).empty());
  const std::string section = from(page, "AGREED EXCEPTIONS");
  CHECK_FALSE(has(page.substr(0, page.size() - section.size()), "The disconnect of A-10 is 5 m away"));
  const std::string one = from(section, "Exception 1: "), two = from(section, "Exception 2: "),
                    three = from(section, "Exception 3: ");
  CHECK(has(one,
            "Exception 1: Disconnect too far from the box  [disconnect/too-far]\n"
            "    state     in force; 1 finding set aside\n"
            "    boxes     A-10\n"
            "    reason    A parapet stands where the switch would go."));
  CHECK(has(one,
            "    agreed by electrical plan review, permit office\n"
            "    date      2027-01-20\n"
            "    expires   2028-01-31\n"
            "    place     exceptions.json:"));
  const std::string finding = from(one,
                                   "  – correction: Disconnect too far from the box  [disconnect/too-far]\n"
                                   "    box       A-10\n");
  CHECK(finding.size() > two.size());  // it stands before the second entry
  CHECK(has(finding,
            "    finding   The disconnect of A-10 is 5 m away; it may be 3 m at most.\n"
            "    place     examples/saltmarsh-faults.json:"));
  CHECK(has(two, "    state     EXPIRED at the end of 2026-12-31; its 1 finding stands\n"));
  CHECK(has(three,
            "    state     in force, but has only hazards, which it does not cover; its 1\n"
            "              finding stands\n"));
  CHECK_FALSE(has(two, "  – "));
  // What stands is still in its place.
  const std::string before = page.substr(0, page.size() - section.size());
  CHECK(has(before, "[conductor/grounding-size]"));
  CHECK(has(before, "[conductor/unprotected]"));
}

TEST_CASE("the text report says of an entry what became of it, and what it names that is not there") {
  const auto state = [](const Json& entry, std::string_view day = "2027-02-01") {
    const std::string page = from(text_report(*faults(Json::array({entry}), day)), "    state     ");
    return page.substr(14, page.find("    reason") - 14);
  };
  CHECK(
      state(an_exception("fuse/missing", {{"boxes", {"A-0*", "Z-1"}}})) ==
      "in force, but matches nothing\n    boxes     A-0*, Z-1\n              \"Z-1\" names no box of the plan\n");
  CHECK(state(an_exception("conductor/aluminum", {{"boxes", {"*"}}}), "2027-01-01") ==
        "not in force before 2027-01-10; its 14 findings stand\n"
        "    boxes     * (the site's own findings too)\n");
  CHECK(state(an_exception("fuse/missing"), "2027-03-01") ==
        "EXPIRED at the end of 2027-02-20; it has no findings\n    boxes     A-01\n");
  CHECK(state(an_exception("voltage/site-limit", {{"boxes", {"A-03"}}, {"hazard", true}})) ==
        "in force; 1 finding set aside\n    boxes     A-03\n    covers    hazards too\n");
  // Advice on fourteen boxes is one entry, as among the findings.
  const std::string page = text_report(
      *faults(Json::array({an_exception("conductor/aluminum", {{"boxes", {"*"}}})}), "2027-02-01"));
  CHECK(has(page, "  – advice: "));
  CHECK(has(page, "A-15…A-28  (14 boxes)"));
  const std::string hazard = text_report(*faults(
      Json::array({an_exception("voltage/site-limit", {{"boxes", {"*"}}, {"hazard", true}})}), "2027-02-01"));
  CHECK(has(hazard, "Agreed exceptions: 1 finding set aside, 1 hazard among them\n"));
  CHECK(has(text_report(*faults(Json::array())), "The file has no entries.\n"));
}

TEST_CASE("a file cannot bring control characters into the report") {
  const Json entry =
      an_exception("fuse/missing", {{"boxes", {"A\x1b[2J"}}, {"reason", "x\x1b[1m\r"}, {"agreed_by", "\a"}});
  const auto judged = faults(Json::array({entry}));
  CHECK(control_characters(text_report(*judged)) == 0);
  CHECK(control_characters(box_report(*judged, 0)) == 0);
  CHECK(Json::parse(json_report(*judged))["exceptions"][0]["reason"] == "x\x1b[1m\r");
}

TEST_CASE("the JSON report has the agreed findings and the exceptions") {
  const auto judged = faults();
  const Json report = Json::parse(json_report(*judged));
  const Json plain = Json::parse(json_report(*judge_example(examples[1])));
  CHECK_FALSE(plain.contains("agreed"));
  CHECK_FALSE(plain.contains("exceptions"));
  CHECK_FALSE(plain.contains("exceptions_on"));
  CHECK(report["exceptions_on"] == "2027-03-18");
  REQUIRE(report["agreed"].size() == 1);
  Json agreed = report["agreed"][0];
  CHECK(agreed["exception"] == 0);
  agreed.erase("exception");
  CHECK(std::count(plain["findings"].begin(), plain["findings"].end(), agreed) == 1);  // otherwise unchanged
  CHECK(report["findings"].size() + 1 == plain["findings"].size());
  CHECK(report["site"]["counts"]["correction"] == 10);
  CHECK(plain["site"]["counts"]["correction"] == 11);
  REQUIRE(report["exceptions"].size() == 3);
  const char* states[] = {"applied", "expired", "hazards-only"};
  for (std::size_t i = 0; i < 3; ++i) {
    const Json& e = report["exceptions"][i];
    for (const char* key : {"rule", "boxes", "reason", "agreed_by", "date", "expires"})
      CHECK(e[key] == agreed_entries()[i][key]);
    CHECK(e["hazard"] == false);
    CHECK(e["state"] == states[i]);
    CHECK(e["findings"] == (i == 0 ? 1 : 0));
    CHECK(e["standing"] == (i == 0 ? 0 : 1));
    CHECK(e["unknown_boxes"] == Json::array());
  }
  const Json other = Json::parse(json_report(*faults(Json::array(
      {an_exception("fuse/missing", {{"boxes", {"Z"}}, {"expires", nullptr}, {"hazard", true}})}))));
  CHECK(other["agreed"] == Json::array());
  CHECK(other["exceptions"][0]["expires"].is_null());
  CHECK(other["exceptions"][0]["hazard"] == true);
  CHECK(other["exceptions"][0]["unknown_boxes"] == Json::array({"Z"}));
  CHECK(Json::parse(json_report(*faults(Json::array())))["exceptions"] == Json::array());
}

TEST_CASE("the screen of a box has what is set aside there, and the entries without effect that name it") {
  const auto judged = faults();
  const std::string a10 = box_report(*judged, 9), a20 = box_report(*judged, 19), a01 = box_report(*judged, 0);
  REQUIRE(has(a10, "BOX A-10"));
  CHECK(has(a10, "VERDICT     accept\n"));
  CHECK(has(a10,
            "FINDINGS    none\n"
            "agreed      correction: The disconnect of A-10 is 5 m away; it may be 3 m at"));
  CHECK(has(a10, "until 2028-01-31: A parapet"));
  CHECK(has(a10, "2027-03-18, the day given with --on."));
  REQUIRE(has(a20, "BOX A-20"));
  CHECK(has(a20, "VERDICT     correct\n"));
  CHECK(has(a20, "exception   conductor/grounding-size: EXPIRED at the end of 2026-12-31; its 1"));
  CHECK_FALSE(has(a01, "exception   "));
  CHECK_FALSE(has(a01, "agreed      "));
  for (const std::string& page : {a10, a20, a01}) CHECK(too_wide(page).empty());
}

TEST_CASE("the screen of a box says where an entry that has effect elsewhere leaves its finding standing") {
  // Of fuse/not-dc: a hazard on A-01, a query on B-08.
  Json design = example_json("saltmarsh-faults.json");
  design["combiners"][0]["fuse"] = {{"dc", false}};
  const auto judged = judge_agreed(design, Json::array({an_exception("fuse/not-dc", {{"boxes", {"*"}}})}));
  REQUIRE(what_became(*judged) == "applied, 1 set aside, 1 standing");
  CHECK(has(box_report(*judged, 0),
            "exception   fuse/not-dc: in force; 1 finding set aside; 1 hazard not, which it"));
  CHECK_FALSE(has(box_report(*judged, 1), "exception   "));
}
