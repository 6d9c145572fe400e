// boxproof compare: reports made with check --format json, held against each other; exit statuses.
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/compared.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"

using namespace boxproof::test;

namespace {

const std::string plan = BOXPROOF_EXAMPLES "/saltmarsh.json";
const std::string faults = BOXPROOF_EXAMPLES "/saltmarsh-faults.json";

std::string record(const char* name) {
  return std::string(BOXPROOF_EXAMPLES "/saltmarsh-") + name + ".json";
}

// Reports in a folder that is there for one test.
struct Reports {
  Folder folder;
  std::string make(const std::string& name, std::vector<std::string> arguments) const {
    const std::string path = folder.path(name);
    arguments.insert(arguments.begin(), "check");
    for (const char* more : {"--format", "json", "--output"}) arguments.emplace_back(more);
    arguments.push_back(path);
    const Called made = call(arguments);
    CAPTURE(made.err);
    REQUIRE(made.status <= 1);
    return path;
  }
  std::string visit(const char* name) const { return make(name, {plan, "--asbuilt", record(name)}); }
};

// A report with one finding of the severity, still open.
std::string one_finding(const Reports& reports, const char* severity) {
  Json r = plan_report(with_box({{"fuse", {{"dc", nullptr}}}}));
  r["findings"][0]["severity"] = severity;
  return reports.folder.put(std::string(severity) + ".json", r.dump());
}

}  // namespace

TEST_CASE("the walk of a job: first visit, second visit, approved") {
  const Reports reports;
  const std::string first = reports.visit("visit"), second = reports.visit("second-visit"),
                    last = reports.visit("final-visit");
  const Called again = call({"compare", first, second});
  CHECK(again.status == 1);
  CHECK(again.err.empty());
  CHECK(again.says("NEW (1 hazard)"));
  CHECK(call({"compare", second, last}).status == 0);
  CHECK(call({"compare", first, last}).status == 0);
  CHECK(call({"compare", first, first}).says("Nothing changed"));
}

TEST_CASE("exit status for each --fail-on and severity") {
  const Reports reports;
  const char* severities[] = {"hazard", "correction", "query", "advice"};
  for (int of = 0; of < 4; ++of) {
    const std::string path = one_finding(reports, severities[of]);
    for (int on = 0; on < 4; ++on) {
      CAPTURE(of, on);
      CHECK(call({"compare", path, path, "--fail-on", severities[on]}).status == (of <= on ? 1 : 0));
    }
    CHECK(call({"compare", path, path}).status == (of <= 1 ? 1 : 0));  // correction
  }
}

TEST_CASE("exit status of each outcome: open and new fail, corrected does not") {
  const Reports reports;
  const std::string sound = reports.folder.put("sound.json", plan_report(sound_design()).dump());
  const std::string faulty =
      reports.folder.put("faulty.json", plan_report(with_box({{"fuse", {{"dc", false}}}})).dump());
  const std::string silent =
      reports.folder.put("silent.json", plan_report(with_box({{"fuse", {{"dc", nullptr}}}})).dump());
  CHECK(call({"compare", faulty, sound}).status == 0);
  CHECK(call({"compare", sound, faulty}).status == 1);
  CHECK(call({"compare", faulty, faulty}).status == 1);
  CHECK(call({"compare", faulty, silent}).status == 1);  // not looked at again
  CHECK(call({"compare", sound, silent}).status == 0);   // a query
}

TEST_CASE("formats, colour, output file and standard input") {
  const Reports reports;
  const std::string one = reports.make("one.json", {faults}), two = reports.make("two.json", {plan});
  CHECK(call({"compare", one, two, "--format", "json"}).says("\"format\": \"boxproof-comparison/1\""));
  CHECK(call({"compare", one, two, "--format", "markdown"}).out.starts_with("# Comparison: "));
  CHECK(call({"compare", one, two, "--color", "always"}).says("\x1b["));
  CHECK_FALSE(call({"compare", one, two}).says("\x1b["));
  const Called written = call({"compare", one, two, "--output", reports.folder.path("out.txt")});
  CHECK(written.out.empty());
  CHECK(reports.folder.get("out.txt") == call({"compare", one, two}).out);
  const Called piped = call({"compare", "-", two}, {reports.folder.get("one.json"), false, {}});
  CHECK(piped.says("before  <stdin>: plan check, NEC 2017: STOP"));
  CHECK(piped.status == 0);
}

TEST_CASE("wrong use and unreadable reports") {
  const Reports reports;
  const std::string report = reports.make("one.json", {plan});
  const Called both = call({"compare", "-", "-"});
  CHECK(both.status == 2);
  CHECK(both.complains("found - for both reports, expected it once"));
  CHECK(call({"compare", report}).status == 2);
  CHECK(call({"compare", report, report, report}).status == 2);
  CHECK(call({"compare", report, report, "--format", "html"}).status == 2);
  const Called design = call({"compare", report, plan});
  CHECK(design.status == 3);
  CHECK(design.out.empty());
  CHECK(design.complains("found \"boxproof-design/1\", expected \"boxproof-report/1\""));
  CHECK(call({"compare", reports.folder.path("none.json"), report}).status == 3);
  CHECK(call({"compare", report, report, "--output", reports.folder.path("no/such/folder")}).status == 2);
}

TEST_CASE("a selection is told apart from a plan that lost boxes") {
  const Reports reports;
  const std::string all = reports.make("all.json", {faults}),
                    some = reports.make("some.json", {faults, "--box", "B-*"});
  const Called c = call({"compare", all, some});
  CHECK(c.says("NOT LOOKED AT AGAIN"));
  CHECK(c.says("The later report does not show it."));
  CHECK_FALSE(c.says("OFF THE PLAN"));
  const std::string whole = reports.make("whole.json", {faults, "--box", "*"});
  CHECK(call({"compare", all, whole}).says("shows only 50 boxes"));
}

TEST_CASE("a temperature given on the command line does not correct a string that is too long") {
  const Reports reports;
  const std::string cold = reports.make("cold.json", {faults}),
                    warm = reports.make("warm.json", {faults, "--low-c", "25"});
  const Called c = call({"compare", cold, warm});
  CHECK(c.status == 1);
  CHECK(c.says("was given on the command line"));
  CHECK(c.says("It was judged at another design temperature"));
}

TEST_CASE("the schema of comparisons is there") {
  CHECK(call({"schema", "comparison"}).says("urn:boxproof:comparison:1"));
}
