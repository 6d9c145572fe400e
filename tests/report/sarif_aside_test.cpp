// What was agreed or is on a baseline is told in SARIF, and told to be no news.
#include "boxproof/rule.hpp"
#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/sarif.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// Two corrections and, with a fuse too large, a hazard.
const Json faulty = with_box({{"fuse", {{"a", 30}}}, {"disconnect", {{"distance_m", 10}}}});

// As a baseline marks it: the findings of this rule are on it.
void put_on_baseline(Judged& judged, std::string_view rule, std::size_t stale = 0) {
  judged.judgement.baseline = BaselineUse{"plans/baseline.json", "Existing when checks began.",
                                          *parse_date("2027-01-05"), std::vector<BaselineEntry>(stale)};
  for (Finding& f : judged.judgement.findings) f.known = f.rule->id == rule;
}

}  // namespace

TEST_CASE("an agreed finding is a result that is suppressed, with reason, names, days and place") {
  const auto judged = judge_agreed(faulty, Json::array({an_exception("disconnect/too-far")}));
  const Json results = sarif_results(*judged);
  const Json r = result_of(results, "disconnect/too-far");
  REQUIRE(r["suppressions"].size() == 1);
  const Json& s = r["suppressions"][0];
  CHECK(s["kind"] == "external");
  CHECK(s["status"] == "accepted");
  CHECK(s["justification"] ==
        "a screen stands there Agreed by office, in force from 2027-01-10 to the end of 2027-02-20.");
  const Json& place = s["location"]["physicalLocation"];
  CHECK(place["artifactLocation"]["uri"] == "exceptions.json");
  CHECK(place["region"]["startLine"] == 3);
  CHECK(place["region"]["endLine"] == 3);
  CHECK(r["message"]["text"].get<std::string>().find("What to do") == std::string::npos);
  CHECK_FALSE(r.contains("baselineState"));
  CHECK(results.back() == r);  // behind what stands, whatever its severity
  const Json log = sarif_log(*judged);
  const Json& remarks = log["runs"][0]["artifacts"][0]["properties"]["remarks"];
  CHECK(remarks[0] == "Agreed exceptions count as on 2027-02-01, the day given with --on.");
  CHECK(remarks[1] == "Agreed exceptions: 1 finding set aside.");
  for (const Json& other : results)
    if (other != r) CHECK_FALSE(other.contains("suppressions"));
}

TEST_CASE("an exception without an end, and one that is over") {
  const auto open =
      judge_agreed(faulty, Json::array({an_exception("disconnect/too-far", {{"expires", nullptr}})}));
  CHECK(result_of(sarif_results(*open), "disconnect/too-far")["suppressions"][0]["justification"]
            .get<std::string>()
            .ends_with("in force from 2027-01-10 without an end."));
  const auto over = judge_agreed(faulty, Json::array({an_exception("disconnect/too-far")}), "2027-02-21");
  CHECK_FALSE(result_of(sarif_results(*over), "disconnect/too-far").contains("suppressions"));
}

TEST_CASE("what is on a baseline is unchanged and suppressed, the rest is new") {
  const auto judged = judge(faulty);
  put_on_baseline(*judged, "disconnect/too-far", 2);
  const Json results = sarif_results(*judged);
  const Json known = result_of(results, "disconnect/too-far");
  CHECK(known["baselineState"] == "unchanged");
  REQUIRE(known["suppressions"].size() == 1);
  CHECK(known["suppressions"][0]["justification"] ==
        "On the baseline of 2027-01-05: Existing when checks began. This is no news, and no approval.");
  CHECK_FALSE(known["suppressions"][0].contains("status"));  // nobody accepted it
  CHECK(known["suppressions"][0]["location"]["physicalLocation"]["artifactLocation"]["uri"] ==
        "plans/baseline.json");
  const Json fresh = result_of(results, "fuse/over-module-limit");
  CHECK(fresh["baselineState"] == "new");
  CHECK_FALSE(fresh.contains("suppressions"));
  CHECK(results.back() == known);
  const Json log = sarif_log(*judged);
  CHECK(log["runs"][0]["artifacts"][0]["properties"]["remarks"].back() ==
        "Entries of the baseline that no longer occur here: 2.");
  CHECK(log["runs"][0]["properties"]["known"]["correction"] == 1);
}

TEST_CASE("agreed beside a baseline") {
  auto judged = judge_agreed(faulty, Json::array({an_exception("disconnect/too-far")}));
  put_on_baseline(*judged, "no/rule");
  const Json r = result_of(sarif_results(*judged), "disconnect/too-far");
  CHECK(r["baselineState"] == "new");
  REQUIRE(r["suppressions"].size() == 1);
  CHECK(r["suppressions"][0]["status"] == "accepted");
}
