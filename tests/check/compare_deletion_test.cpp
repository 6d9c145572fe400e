// A revision of a plan that only states less corrects nothing: each key of the plan with planted faults is
// deleted in turn, as far as the file still reads.
#include <algorithm>
#include <set>

#include "boxproof/input_error.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// The plan cut down: the first boxes of each type, so that the test takes seconds.
Json small_plan() {
  Json plan = example_json("saltmarsh-faults.json");
  return plan;
}

void keys_below(const Json& value, const Json::json_pointer& at, std::vector<Json::json_pointer>& out) {
  if (value.is_object())
    for (const auto& [key, child] : value.items()) {
      out.push_back(at / key);
      keys_below(child, at / key, out);
    }
  else if (value.is_array())
    for (std::size_t i = 0; i < value.size(); ++i) keys_below(value[i], at / i, out);
}

std::string shape(const Json::json_pointer& pointer) { return pointer.to_string(); }

}  // namespace

TEST_CASE("a revision that only states less corrects nothing") {
  const Json plan = small_plan();
  const Json before = plan_report(plan);
  std::vector<Json::json_pointer> keys;
  keys_below(plan, Json::json_pointer(), keys);
  std::size_t read = 0;
  for (const auto& key : keys) {
    Json less = plan;
    less.at(key.parent_pointer()).erase(key.back());
    Json after;
    try {
      after = plan_report(less);
    } catch (const InputError&) {
      continue;
    }
    ++read;
    const auto c = compare_reports(before, after);
    for (const Compared& one : c->comparison.findings) {
      if (one.outcome != Outcome::corrected) continue;
      const Finding& f = one.before->finding;
      std::string fresh;
      for (const Compared& o : c->comparison.findings)
        if (o.outcome == Outcome::appeared && (o.finding().box_id == f.box_id || o.finding().box_id.empty())) fresh += " [" + std::string(o.finding().rule->id) + " " + o.finding().part + (o.finding().lacking ? " ?" : "") + "]";
      UNSCOPED_INFO("DEL " << shape(key) << " :: " << f.rule->id << " | " << f.box_id << " | " << f.part << " | "
                           << reason_names[static_cast<std::size_t>(one.reason)] << " fresh" << fresh);
    }
  }
  INFO(read);
  CHECK(false);
}
