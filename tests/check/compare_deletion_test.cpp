// A revision of a plan that only states less corrects nothing: each key of the plan with planted faults is
// deleted in turn, as far as the file still reads.
#include <algorithm>

#include "boxproof/input_error.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

void keys_below(const Json& value, const Json::json_pointer& at, std::vector<Json::json_pointer>& out) {
  if (value.is_object())
    for (const auto& [key, child] : value.items()) {
      out.push_back(at / key);
      keys_below(child, at / key, out);
    }
  else if (value.is_array())
    for (std::size_t i = 0; i < value.size(); ++i) keys_below(value[i], at / i, out);
}

// What a deletion may correct, and why.
struct Allowed {
  std::string_view key, rule, because;
};
constexpr Allowed allowed[] = {
    {"/box_types/A16/disconnect", "voltage/equipment-rating", "no such switch: disconnect/missing is new"},
    {"/box_types/A16/fuse", "voltage/equipment-rating", "no such fuses: fuse/missing is new"},
    {"/box_types/A16/labels/", "label/values", "the label does not state the wrong value any more"},
    {"/box_types/B8/output/ocpd_a", "conductor/unprotected", "no device: the rule speaks of that now"},
    {"/box_types/B8/output/run/above_roof_mm", "conductor/", "known weakness: no heat above a roof is added"},
    {"/modules/MB-440/isc_rear_a", "fuse/too-small", "known weakness: then the front alone is taken"},
};

bool is_allowed(std::string_view key, std::string_view rule) {
  return std::any_of(std::begin(allowed), std::end(allowed),
                     [&](const Allowed& a) { return key.starts_with(a.key) && rule.starts_with(a.rule); });
}

// What is corrected by the deletion and may not be; nothing where the file does not read without the key.
std::vector<std::string> corrected_without(const Json& plan, const Json& before,
                                           const Json::json_pointer& key) {
  Json less = plan;
  less.at(key.parent_pointer()).erase(key.back());
  std::vector<std::string> out;
  try {
    const auto c = compare_reports(before, plan_report(less));
    for (const Compared& one : c->comparison.findings)
      if (const Finding& f = one.finding();
          one.outcome == Outcome::corrected && !is_allowed(key.to_string(), f.rule->id))
        out.push_back(key.to_string() + ": " + std::string(f.rule->id) + " " + f.box_id + " " + f.part);
  } catch (const InputError&) {
  }
  return out;
}

}  // namespace

// Keys of a box stand over those of its type: without one, the type's value stands, which is another plan.
TEST_CASE("a revision that only states less corrects nothing", "[slow][plain]") {
  const Json plan = example_json("saltmarsh-faults.json");
  const Json before = plan_report(plan);
  std::vector<Json::json_pointer> keys;
  for (const char* part : {"site", "modules", "inverters", "conductors", "box_types"})
    keys_below(plan[part], Json::json_pointer(std::string("/") + part), keys);
  REQUIRE(keys.size() > 300);
  for (const auto& key : keys) CHECK(corrected_without(plan, before, key) == std::vector<std::string>{});
}

TEST_CASE("a total or a temperature that the plan states no more corrects nothing") {
  const Json plan = example_json("saltmarsh-faults.json");
  const Json before = plan_report(plan);
  for (const char* key : {"/site/permit/strings", "/site/permit", "/site/low_c", "/box_types/A16/labels",
                          "/modules/M-450/vmp_coeff_pct_per_c"}) {
    CAPTURE(key);
    CHECK(corrected_without(plan, before, Json::json_pointer(key)) == std::vector<std::string>{});
  }
}

TEST_CASE("a list of series shorter than the strings of the box is no look at all of them") {
  const Json plan = example_json("saltmarsh.json");
  Json visit = example_json("saltmarsh-visit.json")["boxes"], again;
  for (const Json& box : visit)
    if (box["id"] == "A-04") again = box;
  const Json before = visit_report(plan, Json::array({again}));
  again["count"]["series"] = Json::array({18});
  const auto c = compare_reports(before, visit_report(plan, Json::array({again})));
  std::size_t hazards = 0;
  for (const Compared& one : c->comparison.findings)
    if (one.finding().severity == Severity::hazard) {
      ++hazards;
      CAPTURE(std::string(one.finding().rule->id));
      CHECK(one.outcome == Outcome::unseen);
    }
  CHECK(hazards > 0);
  CHECK(c->comparison.beyond_verdict()[0] + (c->after.verdict == Verdict::stop) > 0);
}
