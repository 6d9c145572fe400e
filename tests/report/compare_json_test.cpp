// The comparison for programs: the same as was compared, in a fixed order, one finding a line.
#include <algorithm>

#include "src/report/compare.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Ordered = nlohmann::ordered_json;
using Keys = std::vector<std::string>;

std::string json_of(const ComparedReports& c) {
  std::string out;
  report::write_comparison_json(c.comparison, [&](std::string_view piece) { out += piece; });
  return out;
}
Keys keys_of(const Ordered& object) {
  Keys out;
  for (const auto& [key, value] : object.items()) out.push_back(key);
  return out;
}

const std::unique_ptr<ComparedReports>& visits() {
  static const auto c =
      compare_reports(report_json(*judge_example("saltmarsh.json", "saltmarsh-visit.json")),
                      report_json(*judge_example("saltmarsh.json", "saltmarsh-second-visit.json")));
  return c;
}

}  // namespace

TEST_CASE("keys of a comparison, in that order") {
  const Ordered r = Ordered::parse(json_of(*visits()));
  CHECK(keys_of(r) == Keys{"format", "tool", "before", "after", "remarks", "nothing_changed", "open",
                           "beyond_verdict", "counts", "findings", "new_boxes", "dropped_boxes",
                           "changed_boxes", "caution"});
  CHECK(r["format"] == "boxproof-comparison/1");
  CHECK(keys_of(r["before"]) == Keys{"file", "tool", "basis", "edition", "visited", "site", "verdict"});
  CHECK(keys_of(r["counts"]) == Keys{"new", "still-open", "open-again", "not-looked-at-again", "agreed",
                                     "corrected", "no-longer-on-plan"});
  for (const Ordered& f : r["findings"])
    CHECK(keys_of(f) == Keys{"outcome", "reason", "detail", "why", "change", "rule", "box", "part",
                             "fingerprint", "before", "after"});
  for (const Ordered& box : r["changed_boxes"])
    CHECK(keys_of(box) == Keys{"box", "verdict_before", "verdict_after", "asked_for", "changes"});
}

TEST_CASE("each finding of the two reports stands in it, as the reports have it") {
  const Ordered r = Ordered::parse(json_of(*visits()));
  const std::vector<Compared>& all = visits()->comparison.findings;
  REQUIRE(r["findings"].size() == all.size());
  std::size_t before = 0, after = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Ordered& f = r["findings"][i];
    CHECK(f["outcome"] == std::string(outcome_names[static_cast<std::size_t>(all[i].outcome)]));
    CHECK(f["before"].is_null() == (all[i].before == nullptr));
    CHECK(f["after"].is_null() == (all[i].after == nullptr));
    if (all[i].after != nullptr) CHECK(f["after"]["message"] == all[i].after->finding.message);
    if (all[i].before != nullptr) CHECK(f["before"]["message"] == all[i].before->finding.message);
    before += !f["before"].is_null();
    after += !f["after"].is_null();
  }
  CHECK(before == 55);
  CHECK(after == 20);
  std::size_t counted = 0;
  for (const auto& [outcome, counts] : r["counts"].items())
    for (const auto& [severity, count] : counts.items()) counted += count.get<std::size_t>();
  CHECK(counted == all.size());
  CHECK(r["open"] == Ordered{{"hazard", 1}, {"correction", 6}, {"query", 1}, {"advice", 14}});
}

TEST_CASE("the same bytes each time, one finding and one changed box a line") {
  const std::string text = json_of(*visits());
  CHECK(text == json_of(*visits()));
  const auto lines = lines_of(text);
  const auto count = [&](std::string_view lead) {
    return static_cast<std::size_t>(
        std::count_if(lines.begin(), lines.end(), [&](const auto& line) { return line.starts_with(lead); }));
  };
  CHECK(count("    {\"outcome\": ") == visits()->comparison.findings.size());
  CHECK(count("    {\"box\": ") == visits()->comparison.changed.size());
}

TEST_CASE("an empty comparison is JSON, and so is one with control characters in it") {
  const Json sound = plan_report(sound_design());
  const Ordered empty = Ordered::parse(json_of(*compare_reports(sound, sound)));
  CHECK(empty["findings"].empty());
  CHECK(empty["nothing_changed"] == true);
  Json other = sound;
  other["site"]["name"] = "a\x1b\"\\\n";
  const std::string text = json_of(*compare_reports(sound, other));
  CHECK(Ordered::parse(text)["after"]["site"] == "a\x1b\"\\\n");
  CHECK(control_characters(text) == 0);
}
