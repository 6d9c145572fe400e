// What became of a finding: each outcome with its twin that stays out of it. The box is that of
// sound_design(): A-01, nine strings of 18, a 25 A fuse or what the tests put there.
#include "tests/support/catch.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const Json sound = sound_design();
const Json no_dc = with_box({{"fuse", {{"dc", false}}}});

// A visit that says something of the box.
Json visit(const Json& more) {
  Json box{{"id", "A-01"}};
  box.merge_patch(more);
  return Json::array({box});
}

Json seen(const Json& conditions) {
  return visit({{"seen", conditions}});
}

const Json water = Json::array({{{"what", "water-inside"}, {"where", "floor"}}});

}  // namespace

TEST_CASE("a fault that the plan does not have any more is corrected; one that it has is open") {
  const Json before = plan_report(no_dc);
  CHECK(compare_reports(before, plan_report(sound))->fate("fuse/not-dc") == "corrected");
  const auto same = compare_reports(before, before);
  CHECK(same->fate("fuse/not-dc") == "still-open");
  CHECK(same->comparison.nothing_changed);
  CHECK_FALSE(compare_reports(before, plan_report(sound))->comparison.nothing_changed);
}

TEST_CASE("a fault that only the later plan has is new") {
  const auto c = compare_reports(plan_report(sound), plan_report(no_dc));
  CHECK(c->fate("fuse/not-dc") == "new");
  CHECK(c->comparison.open_counts() == Comparison::Counts{1, 0, 0, 0});
  CHECK(c->comparison.counts(Outcome::corrected) == Comparison::Counts{});
}

TEST_CASE("a plan that keeps silent corrects nothing: the rule asks first") {
  // The value is taken out of the plan, so that the rule cannot judge there.
  const auto c = compare_reports(plan_report(no_dc), plan_report(with_box({{"fuse", {{"dc", nullptr}}}})));
  CHECK(c->fates("fuse/not-dc") ==
        std::vector<std::string>{"new other-part fuse", "not-looked-at-again asks-first fuse/dc"});
  CHECK(c->comparison.open_counts()[0] == 1);
  // The lowest temperature taken out silences every rule on voltages.
  const auto v = compare_reports(plan_report(with_circuit({{"series", 90}})), plan_report([] {
                                   Json d = with_circuit({{"series", 90}});
                                   d["site"].erase("low_c");
                                   return d;
                                 }()));
  CHECK(v->fate("voltage/site-limit").substr(0, 30) == "not-looked-at-again asks-first");
  CHECK(v->fate("voltage/inverter-input").substr(0, 30) == "not-looked-at-again asks-first");
}

TEST_CASE("what was found on the box needs a visit that looks at it again") {
  const Json before = visit_report(sound, visit({{"fuse", {{"dc", false}, {"a", 15}}}}));
  const auto fate = [&](const Json& after) { return compare_reports(before, after)->fate("fuse/not-dc"); };
  CHECK(fate(visit_report(sound, visit({{"fuse", {{"dc", true}, {"a", 15}}}}))) == "corrected");
  CHECK(fate(visit_report(sound, visit({{"fuse", {{"dc", false}}}}))) == "still-open");
  CHECK(fate(visit_report(sound, visit({{"fuse", {{"a", 15}}}}))) ==
        "not-looked-at-again not-stated fuse/dc");
  CHECK(fate(visit_report(sound, visit(Json::object()))) == "not-looked-at-again not-visited");
  CHECK(fate(visit_report(sound, Json::array())) == "not-looked-at-again not-visited");
  CHECK(fate(plan_report(sound)) == "not-looked-at-again plan-only");
}

TEST_CASE("a condition is gone when somebody says that nothing was seen") {
  const Json before = visit_report(sound, seen(water));
  const auto fate = [&](const Json& boxes) {
    return compare_reports(before, visit_report(sound, boxes))->fate("condition/water-inside");
  };
  CHECK(fate(visit({{"seen", Json::array()}, {"fuse", {{"a", 15}}}})) == "corrected");
  CHECK(fate(seen(Json::array({{{"what", "debris-inside"}}}))) == "corrected");
  CHECK(fate(visit({{"fuse", {{"a", 15}}}})) == "not-looked-at-again not-stated seen");
  CHECK(fate(seen(water)) == "still-open");
  // At another place: perhaps the same water.
  const auto moved = compare_reports(
      before, visit_report(sound, seen(Json::array({{{"what", "water-inside"}, {"where", "lid"}}}))));
  CHECK(moved->fates("condition/water-inside") ==
        std::vector<std::string>{"corrected now-part lid", "new other-part floor"});
}

TEST_CASE("measured again means the same string") {
  const auto measured = [](int position, double volts) {
    Json strings = Json::array();
    for (int i = 1; i <= 9; ++i)
      if (position == 0 || i != position || volts > 0)
        strings.push_back({{"position", i}, {"insulation_mohm", i == position ? volts : 50}});
    return visit({{"measured", {{"strings", strings}}}});
  };
  const Json before = visit_report(sound, measured(4, 0.01));
  const auto fate = [&](const Json& boxes) {
    return compare_reports(before, visit_report(sound, boxes))->fate("measured/insulation");
  };
  CHECK(fate(measured(0, 50)) == "corrected");
  CHECK(fate(measured(4, 0)) == "not-looked-at-again not-stated measured/4/insulation_mohm");
}

TEST_CASE("a fault of plan and box alike is not corrected by a new plan alone") {
  const Json looked = visit({{"fuse", {{"dc", false}}}}),
             elsewhere = visit({{"egc", {{"material", "copper"}}}});
  const Json before = visit_report(no_dc, looked);
  CHECK(compare_reports(before, plan_report(sound))->fate("fuse/not-dc") == "not-looked-at-again plan-only");
  CHECK(compare_reports(before, visit_report(sound, elsewhere))->fate("fuse/not-dc") ==
        "not-looked-at-again not-stated fuse/dc");
  CHECK(
      compare_reports(before, visit_report(sound, visit({{"fuse", {{"dc", true}}}})))->fate("fuse/not-dc") ==
      "corrected");
  // Nobody had looked at the fuse: it was the plan's matter alone.
  CHECK(compare_reports(visit_report(no_dc, elsewhere), plan_report(sound))->fate("fuse/not-dc") ==
        "corrected");
}

TEST_CASE("what is missing on plan and box alike is not there by a new plan alone") {
  const Json none = with_box({{"disconnect", nullptr}});
  const Json before = visit_report(none, visit({{"disconnect", {{"present", false}}}}));
  const auto after = [&](const Json& found) {
    return compare_reports(before, visit_report(sound, visit(found)))->fate("disconnect/missing");
  };
  CHECK(after({{"count", {{"fuses", 9}}}}) == "not-looked-at-again not-stated disconnect/present");
  CHECK(after({{"disconnect", {{"present", true}}}}) == "corrected");
}

TEST_CASE("corrected on the box, and the plan still has it") {
  const auto c = compare_reports(plan_report(no_dc), visit_report(no_dc, visit({{"fuse", {{"dc", true}}}})));
  CHECK(c->fate("fuse/not-dc") == "corrected as-found");
  const auto back =
      compare_reports(visit_report(no_dc, visit({{"fuse", {{"dc", true}}}})), plan_report(no_dc));
  CHECK(back->fate("fuse/not-dc") == "new was-gone");
}

TEST_CASE("boxes of a selection, off the plan, and new") {
  const Json two = with_second_box(sound, {{"fuse", {{"dc", false}}}});
  const Json before = plan_report(two);
  const auto dropped = compare_reports(before, plan_report(sound));
  CHECK(dropped->fate("fuse/not-dc") == "no-longer-on-plan");
  CHECK(dropped->comparison.dropped_boxes == std::vector<std::string_view>{"B-02"});
  CHECK(dropped->comparison.open_counts() == Comparison::Counts{});
  const auto chosen = compare_reports(before, plan_report(two, {{"A-*"}, false}));
  CHECK(chosen->fate("fuse/not-dc") == "not-looked-at-again not-shown");
  CHECK(chosen->comparison.dropped_boxes.empty());
  CHECK(chosen->remarks("shows only 1 box"));
  const auto added = compare_reports(plan_report(sound), before);
  CHECK(added->fate("fuse/not-dc") == "new new-box");
  CHECK(added->comparison.new_boxes == std::vector<std::string_view>{"B-02"});
  const auto was_chosen = compare_reports(plan_report(two, {{"A-*"}, false}), before);
  CHECK(was_chosen->fate("fuse/not-dc") == "new not-shown-before");
  CHECK(was_chosen->comparison.new_boxes.empty());
}

TEST_CASE("the site's own findings, and selections of all boxes") {
  Json permit = sound;
  permit["site"]["permit"] = {{"strings", 12}};
  const Json before = plan_report(permit);
  CHECK(compare_reports(before, plan_report(sound))->fate("site/totals") ==
        "not-looked-at-again no-longer-stated site/permit/strings");
  CHECK(compare_reports(before, plan_report(permit, {{"*"}, false}))->fate("site/totals") ==
        "not-looked-at-again not-shown");
}

TEST_CASE("the site as found hangs on the boxes behind it") {
  Json design = with_second_box(sound);
  design["site"]["permit"] = {{"strings", 18}};
  const auto counted = [](int a) {
    return Json::array({{{"id", "A-01"}, {"count", {{"positive", a}, {"negative", a}}}},
                        {{"id", "B-02"}, {"count", {{"positive", 9}, {"negative", 9}}}}});
  };
  const Json before = visit_report(design, counted(8));
  CHECK(compare_reports(before, visit_report(design, counted(9)))->fate("site/totals") == "corrected");
  Json one = counted(9);
  one.erase(0);
  CHECK(compare_reports(before, visit_report(design, one))->fate("site/totals") ==
        "not-looked-at-again behind-site A-01");
  CHECK(compare_reports(before, plan_report(design))->fate("site/totals") == "not-looked-at-again plan-only");
}

TEST_CASE("a box of the record that is not on the plan") {
  const Json two = with_second_box(sound);
  const Json entry{{"fuse", {{"a", 15}}}, {"seen", water}};
  Json stray = entry, plain_box{{"id", "A-01"}, {"fuse", {{"a", 15}}}, {"seen", Json::array()}};
  stray["id"] = "B-O2";
  const Json before = visit_report(two, Json::array({plain_box, stray}));
  const auto after = [&](const char* id, const Json& seen_there) {
    Json other = plain_box;
    other["id"] = id;
    other["seen"] = seen_there;
    return compare_reports(before, visit_report(two, Json::array({plain_box, other})));
  };
  CHECK(after("B-02", Json::array())->fate("tally/not-on-plan") == "corrected misread-id B-02");
  CHECK(after("B-02", Json::array())->fate("condition/water-inside", "B-O2") == "corrected misread-id B-02");
  CHECK(after("B-O2", water)->fate("tally/not-on-plan") == "still-open");
  const auto nowhere = compare_reports(before, visit_report(two, Json::array({plain_box})));
  CHECK(nowhere->fate("tally/not-on-plan") == "not-looked-at-again not-met");
  CHECK(nowhere->fate("condition/water-inside") == "not-looked-at-again not-met");
  CHECK(compare_reports(before, plan_report(two))->fate("tally/not-on-plan") ==
        "not-looked-at-again plan-only");
  // On the plan now: that matter is settled, what was seen there is not.
  Json three = two;
  three["combiners"].push_back(two["combiners"][0]);
  three["combiners"][2]["id"] = "B-O2";
  const auto now = compare_reports(before, visit_report(three, Json::array({plain_box})));
  CHECK(now->fate("tally/not-on-plan") == "corrected now-on-plan");
  CHECK(now->fate("condition/water-inside") == "not-looked-at-again not-visited");
}

TEST_CASE("nobody visited the box this time, and somebody had before") {
  const Json visited = visit_report(sound, visit({{"fuse", {{"a", 15}}}}));
  const Json not_visited = visit_report(sound, Json::array());
  CHECK(compare_reports(visited, not_visited)->fate("tally/not-visited") == "new visited-before");
  CHECK(compare_reports(plan_report(sound), not_visited)->fate("tally/not-visited") == "new");
  CHECK(compare_reports(not_visited, visited)->fate("tally/not-visited") == "corrected");
  CHECK(compare_reports(not_visited, not_visited)->fate("tally/not-visited") == "still-open");
  CHECK(
      compare_reports(plan_report(sound), visit_report(sound, seen(water)))->fate("condition/water-inside") ==
      "new first-visit");
}
