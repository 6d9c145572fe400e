// JUnit XML: what is a suite, what is a case, which of them fail, and that the counts add up.
#include <map>
#include <set>

#include "src/cli/run_reports.hpp"
#include "tests/support/agreed.hpp"
#include "tests/support/baseline.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/hostile.hpp"
#include "tests/support/page.hpp"
#include "tests/support/whole_run.hpp"
#include "tests/support/xml.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Names = std::vector<std::string>;

bool has(const std::string& text, std::string_view what) {
  return text.find(what) != std::string::npos;
}

std::string junit(const std::vector<OfRun>& designs, Severity fail_on = Severity::correction,
                  std::size_t skipped = 0) {
  return told_run(*junit_report(fail_on), designs, skipped);
}

// The one suite of a run of one design.
XmlElement suite(const Judged& judged, Severity fail_on = Severity::correction) {
  const XmlElement root = read_xml(junit({{"plan.json", &judged}}, fail_on));
  REQUIRE(root.children.size() == 1);
  return root.children[0];
}

const XmlElement& case_of(const XmlElement& suite, std::string_view name) {
  for (const XmlElement& c : suite.children)
    if (c.name == "testcase" && c.at("name") == name) return c;
  FAIL("no case " << name);
  throw 0;
}

// "failure", "error", "skipped" or "passed"
std::string outcome(const XmlElement& c) {
  std::string out;
  for (const char* what : {"failure", "error", "skipped"})
    if (c.one(what) != nullptr) out += what;
  return out.empty() ? "passed" : out;
}

std::size_t number(const XmlElement& e, const std::string& attribute) {
  return std::stoul(e.at(attribute));
}

// Of the form that the Jenkins schema demands: what may stand in what, in which order, and right counts.
void check_form(const XmlElement& root) {
  CHECK(root.name == "testsuites");
  std::map<std::string, std::size_t> sum;
  for (const XmlElement& s : root.children) {
    REQUIRE(s.name == "testsuite");
    std::string order;
    std::map<std::string, std::size_t> seen;
    std::set<std::string> names;
    for (const XmlElement& child : s.children) {
      if (child.name != "testcase") {
        order += child.name + " ";
        continue;
      }
      if (!order.ends_with("testcases ")) order += "testcases ";
      CAPTURE(child.at("name"));
      CHECK(names.insert(child.at("name")).second);
      CHECK(child.at("time") == "0");
      CHECK_FALSE(child.at("classname").empty());
      ++seen[outcome(child)];
      std::string inside;
      for (const XmlElement& part : child.children) inside += part.name + " ";
      CHECK((inside.empty() || inside == "failure " || inside == "error " || inside == "skipped " ||
             inside == "system-out " || inside == "failure system-out " || inside == "skipped system-out "));
    }
    CHECK(order == "properties testcases system-out ");
    CHECK(number(s, "tests") == names.size());
    CHECK(number(s, "failures") == seen["failure"]);
    CHECK(number(s, "errors") == seen["error"]);
    CHECK(number(s, "skipped") == seen["skipped"]);
    CHECK(has(s.one("system-out")->text, std::string(caution())));
    for (const char* what : {"tests", "failures", "errors"}) sum[what] += number(s, what);
  }
  for (const char* what : {"tests", "failures", "errors"}) CHECK(number(root, what) == sum[what]);
}

}  // namespace

TEST_CASE("a suite a design, a case a box, one for the site, one for each box that is not on the plan") {
  const auto plan = judge_example("saltmarsh-faults.json"),
             visit = judge_example("saltmarsh.json", "saltmarsh-visit.json");
  const XmlElement root = read_xml(junit({{"a.json", plan.get()}, {"sub/b.json", visit.get()}}));
  check_form(root);
  REQUIRE(root.children.size() == 2);
  CHECK(root.children[0].at("name") == "a.json");
  CHECK(root.children[1].at("name") == "sub/b.json");
  Names names, expected{"site"}, strangers;
  for (const XmlElement* c : root.children[1].all("testcase")) {
    names.push_back(c->at("name"));
    CHECK(c->at("classname") == "sub/b");
  }
  for (const Combiner& box : visit->design.design.combiners) expected.push_back(box.id);
  std::set<std::string> ids;
  for (const Finding& f : visit->findings())
    if (!f.box && !f.box_id.empty()) ids.insert(f.box_id);
  REQUIRE_FALSE(ids.empty());
  for (const std::string& id : ids) expected.push_back(id + " (not on the plan)");
  CHECK(names == expected);
  std::map<std::string, std::string> properties;
  for (const XmlElement& p : root.children[1].one("properties")->children)
    properties[p.at("name")] = p.at("value");
  CHECK(properties == std::map<std::string, std::string>{{"boxproof", std::string(version())},
                                                         {"site", "Saltmarsh Packing Halls"},
                                                         {"check", "field check, NEC 2017"},
                                                         {"verdict", "stop: unsafe as it stands"},
                                                         {"fail-on", "correction"}});
  CHECK(has(case_of(root.children[1], "A-04").one("failure")->text, " (as built); 690.7]"));
  CHECK(has(root.children[0].one("system-out")->text, "Changed on the command line: a change of ours"));
}

TEST_CASE("a case fails exactly where it has a finding that makes the run fail") {
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    for (const Severity fail_on :
         {Severity::hazard, Severity::correction, Severity::query, Severity::advice}) {
      std::set<std::string> failing, expected;
      const XmlElement s = suite(*judged, fail_on);
      for (const XmlElement* c : s.all("testcase"))
        if (outcome(*c) == "failure") failing.insert(c->at("name"));
      for (const Finding& f : judged->findings())
        if (f.severity <= fail_on)
          expected.insert(f.box_id.empty() ? "site" : f.box ? f.box_id : f.box_id + " (not on the plan)");
      CAPTURE(std::string(example.name), static_cast<int>(fail_on));
      CHECK(failing == expected);
    }
  }
}

TEST_CASE("cases fail where the exit status is 1") {
  const Folder folder;
  Json design = sound_design();
  const std::string sound = folder.put("sound.json", design.dump());
  design["combiners"][0]["fuse"]["pv_listed"] = false;
  const std::string correction = folder.put("correction.json", design.dump());
  design["combiners"][0]["fuse"].erase("pv_listed");
  const std::string query = folder.put("query.json", design.dump());
  for (const std::string& path : {sound, correction, query})
    for (const std::string fail_on : {"hazard", "correction", "query", "advice"})
      for (const bool many : {false, true}) {
        std::vector<std::string> arguments{"check", path, "--format", "junit", "--fail-on", fail_on};
        if (many) arguments.push_back(sound);
        const Called c = call(arguments);
        const XmlElement root = read_xml(c.out);
        check_form(root);
        CAPTURE(path, fail_on, c.out);
        CHECK(root.children.size() == (many && path != sound ? 2 : 1));
        CHECK((c.status == 1) == (number(root, "failures") > 0));
        CHECK(c.status < 2);
      }
}

TEST_CASE("a failure says each finding with place, rule and section, and what to do") {
  const auto judged = judge(with_box({{"fuse", {{"a", 30}, {"dc", false}}}}));
  const XmlElement box = case_of(suite(*judged), "A-01");
  const XmlElement* failure = box.one("failure");
  REQUIRE(failure != nullptr);
  CHECK(failure->at("type") == "hazard");
  CHECK(has(failure->at("message"), judged->findings()[0].message));
  std::size_t failing = 0;
  for (const Finding& f : judged->findings()) {
    if (f.severity > Severity::correction) continue;
    ++failing;
    CHECK(has(failure->text, std::string(severity_names[static_cast<std::size_t>(f.severity)]) +
                                 ": design.json:" + std::to_string(f.place.line) + ":" +
                                 std::to_string(f.place.column) + ": " + f.message + " [" +
                                 std::string(f.rule->id) + "; " + f.section + "]\n  do: "));
  }
  CHECK(failing > 1);
  CHECK(failure->at("message").ends_with("And " + std::to_string(failing - 1) + " more."));
}

TEST_CASE("what does not fail stands in the output of its case") {
  Json design = with_box({{"fuse", {{"pv_listed", false}}}});
  design["site"].erase("temperature_source");
  const auto judged = judge(design);
  REQUIRE(judged->judgement.counts[1] > 0);
  SECTION("milder than --fail-on") {
    const XmlElement box = case_of(suite(*judged, Severity::hazard), "A-01");
    CHECK(outcome(box) == "passed");
    CHECK(has(box.one("system-out")->text, "correction: design.json:"));
  }
  SECTION("on the baseline") {
    for (Finding& f : judged->judgement.findings) f.known = true;
    const XmlElement s = suite(*judged, Severity::correction);
    const XmlElement box = case_of(s, "A-01");
    CHECK(outcome(box) == "passed");
    CHECK(has(box.one("system-out")->text, "on the baseline, correction: design.json:"));
    CHECK(number(s, "failures") == 0);
    CHECK(cli::fresh_counts(totals_of({{"", judged.get()}})) == decltype(RunTotals::counts){});
  }
  SECTION("some on the baseline") {
    const auto two = judge(with_box({{"fuse", {{"a", 30}, {"pv_listed", false}}}}));
    for (Finding& f : two->judgement.findings) f.known = f.rule->id == "fuse/not-pv-listed";
    const XmlElement box = case_of(suite(*two), "A-01");
    CHECK(outcome(box) == "failure");
    CHECK_FALSE(has(box.one("failure")->text, "fuse/not-pv-listed"));
    CHECK(has(box.one("system-out")->text, "fuse/not-pv-listed"));
  }
}

TEST_CASE("an entry of the baseline that no longer occurs is told in the output of the suite") {
  const Baseline baseline = baseline_of(judge(with_box({{"fuse", {{"pv_listed", false}}}}))->judgement);
  REQUIRE(baseline.entries.size() == 1);
  const std::string told =
      "No longer occurs: remove the entry, or write the baseline anew: correction fuse/not-pv-listed on A-01";
  const auto mended = judge(sound_design()), still = judge(with_box({{"fuse", {{"pv_listed", false}}}}));
  for (Judged* judged : {mended.get(), still.get()}) hold_beside(*judged, baseline);
  CHECK(has(suite(*mended).one("system-out")->text, told));
  CHECK_FALSE(has(suite(*still).one("system-out")->text, "No longer occurs"));
}

TEST_CASE("an agreed exception fails nothing, and is told") {
  const auto judged = judge_agreed(with_box({{"fuse", {{"pv_listed", false}}}}),
                                   Json::array({an_exception("fuse/not-pv-listed")}));
  REQUIRE(judged->judgement.agreed.size() == 1);
  const XmlElement s = suite(*judged);
  const XmlElement box = case_of(s, "A-01");
  CHECK(outcome(box) == "passed");
  CHECK(has(box.one("system-out")->text,
            "set aside, agreed by office on 2027-01-10, expires 2027-02-20: correction: "));
  CHECK(has(box.one("system-out")->text, "Reason: a screen stands there"));
  CHECK(has(s.one("system-out")->text, "Agreed exceptions: 1 finding set aside"));
}

TEST_CASE("a box that was not visited, or that has an open query, is no pass") {
  Json design = sound_design();
  for (const char* id : {"A-02", "A-03", "A-04"}) {
    design["combiners"].push_back(design["combiners"][0]);
    design["combiners"].back()["id"] = id;
    for (Json& label : design["combiners"].back()["labels"])
      if (label.contains("values") && label["values"].contains("id")) label["values"]["id"] = id;
  }
  design["combiners"][3]["fuse"]["dc"] = false;
  const Json record{{"format", "boxproof-asbuilt/1"},
                    {"visit", {{"date", "2027-03-18"}}},
                    {"boxes", {{{"id", "A-01"}, {"seen", Json::array()}}, {{"id", "A-02"}}}}};
  const auto judged = judge(design, {}, record);
  const XmlElement s = suite(*judged);
  check_form(read_xml(junit({{"plan.json", judged.get()}})));
  CHECK(outcome(case_of(s, "A-01")) == "passed");
  for (const char* id : {"A-02", "A-03"}) {
    CAPTURE(id);
    CHECK(outcome(case_of(s, id)) == "skipped");
    CHECK(case_of(s, id).one("skipped")->text == "not visited");
    CHECK(has(case_of(s, id).one("system-out")->text, "tally/not-visited"));
  }
  CHECK(outcome(case_of(s, "A-04")) == "failure");  // on the plan already
  CHECK(outcome(case_of(suite(*judged, Severity::query), "A-03")) == "failure");

  const auto open = judge(with_box({{"fuse", {{"a", 20}}}}));
  Json lacking = sound_design();
  lacking["combiners"][0]["fuse"].erase("pv_listed");
  const auto asked = judge(lacking);
  REQUIRE(asked->judgement.counts[2] == 1);
  CHECK(outcome(case_of(suite(*open), "A-01")) == "passed");
  CHECK(case_of(suite(*asked), "A-01").one("skipped")->text ==
        "cannot be judged without more information: 1 query");
  asked->judgement.findings[0].known = true;  // no news, but no answer either
  CHECK(outcome(case_of(suite(*asked), "A-01")) == "skipped");
}

TEST_CASE("chosen boxes have no case for the site, a box called site has its own") {
  const auto chosen = judge(sound_design(), {}, nullptr, {{"A-0*"}, false});
  CHECK(suite(*chosen).all("testcase").size() == 1);
  Json design = sound_design();
  design["combiners"][0]["id"] = "site";
  const auto judged = judge(design);
  const XmlElement s = suite(*judged);
  Names names;
  for (const XmlElement* c : s.all("testcase")) names.push_back(c->at("name"));
  CHECK(names == Names{"site (not the box of this id)", "site"});
}

TEST_CASE("a design that cannot be read is an error with each problem") {
  const InputError e = bad_design("b.json", with({{"site", {{"use", "boat"}, {"low_c", -300}}}}).dump(1));
  REQUIRE(e.problems().size() == 2);
  const auto judged = judge(sound_design());
  const XmlElement root = read_xml(junit({{"a.json", judged.get()}, {"b.json", nullptr, &e}}));
  check_form(root);
  CHECK(root.at("errors") == "1");
  const XmlElement broken = case_of(root.children[1], "design");
  CHECK(outcome(broken) == "error");
  CHECK(broken.one("error")->at("message") == "2 problems; nothing was judged");
  for (const Problem& p : e.problems())
    CHECK(has(broken.one("error")->text, "problem: " + to_text(p) + "\n"));

  const InputError many(e.problems(), 40);
  CHECK(has(junit({{"b.json", nullptr, &many}}), "\nand 38 more\n"));
}

TEST_CASE("an empty run proves that there was one") {
  const XmlElement root = read_xml(junit({}, Severity::correction, 3));
  check_form(root);
  REQUIRE(root.children.size() == 1);
  CHECK(root.at("tests") == "1");
  CHECK(case_of(root.children[0], "designs").one("skipped")->text ==
        "found no design: nothing was judged; 3 other JSON files were passed over");
  const auto sound = judge(sound_design());
  const XmlElement s = suite(*sound);
  CHECK(s.at("tests") == "2");
  CHECK(outcome(case_of(s, "A-01")) == "passed");
}

TEST_CASE("texts of files are words in XML, whatever is in them") {
  std::vector<std::string> texts{"\ufffe\uffff", "]]>", "<![CDATA[x]]>", "&lt;&#x0;", "a\"b'c<d>e&f"};
  for (const Hostile& hostile : hostile_texts()) texts.push_back(hostile.text);
  for (const std::string& text : texts) {
    Json design = hostile_design(with_box({{"fuse", {{"dc", false}}}}), text);
    const auto judged = judge(design);
    const InputError e = bad_design(text + ".json", with({{"site", {{"use", text}}}}).dump());
    const std::string xml = junit({{text, judged.get()}, {text + ".json", nullptr, &e}});
    CAPTURE(text.substr(0, 100));
    check_form(read_xml(xml));
    CHECK(harm_in(xml) == "");
  }
  const auto judged = judge(hostile_design(with_box({{"fuse", {{"dc", false}}}}), "a\"b'c<d>e&f"));
  CHECK(outcome(case_of(suite(*judged), "a\"b'c<d>e&fA-01")) == "failure");
}

TEST_CASE("a path that is no UTF-8 leaves XML behind all the same") {
  const auto judged = judge(sound_design());
  for (const std::string path : {"\xff.json", "a\xc3.json", "\xe2\x82.json", "\xc0\x80", "\xed\xa0\x80"}) {
    const XmlElement root = read_xml(junit({{path, judged.get()}}));
    CHECK(has(root.children[0].at("name"), "\\u{FFFD}"));
  }
}

TEST_CASE("junit of two designs, one of them broken") {
  const Folder folder;
  const std::string good = folder.put("good.json", with_box({{"fuse", {{"dc", false}}}}).dump());
  const std::string bad = folder.put("bad.json", "{\"format\": \"boxproof-design/1\", \"site\": 3}");
  const Called c = call({"check", good, bad, "--format", "junit"});
  CHECK(c.status == 3);
  const XmlElement root = read_xml(c.out);
  check_form(root);
  REQUIRE(root.children.size() == 2);
  CHECK(outcome(case_of(root.children[0], "A-01")) == "failure");
  CHECK(has(case_of(root.children[1], "design").one("error")->text, bad + ":1:"));
  CHECK(call({"check", good, bad, "--format", "junit"}).out == c.out);
  const Called alone = call({"check", bad, "--format", "junit"});
  CHECK(alone.status == 3);
  CHECK(number(read_xml(alone.out), "errors") == 1);
  const Called piped = call({"check", "-", "--format", "junit"}, {"[]", false, {}});
  CHECK(read_xml(piped.out).children.at(0).at("name") == "<stdin>");
}
