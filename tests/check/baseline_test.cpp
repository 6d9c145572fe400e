// What a baseline covers: one finding an entry, of its fingerprint, no hazard, no graver than it was.
#include "boxproof/baseline.hpp"

#include "boxproof/rule.hpp"
#include "tests/support/agreed.hpp"
#include "tests/support/baseline.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Strings = std::vector<std::string>;

// One correction; one hazard.
const Json unlisted = with_box({{"fuse", {{"pv_listed", false}}}});
const Json not_dc = with_box({{"fuse", {{"dc", false}}}});
const std::string listing = "fuse/not-pv-listed correction fuse";

std::unique_ptr<Judged> beside(const Json& now, const Json& before) {
  auto judged = judge(now);
  hold_beside(*judged, baseline_of(judge(before)->judgement));
  return judged;
}

// Findings of one fingerprint with these severities, and what entries of these cover of them.
struct Covered {
  std::vector<Severity> known, fresh;
  std::size_t stale = 0, graver = 0;
};
Covered cover(const std::vector<Severity>& entries, const std::vector<Severity>& findings,
              const std::vector<Severity>& agreed = {}) {
  const auto judged = judge(unlisted);
  const Finding one = judged->findings()[0];
  Judgement& j = judged->judgement;
  const auto as = [&](Severity severity) {
    Finding f = one;
    f.severity = severity;
    return f;
  };
  Baseline baseline;
  for (const Severity s : entries)
    baseline.entries.push_back(
        {"design.json", fingerprint(one), "fuse/not-pv-listed", "A-01", "fuse", s, {}});
  j.findings.clear();
  for (const Severity s : findings) j.findings.push_back(as(s));
  for (const Severity s : agreed) j.agreed.push_back({as(s), 0});
  mark_known(j, judged->design.design, baseline, "design.json");
  Covered out;
  for (const Finding& f : j.findings) (f.known ? out.known : out.fresh).push_back(f.severity);
  out.stale = j.baseline->stale.size();
  out.graver = j.baseline->graver.size();
  return out;
}

}  // namespace

TEST_CASE("what is on the baseline is marked, and counts and verdicts stay") {
  const auto before = judge(unlisted);
  const auto after = beside(unlisted, unlisted);
  CHECK(fresh(*after).empty());
  CHECK(known(*after) == Strings{listing});
  CHECK(after->judgement.counts == before->judgement.counts);
  CHECK(after->judgement.verdict == Verdict::correct);
  CHECK(after->judgement.boxes[0].verdict == Verdict::correct);
  CHECK(after->judgement.baseline->name == "baseline.json");
  CHECK(after->judgement.baseline->reason == "existing");
  CHECK(to_text(after->judgement.baseline->date) == "2027-03-18");
  CHECK(after->judgement.baseline->stale.empty());
  CHECK(after->judgement.baseline->graver.empty());
}

TEST_CASE("another finding is news, a mended one is stale") {
  const auto more =
      beside(with_box({{"fuse", {{"pv_listed", false}}}, {"disconnect", {{"lockable", false}}}}), unlisted);
  CHECK(known(*more) == Strings{listing});
  CHECK(fresh(*more).size() == 1);
  CHECK(more->judgement.baseline->stale.empty());
  const auto mended = beside(sound_design(), unlisted);
  CHECK(mended->findings().empty());
  CHECK(names_of(mended->judgement.baseline->stale) == Strings{listing});
  CHECK(mended->judgement.baseline->graver.empty());
  CHECK(mended->judgement.verdict == Verdict::accept);
  // The same on another box is another finding.
  const auto elsewhere =
      beside(with_second_box(sound_design(), {{"fuse", {{"pv_listed", false}}}}), unlisted);
  CHECK(fresh(*elsewhere) == Strings{listing});
  CHECK(names_of(elsewhere->judgement.baseline->stale) == Strings{listing});
}

TEST_CASE("a hazard gets no entry, and none covers it") {
  const auto judged = judge(not_dc);
  REQUIRE(judged->summary() == Strings{"fuse/not-dc hazard fuse"});
  CHECK(entries_of(judged->judgement, "x").empty());
  const auto beside_it = beside(not_dc, not_dc);
  CHECK(fresh(*beside_it) == Strings{"fuse/not-dc hazard fuse"});
  CHECK(beside_it->judgement.verdict == Verdict::stop);
}

TEST_CASE("a correction that became a hazard counts") {
  Json one_pole = with_box({{"fuse", {{"poles", "one"}}}});
  one_pole["code"]["edition"] = "2014";
  one_pole["inverters"]["I"]["grounding"] = "ungrounded";
  Json both_poles = one_pole;
  both_poles["combiners"][0]["fuse"]["poles"] = "both";
  both_poles["inverters"]["I"]["grounding"] = "solid";
  const std::string poles = "fuse/poles correction fuse";
  REQUIRE(judge(one_pole)->find("fuse/poles") != nullptr);
  const auto worse = beside(both_poles, one_pole);
  const Finding* hazard = worse->find("fuse/poles");
  REQUIRE(hazard != nullptr);
  CHECK(hazard->severity == Severity::hazard);
  CHECK_FALSE(hazard->known);
  CHECK(names_of(worse->judgement.baseline->graver) == Strings{poles});
  CHECK(std::count(known(*worse).begin(), known(*worse).end(), poles) == 0);
}

TEST_CASE("a finding whose severity got worse counts, a milder one is covered") {
  const auto stating = [](double volts) {
    Json design = sound_design();
    for (Json& label : design["combiners"][0]["labels"])
      if (label.contains("values") && label["values"].contains("max_v")) {
        label["values"]["max_v"] = volts;
        break;
      }
    return design;
  };
  const Json too_much = stating(3000), too_little = stating(300);
  const auto advice = judge(too_much), correction = judge(too_little);
  REQUIRE(advice->findings().size() == 1);
  REQUIRE(correction->findings().size() == 1);
  REQUIRE(fingerprint(advice->findings()[0]) == fingerprint(correction->findings()[0]));
  REQUIRE(advice->findings()[0].severity == Severity::advice);
  REQUIRE(correction->findings()[0].severity == Severity::correction);
  const auto worse = beside(too_little, too_much);
  CHECK(fresh(*worse).size() == 1);
  CHECK(worse->judgement.baseline->graver.size() == 1);
  CHECK(worse->judgement.baseline->stale.empty());
  const auto milder = beside(too_much, too_little);
  CHECK(fresh(*milder).empty());
  CHECK(milder->judgement.baseline->graver.empty());
  CHECK(milder->judgement.baseline->stale.empty());
}

TEST_CASE("an entry covers one finding of its fingerprint") {
  using enum Severity;
  using List = std::vector<Severity>;
  const auto is = [](const Covered& c, const List& is_known, const List& is_fresh, std::size_t stale = 0,
                     std::size_t graver = 0) {
    CHECK(c.known == is_known);
    CHECK(c.fresh == is_fresh);
    CHECK(c.stale == stale);
    CHECK(c.graver == graver);
  };
  is(cover({correction, correction}, {correction, correction}), {correction, correction}, {});
  is(cover({correction}, {correction, correction}), {correction}, {correction});
  is(cover({correction, correction}, {correction}), {correction}, {}, 1);
  is(cover({correction, correction, query}, {}), {}, {}, 3);
  // Each under the entry that is nearest to it, whatever the order.
  is(cover({correction, advice}, {advice, correction}), {advice, correction}, {});
  is(cover({advice, correction}, {query, query}), {query}, {query}, 0, 1);
  is(cover({advice, query}, {advice, correction}), {advice}, {correction}, 0, 1);
  is(cover({query}, {correction, query}), {query}, {correction});
  is(cover({correction}, {hazard}), {}, {hazard}, 0, 1);
  is(cover({correction, correction}, {hazard}), {}, {hazard}, 1, 1);
  is(cover({correction}, {hazard, correction}), {correction}, {hazard});
  // What an agreed exception sets aside is still there.
  is(cover({correction}, {}, {correction}), {}, {});
  is(cover({correction, correction}, {}, {correction}), {}, {}, 1);
  is(cover({query}, {correction}, {query}), {}, {correction});
}

TEST_CASE("only entries of this design count, and of the boxes that were judged") {
  const auto judged = judge(unlisted);
  Baseline baseline = baseline_of(judged->judgement, "north/design.json");
  hold_beside(*judged, baseline, "design.json");
  CHECK(fresh(*judged) == Strings{listing});
  CHECK(judged->judgement.baseline->stale.empty());
  const auto there = judge(unlisted);
  hold_beside(*there, baseline, "north/design.json");
  CHECK(fresh(*there).empty());
  // Of two boxes only the other is looked at, and the site is not.
  Json two = with_second_box(unlisted, {{"fuse", {{"pv_listed", true}}}});
  two["site"].erase("temperature_source");
  const Baseline of_two = baseline_of(judge(two)->judgement);
  REQUIRE(of_two.entries.size() == 2);
  CheckOptions only;
  only.boxes = {"B-*"};
  const auto other = judge(two, {}, nullptr, only);
  hold_beside(*other, of_two);
  CHECK(other->judgement.baseline->stale.empty());
  const auto whole = judge(sound_design());
  hold_beside(*whole, of_two);
  CHECK(whole->judgement.baseline->stale.size() == 2);
}

TEST_CASE("what is agreed gets no entry") {
  const auto agreed = judge_agreed(unlisted, Json::array({an_exception("fuse/not-pv-listed")}));
  REQUIRE(agreed->findings().empty());
  CHECK(entries_of(agreed->judgement, "design.json").empty());
  // And is no news where it got one before.
  hold_beside(*agreed, baseline_of(judge(unlisted)->judgement));
  CHECK(agreed->judgement.baseline->stale.empty());
}

TEST_CASE("a baseline is written sorted, an entry a line") {
  Json two = with_second_box(unlisted, {{"fuse", {{"pv_listed", false}}}});
  two["site"].erase("temperature_source");
  Baseline b;
  b.date = *parse_date("2027-03-18");
  b.reason = "they stand \"as is\"";
  const auto judged = judge(two);
  for (const char* design : {"b.json", "a.json"})
    for (const BaselineEntry& e : entries_of(judged->judgement, design)) b.entries.push_back(e);
  std::string text;
  write_baseline(b, [&](std::string_view piece) { text += piece; });
  CHECK(text.starts_with(
      "{\n  \"format\": \"boxproof-baseline/1\",\n  \"date\": \"2027-03-18\",\n  \"reason\": "
      "\"they stand \\\"as is\\\"\",\n  \"findings\": [\n    {\"design\": \"a.json\", "));
  const Json json = Json::parse(text);
  std::vector<std::string> order;
  for (const Json& e : json["findings"])
    order.push_back(e["design"].get<std::string>() + " " +
                    (e["box"].is_null() ? "" : e["box"].get<std::string>()));
  CHECK(order == Strings{"a.json ", "a.json A-01", "a.json B-02", "b.json ", "b.json A-01", "b.json B-02"});
  CHECK(std::count(text.begin(), text.end(), '\n') == 5 + 6 + 2);
}
