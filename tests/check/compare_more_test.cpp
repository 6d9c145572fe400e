// What makes two reports comparable or not: editions, amendments, temperatures, agreed exceptions; findings
// that are in both and differ; fingerprints that are there twice; boxes that changed.
#include <algorithm>

#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const Json sound = sound_design();
const Json no_dc = with_box({{"fuse", {{"dc", false}}}});

// The report of a plan under agreed exceptions.
Json agreed_report(const Json& design, const Json& entries) {
  const auto judged = judge(design);
  agree(*judged, entries);
  return report_json(*judged);
}

const Json not_dc_agreed = Json::array({an_exception("fuse/not-dc", {{"hazard", true}, {"boxes", {"*"}}})});

Json with_edition(Json design, const char* edition) {
  design["code"]["edition"] = edition;
  return design;
}

}  // namespace

TEST_CASE("agreed: not corrected and not open; open again when nothing covers it any more") {
  const Json open = plan_report(no_dc), agreed = agreed_report(no_dc, not_dc_agreed);
  const auto now = compare_reports(open, agreed);
  CHECK(now->fate("fuse/not-dc") == "agreed agreed-now");
  CHECK(now->comparison.open_counts() == Comparison::Counts{});
  CHECK(now->comparison.counts(Outcome::agreed) == Comparison::Counts{1, 0, 0, 0});
  CHECK(compare_reports(agreed, agreed)->fate("fuse/not-dc") == "agreed agreed-before");
  const auto again = compare_reports(agreed, open);
  CHECK(again->fate("fuse/not-dc") == "open-again");
  CHECK(again->comparison.open_counts() == Comparison::Counts{1, 0, 0, 0});
  CHECK(again->remarks("made without them"));
  CHECK(compare_reports(plan_report(sound), agreed)->fate("fuse/not-dc") == "agreed agreed-new");
  CHECK(compare_reports(agreed, agreed_report(sound, not_dc_agreed))->fate("fuse/not-dc") ==
        "corrected was-agreed");
  CHECK(compare_reports(agreed, agreed_report(with_box({{"fuse", {{"dc", nullptr}}}}), not_dc_agreed))
            ->fates("fuse/not-dc")
            .front() == "agreed agreed-new");
}

TEST_CASE("a rule that the later edition does not have cannot have looked") {
  Json away = sound;
  away["code"]["amendments"] = {{"rules", {{"fuse/not-dc", nullptr}}}};
  const auto c = compare_reports(plan_report(no_dc), plan_report(away));
  CHECK(c->fate("fuse/not-dc") == "not-looked-at-again no-rule");
  CHECK(c->remarks("Amended locally otherwise than before: rules.fuse/not-dc"));
  Json away_before = no_dc;
  away_before["code"]["amendments"] = {{"rules", {{"fuse/not-dc", nullptr}}}};
  CHECK(compare_reports(plan_report(away_before), plan_report(away_before))->fate("fuse/not-dc") == "none");
}

TEST_CASE("a limit that an amendment moved corrects nothing") {
  Json strict = sound;
  strict["code"]["amendments"] = {{"voltage", {{"limits", {{"building", {{"max_v", 100}}}}}}}};
  const Json& lax = sound;
  const auto moved = compare_reports(plan_report(strict), plan_report(lax));
  CHECK(moved->fate("voltage/site-limit").starts_with("not-looked-at-again other-code voltage.limits"));
  CHECK(moved->comparison.open_counts() != Comparison::Counts{});
  // Another rule, which does not go by what was moved.
  Json strict_no_dc = strict;
  strict_no_dc["combiners"][0]["fuse"]["dc"] = false;
  CHECK(compare_reports(plan_report(strict_no_dc), plan_report(lax))->fate("fuse/not-dc") == "corrected");
  // Under the same amendment a shorter string is a correction.
  Json shorter = strict;
  shorter["combiners"][0]["circuits"][0]["series"] = 1;
  CHECK(compare_reports(plan_report(strict), plan_report(shorter))->fate("voltage/site-limit") ==
        "corrected");
}

TEST_CASE("another edition: what goes by other data is not looked at again, the rest is") {
  // A fuse that has to be listed for photovoltaic use is asked for by some editions only.
  const Json unlisted = with_box({{"fuse", {{"pv_listed", false}, {"dc", false}}}});
  const auto c =
      compare_reports(plan_report(with_edition(unlisted, "2017")), plan_report(with_edition(sound, "2008")));
  CHECK(c->fate("fuse/not-pv-listed") == "not-looked-at-again no-rule");
  CHECK(c->fate("fuse/not-dc") == "corrected");
  CHECK(c->remarks("NEC 2017 before, NEC 2008 after"));
  const auto back =
      compare_reports(plan_report(with_edition(sound, "2008")), plan_report(with_edition(unlisted, "2017")));
  CHECK(back->fate("fuse/not-pv-listed") == "new no-rule-before");
  CHECK_FALSE(compare_reports(plan_report(sound), plan_report(sound))->remarks("editions"));
}

TEST_CASE("a temperature given on the command line corrects nothing; one that the plan states may") {
  const Json before = plan_report(with_circuit({{"series", 90}}));
  Json after = plan_report(sound);
  after["site"]["low_c"] = 25;
  const auto stated = compare_reports(before, after);
  CHECK(stated->fate("voltage/site-limit") == "corrected");
  CHECK(stated->remarks("the plan was changed"));
  after["code"]["overrides"] = {"site.low_c is 25 °C (the file says −9 °C)"};
  const auto given = compare_reports(before, after);
  CHECK(given->fate("voltage/site-limit") == "not-looked-at-again other-temperature");
  CHECK(given->remarks("given on the command line"));
  CHECK(compare_reports(plan_report(no_dc), after)->fate("fuse/not-dc") ==
        "not-looked-at-again other-temperature");
}

TEST_CASE("names, versions and visits that do not go together are remarked, and those that do are not") {
  const Json visit = report_json(*judge_example("saltmarsh.json", "saltmarsh-visit.json"));
  Json other = visit;
  other["site"]["name"] = "Elsewhere";
  other["tool"]["version"] = "9.9.9";
  other["visit"]["date"] = "2027-03-17";
  const auto c = compare_reports(visit, other);
  CHECK(c->remarks("names differ"));
  CHECK(c->remarks("Two versions of the program"));
  CHECK(c->remarks("Were the two reports exchanged?"));
  CHECK(compare_reports(visit, visit)->comparison.remarks ==
        std::vector<std::string>{"The later record has nothing of 3 boxes of the plan."});
  CHECK(compare_reports(other, visit)->comparison.remarks.size() == 3);  // not exchanged

  Json data = visit;
  data["tool"]["data"] = "00112233445566ff";
  const std::string revision = visit["tool"]["data"];
  CHECK(compare_reports(visit, data)
            ->remarks("Two revisions of the program's data judged: " + revision +
                      " before, 00112233445566ff after."));
  data["tool"].erase("data");  // of a program that did not state it yet
  CHECK_FALSE(compare_reports(visit, data)->remarks("Two revisions"));
}

TEST_CASE("the same fingerprint twice: none is lost, and the right one is left over") {
  Json two = plan_report(no_dc);
  Json finding = two["findings"][0];
  two["findings"].push_back(finding);
  two["findings"][1]["found"] = "another";
  Json one = two;
  one["findings"].erase(0);
  const auto less = compare_reports(two, one);
  CHECK(less->fates("fuse/not-dc") == std::vector<std::string>{"corrected", "still-open"});
  for (const Compared& c : less->comparison.findings)
    CHECK((c.outcome == Outcome::open) == (c.finding().found == Amount(std::string("another"))));
  CHECK(compare_reports(one, two)->fates("fuse/not-dc") == std::vector<std::string>{"new", "still-open"});
  CHECK(compare_reports(two, two)->comparison.nothing_changed);
}

TEST_CASE("boxes that changed without a finding, and those that did not") {
  const Json shorter = with_circuit({{"series", 17}});
  const auto c = compare_reports(plan_report(sound), plan_report(shorter));
  REQUIRE(c->comparison.changed.size() == 1);
  const ChangedBox& box = c->comparison.changed[0];
  CHECK(box.after->id == "A-01");
  CHECK_FALSE(box.asked);
  const auto modules = std::find_if(box.changes.begin(), box.changes.end(),
                                    [](const ValueChange& v) { return v.name->key == "modules"; });
  REQUIRE(modules != box.changes.end());
  CHECK(modules->before == Amount(9.0 * 18));
  CHECK(modules->after == Amount(9.0 * 17));
  CHECK(std::any_of(box.changes.begin(), box.changes.end(),
                    [](const ValueChange& v) { return v.where.starts_with("circuit "); }));
  CHECK(compare_reports(plan_report(sound), plan_report(sound))->comparison.changed.empty());
  // One with a finding is told with that.
  CHECK(compare_reports(plan_report(sound), plan_report(no_dc))->comparison.changed.empty());
  // The verdict changed, since what was asked for was done.
  const auto done = compare_reports(plan_report(no_dc), plan_report(sound));
  REQUIRE(done->comparison.changed.size() == 1);
  CHECK(done->comparison.changed[0].asked);
  CHECK(done->comparison.changed[0].changes.empty());
  CHECK_FALSE(done->comparison.nothing_changed);
  // Not looked at again is not as it should be.
  const Json found = visit_report(sound, {{{"id", "A-01"}, {"fuse", {{"dc", false}}}}});
  const Json elsewhere = visit_report(sound, {{{"id", "A-01"}, {"egc", {{"material", "copper"}}}}});
  CHECK(compare_reports(found, elsewhere)->comparison.changed.empty());
}

TEST_CASE("a last digit is no change, one that shows is") {
  const Json before = plan_report(sound);
  Json after = before;
  const double volts = before["boxes"][0]["calc"]["max_v"];
  after["boxes"][0]["calc"]["max_v"] = volts * (1 + 1e-12);
  CHECK(compare_reports(before, after)->comparison.changed.empty());
  after["boxes"][0]["calc"]["max_v"] = volts * (1 + 1e-6);
  CHECK(compare_reports(before, after)->comparison.changed.size() == 1);
  after["boxes"][0]["calc"]["max_v"] = nullptr;
  const auto lost = compare_reports(before, after);
  REQUIRE(lost->comparison.changed.size() == 1);
  CHECK(lost->comparison.changed[0].changes[0].after == Amount());
}

TEST_CASE("the three visits of the example") {
  const auto report = [](const char* record) {
    return report_json(*judge_example("saltmarsh.json", record));
  };
  const Json first = report("saltmarsh-visit.json"), second = report("saltmarsh-second-visit.json"),
             last = report("saltmarsh-final-visit.json");
  CHECK(last["site"]["verdict"] == "accept");
  const auto again = compare_reports(first, second);
  CHECK(again->comparison.counts(Outcome::appeared) == Comparison::Counts{1, 0, 0, 0});
  CHECK(again->fate("condition/loose-terminal") == "new");
  CHECK(again->fate("tally/fuse") == "still-open");
  CHECK(again->fate("tally/not-visited", "B-18") == "still-open");
  CHECK(again->fate("tally/not-on-plan") == "corrected misread-id B-10");
  CHECK(again->fate("measured/series-count") ==
        "not-looked-at-again not-stated measured/9/voc_v, measured/irradiance_w_m2, measured/cell_c, "
        "measured/9/isc_a, measured/9/insulation_mohm");
  CHECK(again->comparison.counts(Outcome::corrected)[0] == 10);
  for (const Json* before : {&first, &second}) {
    const auto done = compare_reports(*before, last);
    CHECK(done->comparison.open_counts() == Comparison::Counts{0, 0, 0, 14});
    CHECK(done->comparison.counts(Outcome::appeared) == Comparison::Counts{});
    CHECK(done->comparison.counts(Outcome::unseen) == Comparison::Counts{});
  }
}
