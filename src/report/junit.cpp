// JUnit XML, in the form that Jenkins reads and other hosts took over: a suite a design, a case a box, one
// for the site's own findings, one for each visited box that is not on the plan.
//
// A case fails exactly where it makes the run fail. One that does not, but was not visited or has an open
// query, is no pass either: it is skipped. There is no time in it: the same run gives the same bytes.
#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "boxproof/rule.hpp"
#include "boxproof/run_report.hpp"
#include "src/report/agreed.hpp"
#include "src/report/html_text.hpp"
#include "src/report/junit_cases.hpp"
#include "src/report/known.hpp"
#include "src/report/phrases.hpp"
#include "src/rules/notes.hpp"

namespace boxproof {
namespace report {
namespace {

// In XML as in HTML: plain() leaves nothing that XML 1.0 forbids.
std::string xml(std::string_view text) {
  return html(text);
}

struct Counts {
  std::size_t tests = 0, failures = 0, errors = 0, skipped = 0;
};

// "hazard: plan.json:183:54: The string of … [voltage/site-limit; 690.7]"
std::string said(const Finding& f, const ReportInput& r) {
  return fmt::format("{}: {}:{}:{}: {} [{}{}{}{}]", name_of(f.severity), f.place.file, f.place.line,
                     f.place.column, f.message, f.rule->id, account_words(f, r),
                     f.section.empty() ? "" : "; ", f.section);
}

std::string said(const AgreedFinding& a, const ReportInput& r) {
  const Exception& e = r.judgement.exceptions[a.exception].entry;
  return fmt::format("set aside, agreed by {} on {}, {}: {} Reason: {}", e.agreed_by, to_text(e.date),
                     e.expires ? "expires " + to_text(*e.expires) : std::string("without an end"),
                     said(a.finding, r), e.reason);
}

// A case's texts. All are escaped.
struct ToldBox {
  std::string failure, skipped, besides;
};

ToldBox tell(const JunitCase& c, Severity fail_on, const ReportInput& r) {
  ToldBox told;
  const Finding* worst = nullptr;
  std::size_t failing = 0, queries = 0;
  std::string text;
  for (const Finding* f : c.findings) {
    if (f->known || f->severity > fail_on) {
      queries += f->severity == Severity::query ? 1 : 0;
      told.besides += xml((f->known ? "on the baseline, " : "") + said(*f, r)) + "\n";
      continue;
    }
    if (worst == nullptr || f->severity < worst->severity) worst = f;
    ++failing;
    text += xml(said(*f, r)) + "\n  do: " + xml(to_do(*f)) + "\n";
  }
  for (const AgreedFinding* a : c.agreed) told.besides += xml(said(*a, r)) + "\n";
  if (worst != nullptr)
    told.failure = fmt::format("<failure message=\"{}{}\" type=\"{}\">{}</failure>", xml(worst->message),
                               failing > 1 ? fmt::format(" And {} more.", failing - 1) : "",
                               name_of(worst->severity), text);
  else if (c.unvisited)
    told.skipped = "not visited";
  else if (queries > 0)
    told.skipped =
        fmt::format("cannot be judged without more information: {}", counted(queries, "query", "queries"));
  return told;
}

std::string case_text(std::string_view name, std::string_view design, const ToldBox& told) {
  std::string inside = told.failure;
  if (!told.skipped.empty()) inside += "<skipped>" + told.skipped + "</skipped>";
  if (!told.besides.empty()) inside += "<system-out>" + told.besides + "</system-out>";
  // A dot would end the name of a package.
  const std::string_view package = design.ends_with(".json") ? design.substr(0, design.size() - 5) : design;
  return fmt::format("    <testcase name=\"{}\" classname=\"{}\" time=\"0\"{}\n", xml(name), xml(package),
                     inside.empty() ? "/>" : ">" + inside + "</testcase>");
}

using Properties = std::vector<std::pair<std::string_view, std::string>>;

std::string suite_text(std::string_view name, const Counts& n, const Properties& properties,
                       std::string_view cases, const std::vector<std::string>& remarks) {
  std::string out = fmt::format(
      "  <testsuite name=\"{}\" tests=\"{}\" failures=\"{}\" errors=\"{}\" skipped=\"{}\" time=\"0\">\n",
      xml(name), n.tests, n.failures, n.errors, n.skipped);
  out += fmt::format("    <properties>\n      <property name=\"boxproof\" value=\"{}\"/>\n", version());
  for (const auto& [key, value] : properties)
    out += fmt::format("      <property name=\"{}\" value=\"{}\"/>\n", key, xml(value));
  (out += "    </properties>\n") += cases;
  out += "    <system-out>";
  for (const std::string& remark : remarks) out += xml(remark) + "\n";
  return out + xml(caution()) + "</system-out>\n  </testsuite>\n";
}

std::string judged_suite(std::string_view design, const ReportInput& r, Severity fail_on, Counts& n) {
  const Judgement& j = r.judgement;
  std::string cases;
  for (const JunitCase& c : junit_cases(r)) {
    const ToldBox told = tell(c, fail_on, r);
    ++n.tests;
    n.failures += told.failure.empty() ? 0 : 1;
    n.skipped += told.skipped.empty() ? 0 : 1;
    cases += case_text(c.name, design, told);
  }
  std::vector<std::string> lines{"Boxes: " + verdicts_line(j), "Findings: " + counts_line(j)};
  if (j.exceptions_day) lines.push_back(exceptions_summary(j));
  for (std::string& remark : remarks(r)) lines.push_back(std::move(remark));
  if (j.baseline)
    for (const std::string& entry : entry_lines(j.baseline->stale))
      lines.push_back(fmt::format("{}: {}", stale_words, entry));
  return suite_text(design, n,
                    {{"site", r.design.design.site.name},
                     {"check", check_name(r)},
                     {"verdict", fmt::format("{}: {}", name_of(j.verdict), verdict_sentence(j.verdict))},
                     {"fail-on", std::string(name_of(fail_on))}},
                    cases, lines);
}

std::string unread_suite(std::string_view design, const InputError& e, Counts& n) {
  std::string lines;
  for (const Problem& p : e.problems()) lines += "problem: " + xml(to_text(p)) + "\n";
  if (e.total() > e.problems().size()) lines += fmt::format("and {} more\n", e.total() - e.problems().size());
  n = {1, 0, 1, 0};
  const std::string error = fmt::format("<error message=\"{}; nothing was judged\" type=\"input\">{}</error>",
                                        counted(e.total(), "problem", "problems"), lines);
  return suite_text(design, n, {}, case_text("design", design, {error, "", ""}), {});
}

}  // namespace
}  // namespace report

namespace {

using report::Counts;

class JunitReport : public RunReport {
 public:
  explicit JunitReport(Severity fail_on) : fail_on_(fail_on) {}

  RunPiece piece(const RunDesign& design) const override {
    Counts n;
    RunPiece out;
    out.text = design.judged != nullptr ? report::judged_suite(design.path, *design.judged, fail_on_, n)
                                        : report::unread_suite(design.path, *design.unread, n);
    out.numbers = {n.tests, n.failures, n.errors};
    return out;
  }

  void take(RunPiece piece, const Write&) override {  // the root's counts stand before the suites
    sum_.tests += piece.numbers[0];
    sum_.failures += piece.numbers[1];
    sum_.errors += piece.numbers[2];
    suites_.push_back(std::move(piece.text));
  }

  void finish(const RunTotals& totals, const Write& write) override {
    if (suites_.empty()) {  // a host would take a file without cases for a run that did not happen
      sum_ = {1, 0, 0, 1};
      report::ToldBox told;
      told.skipped = fmt::format("found no design: nothing was judged; {} passed over",
                                 counted(totals.skipped, "other JSON file was", "other JSON files were"));
      suites_.push_back(
          report::suite_text("boxproof", sum_, {}, report::case_text("designs", "boxproof", told), {}));
    }
    write("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    write(
        fmt::format("<testsuites name=\"boxproof\" tests=\"{}\" failures=\"{}\" errors=\"{}\" time=\"0\">\n",
                    sum_.tests, sum_.failures, sum_.errors));
    for (const std::string& suite : suites_) write(suite);
    write("</testsuites>\n");
  }

 private:
  Severity fail_on_;
  Counts sum_;
  std::vector<std::string> suites_;
};

}  // namespace

std::unique_ptr<RunReport> junit_report(Severity fail_on) {
  return std::make_unique<JunitReport>(fail_on);
}

}  // namespace boxproof
