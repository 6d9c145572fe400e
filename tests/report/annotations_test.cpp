// Workflow commands: read back as a host's runner reads them, and held against the report for programs.
#include <algorithm>
#include <map>
#include <optional>

#include "boxproof/rule.hpp"
#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/hostile.hpp"
#include "tests/support/page.hpp"
#include "tests/support/whole_run.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

struct Command {
  std::string level, message;
  std::map<std::string, std::string> properties;
};

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
    text.replace(at, from.size(), to);
  return text;
}
std::string decoded(std::string text, bool property) {
  text = replaced(replaced(std::move(text), "%0D", "\r"), "%0A", "\n");
  if (property) text = replaced(replaced(std::move(text), "%3A", ":"), "%2C", ",");
  return replaced(std::move(text), "%25", "%");
}

// A line as a runner reads it: what is between the first :: and the next is the command and its properties,
// at commas; the rest is the message. Nothing where the line is none.
std::optional<Command> command(const std::string& line) {
  const auto start = line.find_first_not_of(" \t");
  if (start == std::string::npos || line.compare(start, 2, "::") != 0) return std::nullopt;
  const auto end = line.find("::", start + 2);
  if (end == std::string::npos) return std::nullopt;
  const std::string head = line.substr(start + 2, end - start - 2);
  Command out;
  out.level = head.substr(0, head.find(' '));
  out.message = decoded(line.substr(end + 2), false);
  std::string rest = head.size() > out.level.size() ? head.substr(out.level.size() + 1) : "";
  while (!rest.empty()) {
    const std::string property = rest.substr(0, rest.find(','));
    rest.erase(0, property.size() + 1);
    const auto equals = property.find('=');
    REQUIRE(equals != std::string::npos);
    const bool fresh =
        out.properties.emplace(property.substr(0, equals), decoded(property.substr(equals + 1), true)).second;
    CHECK(fresh);
  }
  return out;
}

struct Page {
  std::vector<Command> commands;
  std::string closing;  // on one line
};
Page page(const std::string& text) {
  Page out;
  for (const std::string& line : lines_of(text)) {
    const auto c = command(line);
    if (c && out.closing.empty())
      out.commands.push_back(*c);
    else
      out.closing += (out.closing.empty() ? "" : " ") + line;
    if (!c) CHECK(line.find("::") == std::string::npos);
  }
  return out;
}

Page annotations(const std::vector<OfRun>& designs, std::size_t skipped = 0) {
  return page(told_run(*annotations_report(), designs, skipped));
}
bool has(const std::string& text, std::string_view what) {
  return text.find(what) != std::string::npos;
}

const std::map<std::string, std::string> levels{
    {"hazard", "error"}, {"correction", "error"}, {"query", "warning"}, {"advice", "notice"}};

// The finding of the report for programs as a line should have it.
void check_same(const Command& c, const Json& f) {
  CAPTURE(f.dump());
  CHECK(c.level == levels.at(f["severity"]));
  CHECK(f["file"] == c.properties.at("file"));
  CHECK(c.properties.at("line") == f["line"].dump());
  CHECK(c.properties.at("col") == f["column"].dump());
  CHECK(c.properties.at("endLine") == f["end_line"].dump());
  CHECK(c.properties.at("endColumn") == f["end_column"].dump());
  CHECK(f["line"] == f["end_line"]);
  CHECK(c.properties.at("title").starts_with(f["severity"].get<std::string>() + ": "));
  CHECK(c.properties.size() == 6);
  const std::string section = f["section"].is_null() ? "" : "; " + f["section"].get<std::string>();
  CHECK(c.message.starts_with(f["message"].get<std::string>() + " [" + f["rule"].get<std::string>() +
                              section + "]\ndo: "));
}

}  // namespace

TEST_CASE("a line a finding, worst first over all designs, as the report for programs has them") {
  const Folder folder;
  const std::string json = folder.path("all.json"), faults = BOXPROOF_EXAMPLES "/saltmarsh-faults.json",
                    ferry = BOXPROOF_EXAMPLES "/ferry-shed.json";
  const Called c = call({"check", ferry, faults, "--format", "annotations", "--report", "json=" + json});
  CHECK(c.status == 1);
  const Page told = page(c.out);
  const Json all = Json::parse(read_file(json));
  std::vector<Json> expected;
  for (const char* severity : {"hazard", "correction", "query", "advice"})
    for (const Json& design : all["reports"])
      for (const Json& f : design["report"]["findings"])
        if (f["severity"] == severity) expected.push_back(f);
  REQUIRE(expected.size() > 20);
  REQUIRE(told.commands.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) check_same(told.commands[i], expected[i]);
  CHECK(has(told.closing, "2 designs judged: "));
  CHECK(has(told.closing, std::string(caution())));
}

TEST_CASE("one design with a field record, line by line") {
  const Folder folder;
  const std::string json = folder.path("one.json"), plan = BOXPROOF_EXAMPLES "/saltmarsh.json",
                    visit = BOXPROOF_EXAMPLES "/saltmarsh-visit.json";
  const Page told = page(
      call({"check", plan, "--asbuilt", visit, "--format", "annotations", "--report", "json=" + json}).out);
  Json findings = Json::parse(read_file(json))["findings"];
  std::vector<Json> expected(findings.begin(), findings.end());
  const std::vector<std::string> order{"hazard", "correction", "query", "advice"};
  const auto rank = [&](const Json& f) {
    return std::find(order.begin(), order.end(), f["severity"].get<std::string>()) - order.begin();
  };
  std::stable_sort(expected.begin(), expected.end(),
                   [&](const Json& a, const Json& b) { return rank(a) < rank(b); });
  REQUIRE(told.commands.size() == expected.size());
  bool of_plan = false, of_record = false;
  for (std::size_t i = 0; i < expected.size(); ++i) {
    check_same(told.commands[i], expected[i]);
    of_plan |= told.commands[i].properties.at("file") == plan;
    of_record |= told.commands[i].properties.at("file") == visit;
    const std::string& title = told.commands[i].properties.at("title");
    CHECK(title.ends_with(expected[i]["basis"] == "as-built" ? " (as built)" : " (on the plan)"));
  }
  CHECK(of_plan);
  CHECK(of_record);
}

TEST_CASE("what a host may not show is said, and only then") {
  const auto few = judge(with_box({{"fuse", {{"dc", false}}}}));
  CHECK_FALSE(has(annotations({{"a.json", few.get()}}).closing, "from memory, unverified"));
  const auto many = judge_example("saltmarsh-faults.json");
  const auto& n = many->judgement.counts;
  REQUIRE(n[0] + n[1] > 10);
  CHECK(has(annotations({{"a.json", many.get()}}).closing,
            "Here are " + std::to_string(n[0] + n[1]) + " errors, "));
  // Ten of each are all shown.
  const auto ten = judge(sound_design());
  const auto plain_finding = few->findings()[0];
  ten->judgement.findings.assign(10, plain_finding);
  CHECK_FALSE(has(annotations({{"a.json", ten.get()}}).closing, "Here are"));
  ten->judgement.findings.push_back(plain_finding);
  CHECK(has(annotations({{"a.json", ten.get()}}).closing, "Here are 11 errors, 0 warnings and 0 notices"));
}

TEST_CASE("columns stand there only where the end is on the line of the start") {
  const auto judged = judge(with_box({{"fuse", {{"dc", false}}}}));
  Finding& f = judged->judgement.findings[0];
  const auto properties = [&] { return annotations({{"a.json", judged.get()}}).commands.at(0).properties; };
  REQUIRE(f.place.line > 0);
  CHECK(properties().contains("col"));
  f.place.end_line = f.place.line + 1;
  CHECK_FALSE(properties().contains("col"));
  CHECK_FALSE(properties().contains("endColumn"));
  CHECK(properties().at("endLine") == std::to_string(f.place.line + 1));
  f.place.end_line = 0;
  CHECK(properties().contains("col"));
  CHECK_FALSE(properties().contains("endLine"));
  f.place.line = 0;
  CHECK(properties().size() == 2);  // file and title
}

TEST_CASE("findings on the baseline and agreed ones have no line, and are counted") {
  const auto judged = judge_agreed(
      with_box({{"fuse", {{"a", 30}, {"pv_listed", false}}}, {"disconnect", {{"distance_m", 9}}}}),
      Json::array({an_exception("fuse/not-pv-listed")}));
  REQUIRE(judged->findings().size() == 2);
  judged->judgement.findings[1].known = true;
  const Page told = annotations({{"a.json", judged.get()}}, 1);
  REQUIRE(told.commands.size() == 1);
  CHECK(has(told.commands[0].message, judged->findings()[0].message));
  CHECK(has(told.closing, "Without a line: 1 finding on the baseline, 1 finding under an agreed exception."));
  CHECK(has(told.closing, "1 design judged: "));
  CHECK(has(told.closing, "1 JSON file that is no design was passed over."));
  const Page none = annotations({});
  CHECK(none.commands.empty());
  CHECK(has(none.closing, "0 designs judged: 0 hazards, 0 corrections, 0 queries, 0 pieces of advice."));
  CHECK_FALSE(has(none.closing, "Without a line"));
}

TEST_CASE("a design that cannot be read is an error a problem, the first of each before all others") {
  const InputError e = bad_design("b.json", with({{"site", {{"use", "boat"}, {"low_c", -300}}}}).dump(1));
  REQUIRE(e.problems().size() == 2);
  const auto judged = judge(with_box({{"fuse", {{"dc", false}}}}));
  const Page told = annotations({{"a.json", judged.get()}, {"b.json", nullptr, &e}});
  std::vector<std::string> messages;
  for (const Command& c : told.commands) messages.push_back(c.message);
  REQUIRE(told.commands.size() == 2 + judged->findings().size());
  const auto check_problem = [](const Command& c, const Problem& p) {
    CHECK(c.level == "error");
    CHECK(c.message == p.pointer + ": " + p.message);
    CHECK(c.properties == std::map<std::string, std::string>{{"file", p.file},
                                                             {"line", std::to_string(p.line)},
                                                             {"col", std::to_string(p.column)},
                                                             {"title", "not judged: b.json"}});
  };
  check_problem(told.commands[0], e.problems()[0]);
  CHECK(told.commands[1].properties.at("title").starts_with("hazard: "));
  check_problem(told.commands.back(), e.problems()[1]);
  CHECK(has(told.closing, "1 design could not be judged: 2 problems with the input."));

  const InputError gone({{"c.json", 0, 0, "", "cannot be read"}}, 1), many(e.problems(), 40);
  const Page others = annotations({{"c.json", nullptr, &gone}, {"b.json", nullptr, &many}});
  REQUIRE(others.commands.size() == 4);
  CHECK(others.commands[0].message == "cannot be read");
  CHECK(others.commands[0].properties ==
        std::map<std::string, std::string>{{"file", "c.json"}, {"title", "not judged: c.json"}});
  CHECK(others.commands[3].message == "and 38 more problems");
  CHECK(has(others.closing, "2 designs could not be judged: 41 problems with the input."));
}

TEST_CASE("escapes of messages and properties") {
  const auto judged = judge(with_box({{"fuse", {{"dc", false}}}}));
  Finding& f = judged->judgement.findings[0];
  f.message = "50 % of, all: %0A";
  f.place.file = "a,b:c%2C.json";
  const std::string out = told_run(*annotations_report(), {{"a.json", judged.get()}});
  CHECK(out.starts_with("::error file=a%2Cb%3Ac%252C.json,line="));
  CHECK(has(out, ",title=hazard%3A "));
  CHECK(has(out, "::50 %25 of, all: %250A ["));
  const Command c = page(out).commands.at(0);
  CHECK(c.message.starts_with(f.message + " ["));
  CHECK(c.properties.at("file") == f.place.file);
}

TEST_CASE("no text of a file starts a command of its own") {
  std::vector<std::string> texts{"::error::x",
                                 "\n::error::x",
                                 "\r::set-output name=a::b",
                                 "\r\n::warning::x\r\n",
                                 " ::add-mask::x",
                                 "%0A::error::x",
                                 "\u2028::error::x",
                                 "\u0085::error::x",
                                 "##[error]x",
                                 "##vso[task.complete]x",
                                 "###[error]"};
  for (const Hostile& hostile : hostile_texts()) texts.push_back(hostile.text);
  for (const std::string& text : texts) {
    const auto judged = judge(hostile_design(with_box({{"fuse", {{"a", 30}, {"dc", false}}}}), text));
    const InputError e = bad_design(text + ".json", with({{"site", {{"use", text}}}, {text, 1}}).dump());
    judged->judgement.findings[0].place.file = text;
    const std::string out =
        told_run(*annotations_report(), {{text, judged.get()}, {text + ".json", nullptr, &e}});
    CAPTURE(text.substr(0, 100));
    std::size_t lines = 0, commands = 0;
    for (const std::string& line : lines_of(out)) {
      lines += line.empty() ? 0 : 1;
      const auto c = command(line);
      if (!c) continue;
      ++commands;
      CHECK((c->level == "error" || c->level == "warning" || c->level == "notice"));
      CHECK(c->properties.contains("title"));
    }
    CHECK(commands == judged->findings().size() + e.problems().size());
    CHECK(harm_in(out) == "");
    CHECK_FALSE(has(out, "##"));
    CHECK(lines > commands);
  }
}

TEST_CASE("nor does a path, where problems are told") {
  const Called c = call({"check", "::error::x.json", "--format", "annotations"});
  CHECK(c.status == 3);
  for (const std::string& line : lines_of(c.err)) CHECK_FALSE(command(line).has_value());
  CHECK(c.complains("boxproof: ::error::x.json: cannot be read"));
  REQUIRE(page(c.out).commands.size() == 1);
  CHECK(page(c.out).commands[0].properties.at("file") == "::error::x.json");
}

TEST_CASE("annotations of two designs, one of them broken") {
  const Folder folder;
  const std::string good = folder.put("good.json", with_box({{"fuse", {{"dc", false}}}}).dump());
  const std::string bad = folder.put("bad.json", "{\"format\": \"boxproof-design/1\", \"site\": 3}");
  const Called c = call({"check", good, bad, "--format", "annotations"});
  CHECK(c.status == 3);
  const Page told = page(c.out);
  REQUIRE(told.commands.size() >= 2);
  CHECK(told.commands[0].properties.at("file") == bad);
  CHECK(told.commands[1].properties.at("file") == good);
  CHECK(call({"check", good, bad, "--format", "annotations"}).out == c.out);
}
