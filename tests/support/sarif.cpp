#include "tests/support/sarif.hpp"

#include <set>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"

namespace boxproof::test {

RunTotals SarifRun::totals() const {
  RunTotals out;
  out.designs = judged.size();
  out.unread = unread.size();
  out.skipped = skipped;
  for (const Judged* j : judged) {
    for (std::size_t i = 0; i < out.counts.size(); ++i) out.counts[i] += j->judgement.counts[i];
    for (const Finding& f : j->findings())
      if (f.known) ++out.known[static_cast<std::size_t>(f.severity)];
  }
  return out;
}

std::string SarifRun::text() const {
  const auto report = sarif_report();
  std::string out;
  const Write write = [&](std::string_view piece) { out += piece; };
  for (const Judged* j : judged) {
    ReportInput input{j->design, j->record ? &*j->record : nullptr, j->edition, j->judgement, {}};
    input.show_work = show_work;
    report->take(report->piece({j->document.name, &input, nullptr}), write);
  }
  for (const auto& [path, error] : unread) report->take(report->piece({path, nullptr, &error}), write);
  report->finish(totals(), write);
  return out;
}

Json sarif_log(const Judged& judged, bool show_work) {
  SarifRun run;
  run.judged = {&judged};
  run.show_work = show_work;
  Json log = Json::parse(run.text());
  check_log(log);
  return log;
}

Json sarif_results(const Judged& judged, bool show_work) {
  return sarif_log(judged, show_work)["runs"][0]["results"];
}

std::vector<Json> results_of(const Json& results, std::string_view rule) {
  std::vector<Json> out;
  for (const Json& result : results)
    if (result["ruleId"] == rule) out.push_back(result);
  return out;
}

Json result_of(const Json& results, std::string_view rule) {
  const std::vector<Json> found = results_of(results, rule);
  CAPTURE(std::string(rule), results.size());
  REQUIRE(found.size() == 1);
  return found.front();
}

std::string path_of(const Json& location) {
  const std::string uri = location.at("uri");
  std::string out;
  for (std::size_t i = 0; i < uri.size(); ++i) {
    CAPTURE(uri);
    CHECK(static_cast<unsigned char>(uri[i]) > 0x20);
    CHECK(static_cast<unsigned char>(uri[i]) < 0x7F);
    if (uri[i] != '%') {
      out += uri[i];
      continue;
    }
    REQUIRE(i + 2 < uri.size());
    out += static_cast<char>(std::stoi(uri.substr(i + 1, 2), nullptr, 16));
    i += 2;
  }
  constexpr std::string_view scheme = "file://";
  return out.starts_with(scheme) ? out.substr(scheme.size()) : out;
}

void check_log(const Json& log) {
  CHECK(log["version"] == "2.1.0");
  REQUIRE(log["runs"].size() == 1);
  const Json& run = log["runs"][0];
  const Json& rules = run["tool"]["driver"]["rules"];
  CHECK(rules.size() == all_rules().size());
  CHECK(run["columnKind"] == "unicodeCodePoints");
  CHECK(run["results"].size() <= 25'000);
  std::set<std::string> prints;
  std::vector<std::string> wrong;  // collected, as a log can have very many results
  for (const Json& result : run["results"]) {
    const auto expect = [&](bool holds, const char* what) {
      if (!holds) wrong.push_back(std::string(what) + ": " + result.dump());
    };
    expect(rules[result["ruleIndex"].get<std::size_t>()]["id"] == result["ruleId"], "index of the rule");
    const std::string level = result["level"];
    expect(level == "error" || level == "warning" || level == "note", "level");
    expect(!result["message"]["text"].get<std::string>().empty(), "message");
    expect(result["locations"].size() == 1, "one location");
    const Json& place = result["locations"][0]["physicalLocation"];
    expect(!place["artifactLocation"]["uri"].get<std::string>().empty(), "file");
    const Json& region = place["region"];
    for (const char* key : {"startLine", "startColumn", "endLine", "endColumn"})
      expect(region[key].get<int>() >= 1, key);
    expect(region["startLine"] == region["endLine"], "one line, for a host that shows what is changed");
    expect(region["startColumn"] < region["endColumn"], "some bytes");
    const std::string print = result["partialFingerprints"]["primaryLocationLineHash"];
    expect(print.find_first_not_of("0123456789abcdef") == 16 && print[16] == ':' && print.size() > 17,
           "fingerprint");
    expect(prints.insert(print).second, "fingerprint of its own");
  }
  CHECK(wrong == std::vector<std::string>{});
}

}  // namespace boxproof::test
