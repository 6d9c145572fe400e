// The report for programs (boxproof-report/1): its keys and their order, what is null, that nothing is
// rounded.
#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Ordered = nlohmann::ordered_json;
using Keys = std::vector<std::string>;

Keys keys_of(const Ordered& object) {
  Keys out;
  for (const auto& [key, value] : object.items()) out.push_back(key);
  return out;
}

// The keys and their order are those of the rules page of the specification; what a comparison of two reports
// needs besides stands behind them.
const Keys top{"format", "tool", "code", "basis", "site", "boxes", "findings", "caution"};
const Keys site{"name", "verdict", "totals", "counts", "low_c", "high_c", "permit"};
const Keys totals{"combiners", "strings", "modules", "dc_kw"};
const Keys counts{"hazard", "correction", "query", "advice"};
const Keys calc{"max_v",   "cold_factor", "out_max_a", "out_continuous_a", "strings",
                "modules", "circuits",    "output",    "disconnect_min_a"};
const Keys circuit{"id",
                   "max_v",
                   "max_a",
                   "fuse_needed",
                   "back_a",
                   "fuse_min_a",
                   "fuse_suggested_a",
                   "ampacity_a",
                   "terminal_ampacity_a",
                   "correction",
                   "adjustment",
                   "drop_pct"};
const Keys output{"ampacity_a", "terminal_ampacity_a", "correction", "adjustment",
                  "drop_pct",   "suggested_size"};
const Keys finding{"rule",    "severity", "basis",  "box",      "part",        "message",
                   "found",   "required", "unit",   "section",  "disposition", "file",
                   "pointer", "line",     "column", "end_line", "end_column",  "fingerprint"};
const Keys step{"symbol", "formula", "numbers", "value", "unit", "section"};

std::string disposition_name(const std::optional<Disposition>& disposition) {
  return disposition ? std::string(disposition_names[static_cast<std::size_t>(*disposition)]) : "";
}

Ordered report_of(const Judged& judged, bool show_work = false) {
  return Ordered::parse(json_report(judged, show_work));
}

void check_keys(const Ordered& r, bool show_work) {
  Keys top_here = top;
  if (r["basis"] == "as-built") {
    top_here.insert(top_here.end() - 1, "gone");
    top_here.insert(top_here.begin() + 4, "visit");
    CHECK(keys_of(r["visit"]) == Keys{"date", "kind"});
  }
  CHECK(keys_of(r) == top_here);
  CHECK(keys_of(r["tool"]) == Keys{"version", "data"});
  CHECK(keys_of(r["code"]) == Keys{"edition", "amended", "amendments", "overrides"});
  CHECK(keys_of(r["site"]) == site);
  CHECK(keys_of(r["site"]["totals"]) == totals);
  CHECK(keys_of(r["site"]["counts"]) == counts);
  for (const Ordered& box : r["boxes"]) {
    CHECK(keys_of(box) == (r["basis"] == "design"
                               ? Keys{"id", "verdict", "calc"}
                               : Keys{"id", "verdict", "disposition", "looked_at", "calc"}));
    CHECK(keys_of(box["calc"]) == calc);
    CHECK_FALSE(box["calc"]["circuits"].empty());
    for (const Ordered& c : box["calc"]["circuits"]) CHECK(keys_of(c) == circuit);
    CHECK(keys_of(box["calc"]["output"]) == output);
  }
  Keys expected = finding;
  if (show_work) expected.push_back("working");
  for (const Ordered& f : r["findings"]) {
    Keys here = expected;
    const auto behind = std::find(here.begin(), here.end(), "fingerprint") + 1;
    if (f.contains("cannot_judge")) here.insert(behind, "cannot_judge");  // of a query for a value
    if (f.contains("other_account")) here.insert(here.end() - (show_work ? 1 : 0), "other_account");
    CHECK(keys_of(f) == here);
    if (show_work)
      for (const Ordered& s : f["working"]) CHECK(keys_of(s) == step);
  }
}

}  // namespace

TEST_CASE("keys exactly as specified, in that order, in all examples") {
  for (const Example& example : examples) {
    CAPTURE(std::string(example.name));
    check_keys(report_of(*judge_example(example)), false);
    check_keys(report_of(*judge_example(example, {{}, true}), true), true);
  }
}

TEST_CASE("the head of a report") {
  const auto r = report_of(*judge_example("saltmarsh-faults.json"));
  CHECK(r["format"] == "boxproof-report/1");
  CHECK(r["tool"]["version"] == std::string(version()));
  CHECK(r["tool"]["data"] == data_revision());
  CHECK(r["code"]["edition"] == "2017");
  CHECK(r["code"]["amended"] == Ordered::array());
  CHECK(r["basis"] == "design");
  CHECK(r["site"]["name"] == "Saltmarsh Packing Halls, with planted faults");
  CHECK(r["site"]["verdict"] == "stop");
  CHECK(r["site"]["totals"]["combiners"] == 50);
  CHECK(r["caution"] == std::string(caution()));
  CHECK(report_of(*judge_example("saltmarsh.json", "saltmarsh-visit.json"))["basis"] == "as-built");
}

TEST_CASE("boxes and findings are those of the judgement, counts add up") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    const auto r = report_of(*judged);
    REQUIRE(r["boxes"].size() == 50);
    for (std::size_t i = 0; i < 50; ++i) {
      CHECK(r["boxes"][i]["id"] == judged->design.design.combiners[i].id);
      CHECK(r["boxes"][i]["verdict"] ==
            std::string(verdict_names[static_cast<std::size_t>(judged->judgement.boxes[i].verdict)]));
    }
    REQUIRE(r["findings"].size() == judged->findings().size());
    std::map<std::string, int> by_severity;
    for (const Ordered& f : r["findings"]) ++by_severity[f["severity"]];
    for (const std::string& severity : counts) CHECK(r["site"]["counts"][severity] == by_severity[severity]);
    const std::set<std::string> severities(counts.begin(), counts.end());
    for (const Ordered& f : r["findings"]) CHECK(severities.contains(f["severity"]));
  }
}

TEST_CASE("a value that could not be computed is null, and a query says why") {
  struct Case {
    Json design;
    std::string_view pointer, rule;  // below the first box's calc
  };
  Json no_coefficient = sound_design();
  no_coefficient["modules"]["M"].erase("voc_coeff_pct_per_c");
  no_coefficient["modules"]["M"].erase("cell");
  Json no_low = sound_design();
  no_low["site"].erase("low_c");
  Json no_length = sound_design();
  no_length["combiners"][0]["circuits"][0]["run"].erase("length_m");
  Json no_run = sound_design();
  no_run["combiners"][0]["circuits"][0].erase("run");
  Json no_output = sound_design();
  no_output["combiners"][0].erase("output");
  Json no_limit = sound_design();
  no_limit["combiners"][0].erase("fuse");
  no_limit["combiners"][0]["circuits"][0]["strings"] = 3;  // few enough for the conductor
  no_limit["modules"]["M"].erase("max_fuse_a");
  const std::vector<Case> cases{
      {no_coefficient, "/max_v", "voltage/no-factor"},
      {no_coefficient, "/cold_factor", "voltage/no-factor"},
      {no_coefficient, "/circuits/0/max_v", "voltage/no-factor"},
      {no_low, "/max_v", "voltage/no-factor"},
      {no_length, "/circuits/0/drop_pct", "conductor/voltage-drop"},
      {no_run, "/circuits/0/ampacity_a", "conductor/after-conditions"},
      {no_run, "/circuits/0/terminal_ampacity_a", "conductor/after-conditions"},
      {no_run, "/circuits/0/correction", "conductor/after-conditions"},
      {no_run, "/circuits/0/adjustment", "conductor/after-conditions"},
      {no_output, "/output/ampacity_a", "conductor/after-conditions"},
      {no_output, "/output/suggested_size", "conductor/after-conditions"},
      {no_limit, "/circuits/0/fuse_needed", "fuse/missing"},
  };
  for (const Case& c : cases) {
    const auto judged = judge(c.design);
    const auto r = report_of(*judged);
    CAPTURE(std::string(c.pointer), judged->summary());
    CHECK(r["boxes"][0]["calc"].at(Ordered::json_pointer(std::string(c.pointer))).is_null());
    const auto query = std::find_if(r["findings"].begin(), r["findings"].end(), [&](const Ordered& f) {
      return f["rule"] == std::string(c.rule) && f["severity"] == "query";
    });
    CHECK(query != r["findings"].end());
    CHECK_FALSE(report_of(*judge(sound_design()))["boxes"][0]["calc"]
                    .at(Ordered::json_pointer(std::string(c.pointer)))
                    .is_null());
  }
}

TEST_CASE("numbers are not rounded: read back they are the computed doubles") {
  const auto judged = judge_example("saltmarsh.json");
  const auto r = report_of(*judged);
  BoxFacts f;
  FoundBox own;
  for (std::size_t i = 0; i < 50; ++i) {
    facts_of(judged->design, judged->edition, nullptr, judged->judgement.boxes[i], own, f);
    const Ordered& c = r["boxes"][i]["calc"];
    CHECK(c["max_v"].get<double>() == f.max_voltage->value());
    CHECK(c["cold_factor"].get<double>() == f.cold_factor);
    CHECK(c["out_max_a"].get<double>() == f.output_max.value());
    CHECK(c["out_continuous_a"].get<double>() == f.output_continuous.value());
    CHECK(c["disconnect_min_a"].get<double>() == f.disconnect_least.value());
    CHECK(c["output"]["ampacity_a"].get<double>() == f.output_run.in_use->value());
    for (std::size_t g = 0; g < f.circuits.size(); ++g) {
      CHECK(c["circuits"][g]["fuse_min_a"].get<double>() == f.circuits[g].fuse_least.value());
      CHECK(c["circuits"][g]["back_a"].get<double>() == f.circuits[g].back.value());
    }
  }
  // By hand: 18 · 49.3 V · (1 + 0.0027 · 34) is 968.86332 V, and not 968.9.
  CHECK(std::abs(r["boxes"][0]["calc"]["max_v"].get<double>() - 968.86332) < 1e-9);
}

TEST_CASE("a finding says in JSON what the rule said") {
  const auto as_json = [](const Amount& a) {
    if (const double* n = std::get_if<double>(&a)) return Ordered(*n);
    if (const std::string* text = std::get_if<std::string>(&a)) return Ordered(*text);
    return Ordered();
  };
  const auto or_null = [](const std::string& text) { return text.empty() ? Ordered() : Ordered(text); };
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    const auto r = report_of(*judged);
    for (std::size_t i = 0; i < judged->findings().size(); ++i) {
      const Finding& f = judged->findings()[i];
      const Ordered& said = r["findings"][i];
      CAPTURE(f.message);
      CHECK(said["rule"] == std::string(f.rule->id));
      CHECK(said["severity"] == std::string(severity_names[static_cast<std::size_t>(f.severity)]));
      CHECK(said["basis"] == std::string(basis_names[static_cast<std::size_t>(f.basis)]));
      CHECK(said["box"] == or_null(f.box_id));
      CHECK(said["part"] == or_null(f.part));
      CHECK(said["message"] == f.message);
      CHECK(said["found"] == as_json(f.found));
      CHECK(said["required"] == as_json(f.required));
      CHECK(said["unit"] == or_null(f.unit));
      CHECK(said["section"] == or_null(f.section));
      CHECK(said["disposition"] == or_null(disposition_name(f.disposition)));
    }
  }
}

TEST_CASE("no findings is an empty list, no box chosen an empty list of boxes") {
  const auto r = report_of(*judge(sound_design()));
  CHECK(r["findings"] == Ordered::array());
  CHECK(r["boxes"].size() == 1);
  check_keys(r, false);
  const auto none = report_of(*judge(sound_design(), {}, nullptr, {{"no-such-box"}, false}));
  CHECK(none["boxes"] == Ordered::array());
  CHECK(none["findings"] == Ordered::array());
}

TEST_CASE("local amendments are named by their keys") {
  const Json limit = {{"voltage", {{"limits", {{"building", {{"max_v", 590}}}}}}}};
  const auto r = report_of(*judge(with({{"code", {{"edition", "2017"}, {"amendments", limit}}}})));
  CHECK(r["code"]["amended"] == Ordered::array({"voltage.limits.building.max_v"}));
  REQUIRE(r["findings"].size() == 1);  // 596.7 V
  CHECK(r["findings"][0]["rule"] == "voltage/site-limit");
  CHECK(r["findings"][0]["required"] == 590);
}

TEST_CASE("the same input gives the same bytes") {
  for (const Example& example : examples)
    CHECK(json_report(*judge_example(example, {{}, true}), true) ==
          json_report(*judge_example(example, {{}, true}), true));
}
