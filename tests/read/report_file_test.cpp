// Reports read back: what is there, what is wrong with them, what may be there besides.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::vector<std::string> problems(const std::string& text) {
  const Document document{"report.json", text};
  try {
    read_report(document);
  } catch (const InputError& e) {
    std::vector<std::string> out;
    for (const Problem& p : e.problems()) out.push_back(to_text(p));
    return out;
  }
  return {};
}
std::vector<std::string> problems(const Json& report) {
  return problems(report.dump());
}

// The one problem, without what stands before it.
std::string problem(const Json& report) {
  const auto all = problems(report);
  CAPTURE(all);
  REQUIRE(all.size() == 1);
  return all[0];
}
bool has(const std::string& text, std::string_view what) {
  return text.find(what) != std::string::npos;
}

Json visit() {
  return report_json(*judge_example("saltmarsh.json", "saltmarsh-visit.json"));
}

}  // namespace

TEST_CASE("what the report says is what was judged") {
  const auto judged = judge_example("saltmarsh.json", "saltmarsh-visit.json");
  const Document document{"report.json", json_report(*judged)};
  const ReportFile r = read_report(document);
  const Judgement& j = judged->judgement;
  CHECK(r.name == "report.json");
  CHECK(r.edition == "2017");
  CHECK(r.basis == Basis::as_built);
  CHECK(r.visit_date == "2027-03-18");
  CHECK(r.low == -9);
  CHECK(r.verdict == j.verdict);
  CHECK_FALSE(r.selected);
  REQUIRE(r.boxes.size() == j.boxes.size());
  for (std::size_t i = 0; i < r.boxes.size(); ++i) {
    CHECK(r.boxes[i].verdict == j.boxes[i].verdict);
    CHECK(r.boxes[i].disposition == j.boxes[i].disposition);
    CHECK(r.boxes[i].visited() == j.boxes[i].visited.has_value());
  }
  REQUIRE(r.findings.size() == j.findings.size());
  CHECK(r.gone.size() == j.gone.size());
  for (std::size_t i = 0; i < r.findings.size(); ++i) {
    const Finding &a = r.findings[i].finding, &b = j.findings[i];
    CHECK(a.rule == b.rule);
    CHECK(a.severity == b.severity);
    CHECK(a.basis == b.basis);
    CHECK(a.box_id == b.box_id);
    CHECK(a.part == b.part);
    CHECK(a.message == b.message);
    CHECK(a.found == b.found);
    CHECK(a.required == b.required);
    CHECK(a.unit == b.unit);
    CHECK(a.section == b.section);
    CHECK(a.disposition == b.disposition);
    CHECK(a.lacking == b.lacking);
    CHECK(a.also == b.also);
    CHECK(a.place.pointer == b.place.pointer);
    CHECK(a.place.line == b.place.line);
    CHECK(fmt::format("{:016x}", r.findings[i].fingerprint) == fingerprint(b));
  }
}

TEST_CASE("what was looked at, key by key") {
  const Json design = sound_design();
  const auto keys = [&](const Json& box) {
    return visit_report(design, Json::array({box}))["boxes"][0]["looked_at"].get<std::vector<std::string>>();
  };
  using Keys = std::vector<std::string>;
  CHECK(keys({{"id", "A-01"}}).empty());
  CHECK(keys({{"id", "A-01"},
              {"seen", Json::array()},
              {"mixed_fuses", Json::array()},
              {"labels", Json::array()}}) == Keys{"mixed_fuses", "labels", "seen"});
  CHECK(keys({{"id", "A-01"},
              {"count", {{"series", {18, 18}}, {"positive", 9}}},
              {"output", {{"material", "copper"}}}}) ==
        Keys{"count/positive", "count/series/1", "count/series/2", "output/material"});
  CHECK(keys({{"id", "A-01"},
              {"measured",
               {{"cell_c", 40}, {"strings", {{{"position", 7}, {"voc_v", 500}}, {{"isc_a", 9}}}}}}}) ==
        Keys{"measured/cell_c", "measured/7/voc_v", "measured/2/isc_a"});
}

TEST_CASE("a file of another kind gets one message that says what it is") {
  CHECK(has(
      problem(example_json("saltmarsh.json")),
      "/format: found \"boxproof-design/1\", expected \"boxproof-report/1\"; this is a design: make one with "
      "boxproof check --format json"));
  CHECK(has(problem(example_json("saltmarsh-visit.json")), "this is a field record: make a report with"));
  Json later = visit();
  later["format"] = "boxproof-report/2";
  later.erase("boxes");
  CHECK(has(problem(later), "another version of the program made it"));
  later["format"] = "boxproof-labels/1";
  CHECK(has(problem(later), "expected \"boxproof-report/1\"; make one with"));
  later.erase("format");
  CHECK(has(problem(later), "found no \"format\""));
  CHECK(problems(text_report(*judge_example("saltmarsh.json")))[0].starts_with(
      "report.json:1:1: found text \"boxproof "));
  CHECK(problems(std::string())[0].starts_with(
      "report.json:1:1: found an empty file, expected a report in JSON"));
  CHECK(has(problems(std::string("{\"format\": \"boxproof-report/1\", "))[0],
            "the file ends in the middle of a value"));
}

TEST_CASE("keys of a later program are passed over") {
  Json more = visit();
  more["weather"] = "fine";
  more["site"]["owner"] = nullptr;
  more["boxes"][3]["colour"] = 7;
  more["findings"][0]["photo"] = "p-1";
  CHECK(problems(more).empty());
  CHECK(compare_reports(visit(), more)->comparison.nothing_changed);
}

TEST_CASE("a rule that this program does not have is kept, and named") {
  Json strange = visit();
  Json finding = strange["findings"][0];
  finding["rule"] = "later/rule-9";
  finding["fingerprint"] = "00000000000000ff";
  strange["findings"].push_back(finding);
  CHECK(problems(strange).empty());
  CHECK(compare_reports(strange, strange)->fate("later/rule-9") == "still-open");
  CHECK(compare_reports(visit(), strange)->fate("later/rule-9") != "none");
  CHECK(compare_reports(strange, visit())->fate("later/rule-9") == "not-looked-at-again no-rule");
  strange["findings"].back()["rule"] = "no rule";
  CHECK(has(problem(strange), "expected the id of a rule"));
}

TEST_CASE("each required key, each with its place") {
  const Json sound = visit();
  const auto without = [&](const char* pointer, const char* key) {
    Json r = sound;
    r[Json::json_pointer(pointer)].erase(key);
    const auto all = problems(r);
    CAPTURE(pointer, key, all);
    REQUIRE(!all.empty());
    CHECK(has(all[0], std::string("found no \"") + key + "\""));
    CHECK(all[0].starts_with("report.json:1:"));
    if (*pointer != '\0') CHECK(has(all[0], std::string(": ") + pointer + ": "));
  };
  for (const char* key : {"tool", "code", "basis", "site", "boxes", "findings", "visit"}) without("", key);
  for (const char* key : {"edition", "amendments", "overrides"}) without("/code", key);
  for (const char* key : {"name", "verdict", "low_c", "high_c"}) without("/site", key);
  for (const char* key : {"id", "verdict", "disposition", "looked_at", "calc"}) without("/boxes/2", key);
  for (const ValueName& value : box_values) without("/boxes/2/calc", value.key.data());
  for (const ValueName& value : circuit_values) without("/boxes/2/calc/circuits/1", value.key.data());
  for (const ValueName& value : output_values) without("/boxes/2/calc/output", value.key.data());
  for (const char* key : {"rule", "severity", "basis", "box", "part", "message", "found", "required", "unit",
                          "section", "disposition", "file", "pointer", "line", "column", "fingerprint"}) {
    without("/findings/5", key);
    without("/gone/0", key);
  }
}

TEST_CASE("wrong values, each with its place") {
  const struct {
    const char* pointer;
    Json value;
    const char* said;
  } table[] = {
      {"/code/edition", "2019", "/code/edition: found text \"2019\", expected one of \"2008\""},
      {"/basis", 7, "/basis: found 7, expected text in quotes"},
      {"/site/verdict", "fine", "/site/verdict: found text \"fine\", expected one of"},
      {"/site/low_c", "cold", "/site/low_c: found text \"cold\", expected a number"},
      {"/boxes", nullptr, "/boxes: found null, expected a list"},
      {"/boxes/4", 1, "/boxes/4: found 1, expected an object"},
      {"/boxes/4/id", "A-01", "/boxes/4/id: found the id \"A-01\" a second time (first at /boxes/0)"},
      {"/boxes/4/verdict", "ok", "/boxes/4/verdict: found text \"ok\", expected one of"},
      {"/boxes/4/looked_at", "all", "/boxes/4/looked_at: found text \"all\", expected a list"},
      {"/boxes/4/calc/max_v", true, "/boxes/4/calc/max_v: found true, expected a number"},
      {"/findings/2/severity", "grave", "/findings/2/severity: found text \"grave\", expected one of"},
      {"/findings/2/found", true, "/findings/2/found: found true, expected a number, text in quotes or null"},
      {"/findings/2/line", -1, "/findings/2/line: found -1, expected a whole number"},
      {"/findings/2/fingerprint", "12",
       "/findings/2/fingerprint: found text \"12\", expected 16 hexadecimal"},
      {"/findings/2/fingerprint", "00112233445566zz", "expected 16 hexadecimal digits"},
  };
  for (const auto& row : table) {
    Json r = visit();
    r[Json::json_pointer(row.pointer)] = row.value;
    const auto all = problems(r);
    CAPTURE(row.pointer, all);
    REQUIRE(!all.empty());
    CHECK(has(all[0], row.said));
  }
}

TEST_CASE("an agreed finding belongs to an entry") {
  Json r = visit();
  r["agreed"] = Json::array({r["findings"][0]});
  r["exceptions"] = Json::array();
  CHECK(has(problem(r), "/agreed: found an agreed finding whose \"exception\" is no entry"));
  r["agreed"][0]["exception"] = 0;
  r["exceptions"] = {{{"reason", "a parapet"}, {"agreed_by", "permit office"}, {"expires", nullptr}}};
  CHECK(problems(r).empty());
}

TEST_CASE("the order of the top's members does not matter") {
  const Json sound = visit();  // nlohmann's Json sorts them; here they are written the other way round
  std::string text = "}";
  for (const auto& [key, value] : sound.items())
    text = "\"" + key + "\": " + value.dump() + (text == "}" ? "" : ",\n") + text;
  const Document turned{"report.json", "{" + text};
  const ReportFile a = read_report(turned);
  CHECK(a.findings.size() == sound["findings"].size());
  CHECK(a.boxes.size() == sound["boxes"].size());
}
