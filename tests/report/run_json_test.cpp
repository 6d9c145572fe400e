// The reports of many designs for programs (boxproof-reports/1).
#include <nlohmann/json.hpp>

#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"
#include "tests/support/hostile.hpp"
#include "tests/support/whole_run.hpp"

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

void check_keys(const Ordered& r) {
  CHECK(keys_of(r) == Keys{"format", "tool", "reports", "unread", "totals", "caution"});
  CHECK(r["format"] == "boxproof-reports/1");
  CHECK(r["tool"] == Ordered{{"version", std::string(version())}});
  CHECK(r["caution"] == std::string(caution()));
  for (const Ordered& judged : r["reports"]) CHECK(keys_of(judged) == Keys{"file", "report"});
  for (const Ordered& unread : r["unread"]) {
    CHECK(keys_of(unread) == Keys{"file", "problems", "total"});
    for (const Ordered& p : unread["problems"])
      CHECK(keys_of(p) == Keys{"file", "line", "column", "pointer", "message"});
  }
  CHECK(keys_of(r["totals"]) == Keys{"designs", "unread", "skipped", "counts", "known", "agreed"});
  for (const char* of : {"counts", "known"})
    CHECK(keys_of(r["totals"][of]) == Keys{"hazard", "correction", "query", "advice"});
}

Ordered reports(const std::vector<OfRun>& designs, std::size_t skipped = 0) {
  Ordered out = Ordered::parse(told_run(*json_report(), designs, skipped));
  check_keys(out);
  return out;
}

}  // namespace

TEST_CASE("each report is that of its design alone, whatever stands beside it") {
  const std::vector<std::string> paths{BOXPROOF_EXAMPLES "/saltmarsh.json",
                                       BOXPROOF_EXAMPLES "/saltmarsh-faults.json",
                                       BOXPROOF_EXAMPLES "/ferry-shed.json"};
  for (const bool work : {false, true}) {
    std::vector<std::string> arguments{"check", "--format", "json"};
    if (work) arguments.push_back("--show-work");
    arguments.insert(arguments.end(), paths.begin(), paths.end());
    const Called c = call(arguments);
    CHECK(c.status == 1);
    const Ordered all = Ordered::parse(c.out);
    check_keys(all);
    CHECK(call(arguments).out == c.out);
    REQUIRE(all["reports"].size() == paths.size());
    Ordered sum{{"hazard", 0}, {"correction", 0}, {"query", 0}, {"advice", 0}};
    for (std::size_t i = 0; i < paths.size(); ++i) {
      std::vector<std::string> alone{"check", "--format", "json", paths[i]};
      if (work) alone.push_back("--show-work");
      CHECK(all["reports"][i]["file"] == paths[i]);
      CHECK(all["reports"][i]["report"] == Ordered::parse(call(alone).out));
      for (auto& [severity, n] : sum.items())
        n = n.get<int>() + all["reports"][i]["report"]["site"]["counts"][severity].get<int>();
    }
    CHECK(all["totals"]["counts"] == sum);
    CHECK(all["totals"]["designs"] == paths.size());
    CHECK(all["unread"] == Ordered::array());
  }
}

TEST_CASE("a report is written as it comes") {
  const auto one = judge(sound_design()), two = judge(with_box({{"fuse", {{"dc", false}}}}));
  const auto report = json_report();
  std::string out;
  const Write write = [&](std::string_view text) { out += text; };
  const auto take = [&](const Judged& judged) {
    const ReportInput input{judged.design, nullptr, judged.edition, judged.judgement, {}};
    report->take(report->piece({"x.json", &input, nullptr}), write);
  };
  take(*one);
  CHECK(out.find("boxproof-report/1") != std::string::npos);
  const std::size_t first = out.size();
  take(*two);
  CHECK(out.find("\"fuse/not-dc\"", first) != std::string::npos);
  report->finish(totals_of({{"", one.get()}, {"", two.get()}}), write);
  CHECK(Ordered::parse(out)["reports"].size() == 2);
}

TEST_CASE("what could not be judged has its problems, each with its place") {
  const InputError e = bad_design("b.json", with({{"site", {{"use", "boat"}, {"low_c", -300}}}}).dump(1));
  const InputError gone({{"c.json", 0, 0, "", "cannot be read"}}, 1), many(e.problems(), 40);
  const auto judged = judge(sound_design());
  const Ordered r = reports({{"b.json", nullptr, &e},
                             {"a.json", judged.get()},
                             {"c.json", nullptr, &gone},
                             {"d.json", nullptr, &many}},
                            5);
  REQUIRE(r["unread"].size() == 3);
  CHECK(r["unread"][0]["file"] == "b.json");
  CHECK(r["unread"][0]["total"] == 2);
  REQUIRE(r["unread"][0]["problems"].size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    const Problem& p = e.problems()[i];
    CHECK(r["unread"][0]["problems"][i] == Ordered{{"file", p.file},
                                                   {"line", p.line},
                                                   {"column", p.column},
                                                   {"pointer", p.pointer},
                                                   {"message", p.message}});
  }
  CHECK(r["unread"][1]["problems"][0] == Ordered{{"file", "c.json"},
                                                 {"line", nullptr},
                                                 {"column", nullptr},
                                                 {"pointer", ""},
                                                 {"message", "cannot be read"}});
  CHECK(r["unread"][2]["total"] == 40);
  CHECK(r["totals"]["unread"] == 3);
  CHECK(r["totals"]["skipped"] == 5);
  CHECK(r["totals"]["designs"] == 1);
  REQUIRE(r["reports"].size() == 1);
}

TEST_CASE("an empty run, and one without a design that can be judged") {
  CHECK(reports({})["reports"] == Ordered::array());
  const InputError gone({{"c.json", 0, 0, "", "cannot be read"}}, 1);
  const Ordered r = reports({{"c.json", nullptr, &gone}});
  CHECK(r["reports"] == Ordered::array());
  CHECK(r["unread"].size() == 1);
}

TEST_CASE("findings on the baseline are marked and counted, agreed ones counted") {
  const auto judged = judge_agreed(
      with_box({{"fuse", {{"a", 30}, {"pv_listed", false}}}, {"disconnect", {{"distance_m", 9}}}}),
      Json::array({an_exception("fuse/not-pv-listed")}));
  REQUIRE(judged->findings().size() == 2);
  const Severity severity = judged->findings()[1].severity;
  judged->judgement.findings[1].known = true;
  const Ordered r = reports({{"a.json", judged.get()}});
  const Ordered& findings = r["reports"][0]["report"]["findings"];
  CHECK_FALSE(findings[0].contains("known"));
  CHECK(findings[1]["known"] == true);
  const std::string name(severity_names[static_cast<std::size_t>(severity)]);
  CHECK(r["totals"]["known"][name] == 1);
  CHECK(r["totals"]["counts"][name].get<int>() >= 1);  // it counts all the same
  CHECK(r["totals"]["agreed"] == 1);
}

TEST_CASE("a finding has the place of the other account where there is one") {
  const auto judged = judge(with_box({{"fuse", {{"dc", false}}}}));
  CHECK_FALSE(Ordered::parse(json_report(*judged))["findings"][0].contains("other_account"));
  judged->judgement.findings[0].other_account = {"record.json", "/boxes/3/fuse", 24, 31, 24, 40};
  const Ordered f = Ordered::parse(json_report(*judged))["findings"][0];
  CHECK(f["other_account"] ==
        Ordered{{"file", "record.json"}, {"pointer", "/boxes/3/fuse"}, {"line", 24}, {"column", 31}});
}

// What compare and tally read.
TEST_CASE("a report is read back with the keys that came later") {
  const auto judged = judge(with_box({{"fuse", {{"dc", false}}}}));
  judged->judgement.findings[0].known = true;
  judged->judgement.findings[0].other_account = {"record.json", "/boxes/3/fuse", 24, 31, 24, 40};
  const Json later = report_json(*judged);
  Json earlier = later;
  for (Json& f : earlier["findings"])
    for (const char* key : {"known", "other_account", "end_line", "end_column"}) f.erase(key);
  CHECK(compare_reports(later, earlier)->fate("fuse/not-dc") == "still-open");
  CHECK(compare_reports(earlier, later)->fate("fuse/not-dc") == "still-open");
}

TEST_CASE("the reports of several designs are not the report of one") {
  const Folder folder;
  const auto judged = judge(sound_design());
  const std::string many = folder.put("many.json", told_run(*json_report(), {{"a.json", judged.get()}}));
  const Called c = call({"compare", many, many});
  CHECK(c.status == 3);
  CHECK(c.complains("these are the reports of several designs"));
}

TEST_CASE("texts and paths stand in it as JSON, whatever is in them") {
  for (const Hostile& hostile : hostile_texts()) {
    const auto judged = judge(hostile_design(with_box({{"fuse", {{"dc", false}}}}), hostile.text));
    const InputError e = bad_design(hostile.text, with({{"site", {{"use", hostile.text}}}}).dump());
    const std::string out =
        told_run(*json_report(), {{hostile.text, judged.get()}, {hostile.text, nullptr, &e}});
    CAPTURE(std::string(hostile.what));
    CHECK(harm_in(out) == "");
    REQUIRE(Ordered::accept(out));
    CHECK(Ordered::parse(out)["reports"][0]["file"] == hostile.text);
    CHECK(Ordered::parse(out)["unread"][0]["file"] == hostile.text);
  }
  const auto judged = judge(sound_design());
  CHECK(reports({{"a\xff\xc3.json", judged.get()}})["reports"][0]["file"] == "a\ufffd\ufffd.json");
}

TEST_CASE("json of two designs, one of them broken") {
  const Folder folder;
  const std::string good = folder.put("good.json", sound_design().dump());
  const std::string bad = folder.put("bad.json", "{\"format\": \"boxproof-design/1\", \"site\": 3}");
  const Called c = call({"check", good, bad, "--format", "json"});
  CHECK(c.status == 3);
  const Ordered r = Ordered::parse(c.out);
  check_keys(r);
  CHECK(r["reports"][0]["file"] == good);
  CHECK(r["unread"][0]["file"] == bad);
  CHECK(r["unread"][0]["problems"][0]["file"] == bad);
}
