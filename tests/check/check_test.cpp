// The judgement of a site: verdicts, the order of findings, counts, the selection of boxes.
#include <algorithm>
#include <map>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// The sound design with boxes A-01 and so on, each with its own patch.
Json boxes(const std::vector<Json>& patches) {
  Json design = sound_design();
  const Json sound = design["combiners"][0];
  design["combiners"] = Json::array();
  for (std::size_t i = 0; i < patches.size(); ++i) {
    Json box = sound;
    box["id"] = "A-0" + std::to_string(i + 1);
    box.merge_patch(patches[i]);
    design["combiners"].push_back(box);
  }
  return design;
}

const Json sound = Json::object();
const Json hazard = {{"fuse", {{"a", 30}}}};                    // above the module's 20 A
const Json correction = {{"disconnect", {{"distance_m", 4}}}};  // 3 m allowed
const Json query = Json::parse(R"({"enclosure": {"inputs": null}})");
const Json advice = {{"fuse", {{"a", 15.5}}}};  // no standard rating

std::vector<std::string> verdicts(const Judgement& j) {
  std::vector<std::string> out;
  for (const BoxResult& b : j.boxes) out.emplace_back(verdict_names[static_cast<std::size_t>(b.verdict)]);
  return out;
}

std::string verdict(const Judgement& j) {
  return std::string(verdict_names[static_cast<std::size_t>(j.verdict)]);
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("a verdict for each box and the worst of them for the site") {
  struct Case {
    std::vector<Json> boxes;
    Words verdicts;
    std::string site;
  };
  const std::vector<Case> cases{
      {{sound}, {"accept"}, "accept"},
      {{advice, sound}, {"accept", "accept"}, "accept"},
      {{sound, query}, {"accept", "clarify"}, "clarify"},
      {{query, correction}, {"clarify", "correct"}, "correct"},
      {{correction, sound, query}, {"correct", "accept", "clarify"}, "correct"},
      {{correction, sound, hazard}, {"correct", "accept", "stop"}, "stop"},
  };
  for (const Case& c : cases) {
    const auto judged = judge(boxes(c.boxes));
    CAPTURE(judged->summary());
    CHECK(verdicts(judged->judgement) == c.verdicts);
    CHECK(verdict(judged->judgement) == c.site);
  }
}

TEST_CASE("a box with several findings gets the verdict of the worst") {
  Json mixed = correction;
  mixed.merge_patch(query);
  CHECK(verdicts(judge(boxes({mixed}))->judgement) == Words{"correct"});
  mixed.merge_patch(hazard);
  CHECK(verdicts(judge(boxes({mixed}))->judgement) == Words{"stop"});
}

TEST_CASE("a finding of the site weighs on the site, not on its boxes") {
  Json design = boxes({sound});
  design["site"].erase("temperature_source");
  const auto judged = judge(design);
  REQUIRE(judged->find("site/temperature-source") != nullptr);
  CHECK(verdicts(judged->judgement) == Words{"accept"});
  CHECK(verdict(judged->judgement) == "clarify");
}

TEST_CASE("findings are ordered by box as in the file, then from worst to mildest, then by rule") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    const auto& findings = judged->findings();
    REQUIRE(findings.size() > 1);
    const auto box = [](const Finding& f) -> std::uint64_t {  // the site first, what is not on the plan last
      return f.box ? *f.box + 1 : f.box_id.empty() ? 0 : UINT64_MAX;
    };
    for (std::size_t i = 1; i < findings.size(); ++i) {
      const Finding& a = findings[i - 1];
      const Finding& b = findings[i];
      CAPTURE(std::string(example.name), a.box_id, std::string(a.rule->id), b.box_id,
              std::string(b.rule->id));
      const auto key = [&](const Finding& f) { return std::tuple(box(f), f.severity, f.rule->id); };
      CHECK(key(a) <= key(b));
    }
  }
}

TEST_CASE("the order is the file's, not that of the ids") {
  Json design = boxes({hazard, hazard});
  design["combiners"][0]["id"] = "Z-09";
  design["combiners"][1]["id"] = "A-01";
  const auto judged = judge(design);
  REQUIRE(judged->findings().size() >= 2);
  CHECK(judged->findings().front().box_id == "Z-09");
  CHECK(judged->findings().back().box_id == "A-01");
}

TEST_CASE("counts are those of the findings") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    std::array<std::size_t, severity_names.size()> counts{};
    for (const Finding& f : judged->findings()) ++counts[static_cast<std::size_t>(f.severity)];
    CHECK(judged->judgement.counts == counts);
  }
}

TEST_CASE("rule, box and part tell any two findings of one basis apart") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    std::map<std::string, int> seen;
    for (const Finding& f : judged->findings()) {
      CAPTURE(std::string(f.rule->id), f.box_id, f.part);
      CHECK(++seen[std::string(basis_names[static_cast<std::size_t>(f.basis)]) + fingerprint(f)] == 1);
    }
  }
}

TEST_CASE("patterns of box ids") {
  struct Case {
    std::string_view pattern, id;
    bool matches;
  };
  const std::vector<Case> cases{
      {"A-01", "A-01", true},   {"A-01", "A-010", false},   {"A-*", "A-01", true},
      {"A-*", "B-01", false},   {"*", "anything", true},    {"A-0?", "A-01", true},
      {"A-0?", "A-011", false}, {"A-0[1-3]", "A-03", true}, {"A-0[1-3]", "A-04", false},
      {"a-01", "A-01", false},  {"", "A-01", false},        {"A[1]", "A[1]", true},
      {"A[1]", "A1", true},     {"A[1]", "A[2]", false}};
  for (const Case& c : cases) {
    CAPTURE(std::string(c.pattern), std::string(c.id));
    CHECK(matches(c.pattern, c.id) == c.matches);
  }
}

TEST_CASE("only the chosen boxes, without the site's findings") {
  Json design = boxes({hazard, correction, query, sound});
  design["site"].erase("temperature_source");
  struct Case {
    Words patterns, ids;
    std::string site;
  };
  const std::vector<Case> cases{{{"A-02"}, {"A-02"}, "correct"},
                                {{"A-03", "A-01"}, {"A-01", "A-03"}, "stop"},  // in the order of the file
                                {{"A-0[34]"}, {"A-03", "A-04"}, "clarify"},
                                {{"A-04"}, {"A-04"}, "accept"},
                                {{"A-0*", "A-01"}, {"A-01", "A-02", "A-03", "A-04"}, "stop"},
                                {{"B-*"}, {}, "accept"}};
  const auto whole = judge(design);
  for (const Case& c : cases) {
    CAPTURE(c.patterns);
    const auto chosen = judge(design, {}, nullptr, {c.patterns, false});
    CHECK(chosen->judgement.selected);
    Words ids, expected, got;
    for (const BoxResult& b : chosen->judgement.boxes)
      ids.push_back(chosen->design.design.combiners[b.index].id);
    CHECK(ids == c.ids);
    CHECK(verdict(chosen->judgement) == c.site);
    for (const Finding& f : whole->findings())
      if (std::find(c.ids.begin(), c.ids.end(), f.box_id) != c.ids.end()) expected.push_back(f.message);
    for (const Finding& f : chosen->findings()) got.push_back(f.message);
    CHECK(got == expected);
    // Totals and what boxes share are still those of the whole site.
    CHECK(chosen->judgement.totals.combiners == 4);
  }
  CHECK_FALSE(whole->judgement.selected);
  CHECK(whole->find("site/temperature-source") != nullptr);
}
