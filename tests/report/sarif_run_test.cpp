// A run in SARIF: many designs, those that could not be read, and the limit of the consumers.
#include <fmt/format.h>

#include "tests/support/catch.hpp"
#include "tests/support/sarif.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::unique_ptr<Judged> judged_as(const std::string& name, const Json& design) {
  auto out = judge(design);
  Judged& j = *out;
  j.document.name = name;
  j.design = read_design(j.document);
  j.judgement = check(j.design, j.edition, nullptr, {});
  return out;
}

InputError error_of(const std::string& name, const std::string& text) {
  const Document document{name, text};
  try {
    read_design(document);
  } catch (const InputError& e) {
    return e;
  }
  FAIL("a design that can be read");
  return {{}, 0};
}

// Results as pieces hold them, without all the rest.
RunPiece piece_of(std::size_t severity, std::size_t n, const std::string& name) {
  RunPiece out;
  for (std::size_t i = 0; i < n; ++i)
    out.findings[severity].push_back(fmt::format(R"({{"message": {{"text": "{} {}"}}}})", name, i));
  return out;
}

Json finished(RunReport& report, const RunTotals& totals) {
  std::string text;
  report.finish(totals, [&](std::string_view piece) { text += piece; });
  return Json::parse(text)["runs"][0];
}

const Write nowhere = [](std::string_view) { FAIL("written before all is known"); };

RunTotals some_designs() {
  RunTotals totals;
  totals.designs = 1;
  return totals;
}

}  // namespace

TEST_CASE("two sites with boxes of the same names do not hide each other's findings") {
  const Json design = with_box({{"fuse", {{"a", 30}}}});
  const auto one = judged_as("north/site.json", design), two = judged_as("south/site.json", design);
  SarifRun run;
  run.judged = {one.get(), two.get()};
  const Json log = Json::parse(run.text());
  check_log(log);  // no fingerprint twice
  const Json& results = log["runs"][0]["results"];
  REQUIRE(results.size() == 2);
  CHECK(results[0]["partialFingerprints"]["boxproof/v1"] == results[1]["partialFingerprints"]["boxproof/v1"]);
  CHECK(log["runs"][0]["artifacts"].size() == 2);
  CHECK(log["runs"][0]["properties"]["designs"] == 2);
}

TEST_CASE("the worst of all designs stands first") {
  const auto mild = judged_as("a.json", with_box({{"disconnect", {{"distance_m", 10}}}}));
  const auto grave = judged_as("b.json", with_box({{"fuse", {{"a", 30}}}}));
  SarifRun run;
  run.judged = {mild.get(), grave.get()};
  const Json log = Json::parse(run.text());
  const Json& results = log["runs"][0]["results"];
  REQUIRE(results.size() == 2);
  CHECK(results[0]["properties"]["severity"] == "hazard");
  CHECK(results[1]["properties"]["severity"] == "correction");
}

TEST_CASE("a design that cannot be read fails the invocation and says where") {
  Json bad = sound_design();
  bad["combiners"][0]["fuse"]["aa"] = 1;
  bad["site"]["use"] = "barn {0} [x](http://example.invalid)";
  const auto sound = judged_as("sound.json", sound_design());
  SarifRun run;
  run.judged = {sound.get()};
  run.unread.emplace_back("bad.json", error_of("bad.json", bad.dump(2)));
  const Json log = Json::parse(run.text());
  check_log(log);
  const Json& invocation = log["runs"][0]["invocations"][0];
  CHECK(invocation["executionSuccessful"] == false);
  const Json& told = invocation["toolExecutionNotifications"];
  REQUIRE(told.size() == 2);
  for (const Json& n : told) {
    CHECK(n["level"] == "error");
    CHECK(n["message"]["text"].get<std::string>().starts_with("bad.json was not judged: /"));
    const Json& place = n["locations"][0]["physicalLocation"];
    CHECK(place["artifactLocation"]["uri"] == "bad.json");
    CHECK(place["region"]["startLine"].get<int>() > 1);
    CHECK(place["region"]["startColumn"].get<int>() > 1);
    CHECK_FALSE(place["region"].contains("endLine"));
  }
  const std::string use =
      told[1]["message"]["text"].get<std::string>() + told[0]["message"]["text"].get<std::string>();
  CHECK(use.find("{{0}}") != std::string::npos);
  CHECK(use.find("\\[x\\](http") != std::string::npos);
  CHECK(log["runs"][0]["properties"]["unread"] == 1);
}

TEST_CASE("a file that cannot be opened has no line, and a long list of problems its end") {
  SarifRun run;
  run.unread.emplace_back("gone.json", InputError({{"gone.json", 0, 0, "", "cannot be opened"}}, 1));
  run.unread.emplace_back("long.json", InputError({{"long.json", 3, 4, "/a", "found 1"}}, 70));
  const Json log = Json::parse(run.text());
  const Json& told = log["runs"][0]["invocations"][0]["toolExecutionNotifications"];
  REQUIRE(told.size() == 3);
  CHECK(told[0]["message"]["text"] == "gone.json was not judged: cannot be opened");
  CHECK_FALSE(told[0]["locations"][0]["physicalLocation"].contains("region"));
  CHECK(told[2]["message"]["text"] == "long.json was not judged, for 69 problems more.");
  CHECK(log["runs"][0]["results"].empty());
  CHECK(log["runs"][0]["artifacts"].empty());
}

TEST_CASE("a run without a design is no success") {
  SarifRun run;
  run.skipped = 3;
  const Json log = Json::parse(run.text());
  const Json& invocation = log["runs"][0]["invocations"][0];
  CHECK(invocation["executionSuccessful"] == false);
  const Json& told = invocation["toolExecutionNotifications"];
  REQUIRE(told.size() == 2);
  CHECK(told[0]["message"]["text"] ==
        "3 JSON files in folders are no boxproof-design/1 and were passed over.");
  CHECK(told[0]["level"] == "note");
  CHECK(told[1]["level"] == "error");
}

TEST_CASE("as many results as a consumer takes are all there") {
  const auto report = sarif_report();
  report->take(piece_of(0, 1, "hazard"), nowhere);
  report->take(piece_of(3, 24'999, "advice"), nowhere);
  const Json run = finished(*report, some_designs());
  CHECK(run["results"].size() == 25'000);
  CHECK(run["invocations"][0]["toolExecutionNotifications"].empty());
  CHECK(run["properties"]["left_out"] ==
        Json({{"hazard", 0}, {"correction", 0}, {"query", 0}, {"advice", 0}}));
}

TEST_CASE("of more the worst are kept, whichever design they are of, and how many are not is said") {
  const auto report = sarif_report();
  report->take(piece_of(3, 20'000, "advice"), nowhere);
  report->take(piece_of(1, 3, "correction"), nowhere);
  report->take(piece_of(2, 6'000, "query"), nowhere);
  RunPiece aside;
  aside.set_aside[0] = piece_of(0, 2, "agreed").findings[0];
  report->take(aside, nowhere);
  report->take(piece_of(0, 4, "hazard"), nowhere);
  const Json run = finished(*report, some_designs());
  const Json& results = run["results"];
  REQUIRE(results.size() == 25'000);
  const auto text = [&](std::size_t i) { return results[i]["message"]["text"].get<std::string>(); };
  CHECK(text(0) == "hazard 0");
  CHECK(text(3) == "hazard 3");
  CHECK(text(4) == "correction 0");
  CHECK(text(7) == "query 0");
  CHECK(text(6'007) == "advice 0");
  CHECK(text(24'999) == "advice 18992");
  const Json& told = run["invocations"][0]["toolExecutionNotifications"];
  REQUIRE(told.size() == 1);
  CHECK(told[0]["level"] == "warning");
  CHECK(
      told[0]["message"]["text"] ==
      "Left out for the limit of 25000 results in one run, what is agreed or known first and then the mildest: 2 "
      "hazards, 1007 pieces of advice. The format json has them all.");
  CHECK(run["properties"]["left_out"] ==
        Json({{"hazard", 2}, {"correction", 0}, {"query", 0}, {"advice", 1007}}));
}

TEST_CASE("a site with more findings than that makes no more of them than there is room for") {
  auto judged = judge(with_box({{"fuse", {{"a", 30}}}, {"disconnect", {{"distance_m", 10}}}}));
  auto& findings = judged->judgement.findings;
  REQUIRE(findings.size() == 2);
  REQUIRE(findings[1].severity == Severity::correction);
  const Finding correction = findings[1];
  findings.insert(findings.begin(), 25'010, correction);  // the hazard stands behind them
  const ReportInput input{judged->design, nullptr, judged->edition, judged->judgement, {}};
  const auto report = sarif_report();
  RunPiece piece = report->piece({"design.json", &input, nullptr});
  CHECK(piece.findings[0].size() == 1);
  CHECK(piece.findings[1].size() == 24'999);
  CHECK(piece.left_out[1] == 12);
  for (std::string& result : piece.findings[1]) result = "{}";  // quick to take apart
  report->take(std::move(piece), nowhere);
  const Json run = finished(*report, some_designs());
  CHECK(run["results"].size() == 25'000);
  CHECK(run["results"][0]["properties"]["severity"] == "hazard");
  CHECK(run["properties"]["left_out"]["correction"] == 12);
}

TEST_CASE("of very many designs that cannot be read the first are told") {
  const auto report = sarif_report();
  const InputError error({{"x.json", 1, 1, "", "found nothing"}}, 1);
  for (int i = 0; i < 1'003; ++i) report->take(report->piece({"x.json", nullptr, &error}), nowhere);
  RunTotals totals;
  totals.unread = 1'003;
  const Json run = finished(*report, totals);
  const Json& told = run["invocations"][0]["toolExecutionNotifications"];
  REQUIRE(told.size() == 1'001);
  CHECK(told.back()["message"]["text"].get<std::string>().starts_with("3 more designs were not judged"));
}
