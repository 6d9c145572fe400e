// Whatever the two reports hold: nothing is lost and nothing told twice; a report compared with itself has
// nothing new; exchanged reports exchange what is new and what is gone.
#include <algorithm>
#include <set>

#include "tests/support/as_planned.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// Every finding of both reports stands in exactly one place, and in no other outcome than it can.
void check_sums(const ComparedReports& c) {
  std::multiset<const ReportedFinding*> before, after, placed_before, placed_after;
  const auto all = [](const ReportFile& r, auto& out) {
    for (const ReportedFinding& f : r.findings) out.insert(&f);
    for (const ReportedFinding& f : r.agreed) out.insert(&f);
  };
  all(c.before, before);
  all(c.after, after);
  for (const Compared& one : c.comparison.findings) {
    if (one.before != nullptr) placed_before.insert(one.before);
    if (one.after != nullptr) placed_after.insert(one.after);
    if (one.before != nullptr && one.after != nullptr)
      CHECK(one.before->fingerprint == one.after->fingerprint);
    const bool gone = one.outcome == Outcome::corrected || one.outcome == Outcome::dropped ||
                      one.outcome == Outcome::unseen;
    CHECK((one.after == nullptr) == (gone || one.reason == Reason::agreed_unseen));
    CHECK((one.outcome == Outcome::appeared) == (one.before == nullptr && one.reason != Reason::agreed_new));
  }
  CHECK(placed_before == before);
  CHECK(placed_after == after);
}

std::size_t total(const Comparison::Counts& counts) {
  std::size_t n = 0;
  for (const std::size_t count : counts) n += count;
  return n;
}

// Rule, box and part of what has one of the outcomes, sorted.
std::vector<std::string> told(const ComparedReports& c, std::initializer_list<Outcome> outcomes) {
  std::vector<std::string> out;
  for (const Compared& one : c.comparison.findings)
    if (std::find(outcomes.begin(), outcomes.end(), one.outcome) != outcomes.end()) {
      const Finding& f = one.finding();
      out.push_back(std::string(f.rule->id) + "|" + f.box_id + "|" + f.part);
    }
  std::sort(out.begin(), out.end());
  return out;
}

// A later record that says no more than the earlier one: boxes, groups of keys, keys and readings left out.
Json part_of(const Json& boxes, RandomSite& site) {
  Json out = Json::array();
  for (const Json& box : boxes) {
    if (site.chance(15)) continue;
    Json less{{"id", box["id"]}};
    for (const auto& [group, value] : box.items()) {
      if (group == "id" || site.chance(35)) continue;
      less[group] = value;
      if (!value.is_object()) continue;
      for (const auto& [key, unused] : value.items())
        if (site.chance(40)) less[group].erase(key);
    }
    out.push_back(less);
  }
  return out;
}

// Rule, box, part and message of what is called corrected; says how many findings were not.
std::vector<std::string> corrected(const ComparedReports& c, std::size_t& others) {
  std::vector<std::string> out;
  for (const Compared& one : c.comparison.findings)
    // That a box is not on the plan is settled by a visit to all that are.
    if (one.outcome == Outcome::corrected && one.before->finding.rule->id != "tally/not-on-plan")
      out.push_back(std::string(one.before->finding.rule->id) + " | " + one.before->finding.box_id + " | " +
                    one.before->finding.part + " | " + one.before->finding.message);
    else
      ++others;
  return out;
}

}  // namespace

TEST_CASE("a later record that says a part of what the earlier one said, and nothing else, corrects nothing",
          "[slow][plain]") {
  std::size_t others = 0;
  const Json plan = example_json("saltmarsh.json"), visit = example_json("saltmarsh-visit.json")["boxes"];
  const Json first = visit_report(plan, visit);
  for (std::uint32_t seed = 1; seed <= 40; ++seed) {
    CAPTURE(seed);
    RandomSite site(seed);
    const auto compared = compare_reports(first, visit_report(plan, part_of(visit, site)));
    CHECK(corrected(*compared, others) == std::vector<std::string>{});
  }
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    CAPTURE(seed);
    RandomSite site(seed);
    const Json design = site.design();
    const Json found = site.visit(record_as_planned(*judge(design), Posted::computed))["boxes"];
    const Json before = visit_report(design, found);
    for (int n = 0; n < 3; ++n) {
      const auto compared = compare_reports(before, visit_report(design, part_of(found, site)));
      CHECK(corrected(*compared, others) == std::vector<std::string>{});
    }
  }
  CHECK(others > 1000);
}

TEST_CASE("comparisons of random plans and visits lose nothing and make nothing up") {
  std::size_t corrected = 0, unseen = 0, appeared = 0;
  for (std::uint32_t seed = 1; seed <= 6; ++seed) {
    CAPTURE(seed);
    RandomSite site(seed);
    const Json design = site.design();
    Json changed = design;  // the next revision: some boxes as others are
    Json& boxes = changed["combiners"];
    for (std::size_t i = 0; i < boxes.size(); ++i)
      if (site.chance(40)) {
        const Json id = boxes[i]["id"];
        boxes[i] = boxes[site.below(boxes.size())];
        boxes[i]["id"] = id;
      }
    const auto plan = judge(design), revised = judge(changed);
    const auto record = [&](const Judged& of) {
      return site.visit(record_as_planned(of, Posted::computed))["boxes"];
    };
    const std::vector<Json> reports{
        report_json(*plan), report_json(*revised), visit_report(design, record(*plan)),
        visit_report(changed, record(*revised)), visit_report(design, record(*plan))};
    for (const Json& before : reports)
      for (const Json& after : reports) {
        const auto c = compare_reports(before, after);
        check_sums(*c);
        if (&before == &after) {
          CHECK(c->comparison.nothing_changed);
          CHECK(c->comparison.changed.empty());
          CHECK(total(c->comparison.counts(Outcome::corrected)) == 0);
          CHECK(total(c->comparison.counts(Outcome::appeared)) == 0);
          CHECK(total(c->comparison.counts(Outcome::unseen)) == 0);
        }
        corrected += total(c->comparison.counts(Outcome::corrected));
        unseen += total(c->comparison.counts(Outcome::unseen));
        appeared += total(c->comparison.counts(Outcome::appeared));
      }
    // All boxes are in both, and nothing is agreed.
    const auto there = compare_reports(reports[0], reports[1]),
               back = compare_reports(reports[1], reports[0]);
    CHECK(told(*there, {Outcome::appeared}) == told(*back, {Outcome::corrected, Outcome::unseen}));
    CHECK(told(*there, {Outcome::corrected, Outcome::unseen}) == told(*back, {Outcome::appeared}));
    CHECK(told(*there, {Outcome::open}) == told(*back, {Outcome::open}));
  }
  CHECK(corrected > 100);
  CHECK(unseen > 100);
  CHECK(appeared > 100);
}
