// Agreed exceptions: when an entry is in force, what it covers, and what is left of the judgement.
#include "boxproof/exceptions.hpp"

#include "boxproof/rule.hpp"
#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// One correction, one hazard.
const Json unlisted = with_box({{"fuse", {{"pv_listed", false}}}});
const Json not_dc = with_box({{"fuse", {{"dc", false}}}});
constexpr std::string_view listing = "fuse/not-pv-listed", for_dc = "fuse/not-dc";

Json entries(std::initializer_list<Json> list) {
  Json out = Json::array();
  for (const Json& entry : list) out.push_back(entry);
  return out;
}

std::vector<std::string> unknown_boxes(const Json& boxes) {
  return judge_agreed(unlisted, entries({an_exception(listing, {{"boxes", boxes}})}))
      ->judgement.exceptions[0]
      .unknown;
}

}  // namespace

TEST_CASE("an agreed finding is set aside, and counts in no verdict") {
  const auto before = judge(unlisted);
  REQUIRE(before->summary() == std::vector<std::string>{"fuse/not-pv-listed correction fuse"});
  REQUIRE(before->judgement.verdict == Verdict::correct);
  CHECK_FALSE(before->judgement.exceptions_day.has_value());

  const auto after = judge_agreed(unlisted, entries({an_exception(listing)}));
  const Judgement& j = after->judgement;
  CHECK(j.findings.empty());
  REQUIRE(j.agreed.size() == 1);
  CHECK(j.agreed[0].exception == 0);
  CHECK(j.agreed[0].finding.message == before->findings()[0].message);
  CHECK(j.agreed[0].finding.place.line == before->findings()[0].place.line);
  CHECK(j.verdict == Verdict::accept);
  CHECK(j.boxes[0].verdict == Verdict::accept);
  CHECK(j.counts == std::array<std::size_t, 4>{});
  CHECK(what_became(*after) == "applied, 1 set aside, 0 standing");
}

TEST_CASE("an entry is in force from its date to the end of the day on which it expires") {
  // The entry: 2027-01-10 to 2027-02-20.
  const std::pair<const char*, const char*> table[] = {
      {"2026-12-31", "not-yet-in-force, 0 set aside, 1 standing"},
      {"2027-01-09", "not-yet-in-force, 0 set aside, 1 standing"},
      {"2027-01-10", "applied, 1 set aside, 0 standing"},
      {"2027-02-19", "applied, 1 set aside, 0 standing"},
      {"2027-02-20", "applied, 1 set aside, 0 standing"},
      {"2027-02-21", "expired, 0 set aside, 1 standing"},
      {"2028-01-10", "expired, 0 set aside, 1 standing"},
  };
  for (const auto& [day, became] : table) {
    CAPTURE(day);
    const auto j = judge_agreed(unlisted, entries({an_exception(listing)}), day);
    CHECK(what_became(*j) == became);
    const bool in_force = std::string_view(became).starts_with("applied");
    CHECK(j->judgement.verdict == (in_force ? Verdict::accept : Verdict::correct));
    CHECK(j->findings().size() + j->judgement.agreed.size() == 1);
  }
  // Without an end.
  const Json endless = entries({an_exception(listing, {{"expires", nullptr}})});
  CHECK(what_became(*judge_agreed(unlisted, endless, "2099-12-31")) == "applied, 1 set aside, 0 standing");
  // Expired is said of an entry that has no findings, too.
  CHECK(what_became(*judge_agreed(sound_design(), entries({an_exception(listing)}), "2027-02-21")) ==
        "expired, 0 set aside, 0 standing");
}

TEST_CASE("a hazard stands unless the entry says that it covers hazards") {
  const auto silent = judge_agreed(not_dc, entries({an_exception(for_dc)}));
  CHECK(what_became(*silent) == "hazards-only, 0 set aside, 1 standing");
  CHECK(silent->judgement.verdict == Verdict::stop);
  CHECK(silent->judgement.counts[0] == 1);
  const Json no = entries({an_exception(for_dc, {{"hazard", false}})});
  CHECK(what_became(*judge_agreed(not_dc, no)) == "hazards-only, 0 set aside, 1 standing");
  const auto covered = judge_agreed(not_dc, entries({an_exception(for_dc, {{"hazard", true}})}));
  CHECK(what_became(*covered) == "applied, 1 set aside, 0 standing");
  CHECK(covered->judgement.verdict == Verdict::accept);
  // Corrections are covered by an entry that covers hazards.
  const Json both = entries({an_exception(listing, {{"hazard", true}})});
  CHECK(what_became(*judge_agreed(unlisted, both)) == "applied, 1 set aside, 0 standing");
}

TEST_CASE("an entry that matches nothing, and patterns that name no box of the plan") {
  const std::string nothing = "matches-nothing, 0 set aside, 0 standing";
  CHECK(what_became(*judge_agreed(unlisted, entries({an_exception(for_dc)}))) == nothing);
  const Json elsewhere = entries({an_exception(listing, {{"boxes", {"A-1", "b-01"}}})});
  const auto j = judge_agreed(unlisted, elsewhere);
  CHECK(what_became(*j) == nothing);
  CHECK(j->judgement.verdict == Verdict::correct);
  using Strings = std::vector<std::string>;
  CHECK(unknown_boxes({"A-1", "b-01"}) == Strings{"A-1", "b-01"});
  CHECK(unknown_boxes({"A-01", "C-*"}) == Strings{"C-*"});
  CHECK(unknown_boxes({"A-*", "?-01", "[AB]-0?", "*"}).empty());
}

TEST_CASE("boxes are named by ids and patterns; only * has the site's own findings") {
  Json two = with_second_box(unlisted);
  two["site"].erase("temperature_source");  // site/temperature-source, a query of the site
  const auto left = [&](std::string_view rule, const Json& boxes) {
    const auto j = judge_agreed(two, entries({an_exception(rule, {{"boxes", boxes}})}));
    return j->judgement.agreed.size();
  };
  CHECK(left(listing, {"A-01"}) == 1);
  CHECK(left(listing, {"A-01", "B-02"}) == 2);
  CHECK(left(listing, {"?-0[1-2]"}) == 2);
  CHECK(left(listing, {"*"}) == 2);
  CHECK(left("site/temperature-source", {"A-01", "B-*", "?*", "[A-Z]*"}) == 0);
  CHECK(left("site/temperature-source", {"*"}) == 1);
}

TEST_CASE("of two entries for one finding the first that is in force and covers it counts") {
  const Json old = an_exception(listing, {{"date", "2026-01-01"}, {"expires", "2026-12-31"}});
  const auto j = judge_agreed(unlisted, entries({old, an_exception(listing), an_exception(listing)}));
  CHECK(what_became(*j, 0) == "expired, 0 set aside, 0 standing");
  CHECK(what_became(*j, 1) == "applied, 1 set aside, 0 standing");
  CHECK(what_became(*j, 2) == "covered-before, 0 set aside, 0 standing");
  REQUIRE(j->judgement.agreed.size() == 1);
  CHECK(j->judgement.agreed[0].exception == 1);
  // The first that covers a hazard.
  const auto hazard =
      judge_agreed(not_dc, entries({an_exception(for_dc), an_exception(for_dc, {{"hazard", true}})}));
  CHECK(what_became(*hazard, 0) == "covered-before, 0 set aside, 0 standing");
  CHECK(what_became(*hazard, 1) == "applied, 1 set aside, 0 standing");
}

TEST_CASE("a query that several rules share stands until all of them are excepted") {
  const Json blind = with({{"site", {{"low_c", nullptr}}}});
  const auto before = judge(blind);
  REQUIRE(before->findings().size() == 1);
  const Finding& query = before->findings()[0];
  CHECK(query.rule->id == "voltage/no-factor");
  REQUIRE(query.also.size() >= 4);  // site limit, module, inverter, equipment at least
  Json list = Json::array();
  for (const Rule* rule : query.also) {
    list.push_back(an_exception(rule->id));
    const auto j = judge_agreed(blind, list);
    CAPTURE(std::string(rule->id));
    CHECK(what_became(*j) == "shared-only, 0 set aside, 1 standing");
    CHECK(j->judgement.verdict == Verdict::clarify);
  }
  CHECK(what_became(*judge_agreed(blind, entries({an_exception("voltage/no-factor")}))) ==
        "shared-only, 0 set aside, 1 standing");
  list.push_back(an_exception("voltage/no-factor"));
  const auto all = judge_agreed(blind, list);
  CHECK(what_became(*all, list.size() - 1) == "applied, 1 set aside, 0 standing");
  CHECK(what_became(*all) == "covered-before, 0 set aside, 0 standing");
  CHECK(all->judgement.verdict == Verdict::accept);
}

TEST_CASE("a box that nobody visited stays not visited, though its query is agreed") {
  const Json record{{"format", "boxproof-asbuilt/1"}, {"boxes", {{{"id", "X-9"}}}}};
  const auto j = judge(sound_design(), {}, record);
  REQUIRE(j->find("tally/not-visited") != nullptr);
  REQUIRE(j->find("tally/not-on-plan") != nullptr);
  agree(*j, entries({an_exception("tally/not-visited"),
                     an_exception("tally/not-on-plan", {{"boxes", {"X-9"}}})}));
  CHECK(j->findings().empty());
  CHECK(j->judgement.boxes[0].verdict == Verdict::not_visited);
  CHECK(j->judgement.verdict == Verdict::not_visited);
  CHECK(j->judgement.exceptions[1].unknown.empty());  // a box of the record
}

TEST_CASE("what was agreed to on the plan stands where the box as found is farther off") {
  // The disconnect: 4 m on the plan, where 3 m are allowed.
  const Json far = with_box({{"disconnect", {{"distance_m", 4}}}});
  constexpr std::string_view too_far = "disconnect/too-far";
  const auto found_at = [&](const Json& metres) {
    const Json seen{{"id", "A-01"}, {"disconnect", {{"distance_m", metres}}}};
    const Json record{{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({seen})}};
    auto judged = judge(far, {}, record);
    agree(*judged, entries({an_exception(too_far)}));
    return judged;
  };
  for (const double metres : {4.0, 3.5}) {
    CAPTURE(metres);
    const auto judged = found_at(metres);
    CHECK(judged->find(too_far) == nullptr);
    CHECK(what_became(*judged) == "applied, 1 set aside, 0 standing");
  }
  const auto worse = found_at(12);
  REQUIRE(worse->find(too_far) != nullptr);
  CHECK(worse->find(too_far)->message.find("As found: ") != std::string::npos);
  CHECK(worse->judgement.verdict == Verdict::correct);
  CHECK(what_became(*worse) == "worse-as-found, 0 set aside, 1 standing");
}
