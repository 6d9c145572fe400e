// The description of the command line, of which help, manual and completion are made: nothing of the parser
// is missing in it.
#include "src/cli/describe.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>

#include "src/cli/command_notes.hpp"
#include "src/cli/options.hpp"
#include "src/cli/run.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"

using namespace boxproof;
using namespace boxproof::cli;
using boxproof::test::call;

namespace {

const CommandHelp& command(const std::vector<CommandHelp>& all, std::string_view name) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const CommandHelp& c) { return c.name == name; });
  REQUIRE(found != all.end());
  return *found;
}

const ArgumentHelp& option(const CommandHelp& command, std::string_view name) {
  for (const auto* list : {&command.options, &command.positionals})
    for (const ArgumentHelp& a : *list)
      if (a.name == name) return a;
  FAIL("no " << name);
  return command.options.front();
}

// The long names of options in the source of the parser: "--format" or "-h,--help" in quotes.
std::set<std::string> names_in_source() {
  std::ifstream file(BOXPROOF_SOURCE "/src/cli/options.cpp");
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  std::set<std::string> out;
  for (auto at = text.find("--"); at != std::string::npos; at = text.find("--", at + 2)) {
    const auto end = text.find_first_not_of("abcdefghijklmnopqrstuvwxyz-", at);
    if (end > at + 2 && text[end] == '"' && (text[at - 1] == '"' || text[at - 1] == ','))
      out.insert(text.substr(at, end - at));
  }
  return out;
}

// Words as a shell would take them: quotes hold together.
std::vector<std::string> words_of(std::string_view line) {
  std::vector<std::string> out(1);
  bool quoted = false;
  for (const char c : line)
    if (c == '"')
      quoted = !quoted;
    else if (c == ' ' && !quoted)
      out.emplace_back();
    else
      out.back() += c;
  return out;
}

}  // namespace

TEST_CASE("every option of the parser is described") {
  const auto all = describe_commands();
  std::set<std::string> described;
  for (const CommandHelp& c : all)
    for (const ArgumentHelp& a : c.options) {
      CAPTURE(c.name, a.name);
      CHECK(a.name.starts_with("--"));
      CHECK_FALSE(a.description.empty());
      CHECK_FALSE(a.description.ends_with("."));
      described.insert(a.name);
    }
  const auto source = names_in_source();
  CHECK(source.size() > 25);
  for (const std::string& name : source) {
    CAPTURE(name);
    CHECK(described.count(name) == 1);
  }
  CHECK(described.size() == source.size());
}

TEST_CASE("every command is described, has notes, and runs") {
  const auto all = describe_commands();
  REQUIRE(all.front().name.empty());
  CHECK(all.size() >= 14);
  std::vector<std::string> names;
  for (const CommandHelp& c : all) {
    CAPTURE(c.name);
    CHECK_FALSE(c.summary.empty());
    const CommandNotes& notes = notes_of(c.name);
    CHECK(notes.group.empty() == c.name.empty());
    CHECK_FALSE(notes.paragraphs.empty());
    CHECK_FALSE(notes.examples.empty());
    if (c.name.empty()) continue;
    names.push_back(c.name);
    // One that the parser knows and the table of commands does not would end with nothing said.
    const auto called = call({c.name, "--zzz"});
    CHECK(called.complains("--zzz"));
  }
  // The pages are of all of them, also of those that were added last.
  CHECK(option(command(all, "man"), "COMMAND").choices == names);
  CHECK_THROWS_AS(notes_of("chek"), std::out_of_range);
}

TEST_CASE("what the parser knows of an option is told") {
  const auto all = describe_commands();
  const CommandHelp& check = command(all, "check");
  const ArgumentHelp& format = option(check, "--format");
  CHECK(format.type_name == "FORMAT");
  CHECK(format.choices ==
        std::vector<std::string>{"text", "html", "markdown", "json", "sarif", "junit", "annotations"});
  CHECK(format.group == "Output");
  CHECK_FALSE(format.takes_path);
  CHECK_FALSE(format.repeatable);
  CHECK(option(check, "--help").short_name == "-h");
  CHECK_FALSE(option(check, "--help").takes_value());
  CHECK(option(check, "--low-c").range == "-70 to 30");
  CHECK(option(check, "--box").repeatable);
  CHECK(option(check, "--on").needs.empty());
  CHECK(option(check, "DESIGN").repeatable);
  CHECK_FALSE(option(check, "DESIGN").required);
  CHECK(option(command(all, "box"), "ID").required);
  CHECK(option(command(all, "tally"), "--sample").excludes == std::vector<std::string>{"--plan"});
  CHECK(option(command(all, "tally"), "--plan").excludes == std::vector<std::string>{"--sample"});
  CHECK(option(command(all, "tables"), "TOPIC").choices.size() > 10);
  CHECK(option(command(all, "rules"), "ID").offers.size() > 50);

  using Extensions = std::vector<std::string_view>;
  CHECK(option(check, "DESIGN").extensions == Extensions{"json"});
  CHECK(option(check, "--asbuilt").extensions == Extensions{"json", "csv"});
  CHECK(option(check, "--output").takes_path);
  CHECK(option(check, "--output").extensions.empty());
  CHECK(option(check, "--report").takes_path);
  CHECK(option(check, "--report").choices == format.choices);
}

TEST_CASE("a value of a kind that nobody described is a defect") {
  CommandHelp odd{"odd", "", {}, {}};
  ArgumentHelp argument;
  argument.name = "--odd";
  argument.type_name = "SPOON";
  odd.options = {argument};
  CHECK_THROWS_AS(classify(odd), std::logic_error);
  odd.options.front().choices = {"one", "two"};
  CHECK_NOTHROW(classify(odd));
}

TEST_CASE("whole descriptions, and the usage") {
  ArgumentHelp a;
  a.name = "--edition";
  a.description = "judge by this edition";
  CHECK(whole_description(a) == "judge by this edition");
  a.choices = {"2017", "2020"};
  CHECK(whole_description(a) == "judge by this edition; one of 2017, 2020");
  a.description = "2017 is old, 2020x is none";  // 2020 is no word of it
  CHECK(whole_description(a) == "2017 is old, 2020x is none; one of 2017, 2020");
  a.choices = {"2017"};
  a.description = "the edition";
  CHECK(whole_description(a) == "the edition; 2017");
  a.choices = {"2017", "2020"};
  a.description = "2017 is old, 2020 is newer";
  CHECK(whole_description(a) == "2017 is old, 2020 is newer");
  a.range = "1 to 2";
  a.needs = {"--one"};
  a.excludes = {"--other"};
  CHECK(whole_description(a) == "2017 is old, 2020 is newer, 1 to 2; only with --one; not with --other");

  const auto all = describe_commands();
  CHECK(usage(all.front()) == "boxproof [OPTIONS] [COMMAND]");
  CHECK(usage(command(all, "check")) == "boxproof check [OPTIONS] [DESIGN...]");
  CHECK(usage(command(all, "box")) == "boxproof box [OPTIONS] DESIGN ID");
  CHECK(usage(command(all, "baseline")) == "boxproof baseline [OPTIONS] --reason TEXT [DESIGN...]");
}

TEST_CASE("the examples of the notes are command lines that the parser takes") {
  for (const CommandHelp& c : describe_commands())
    for (const Example& example : notes_of(c.name).examples) {
      CAPTURE(std::string(example.line));
      CHECK(example.line.size() + 2 <= 80);
      auto words = words_of(example.line);
      if (words.front() == "source") words = {"boxproof", "completion", "bash"};  // <(…)
      REQUIRE(words.front() == "boxproof");
      words.erase(words.begin());
      words.erase(
          std::find_if(words.begin(), words.end(), [](const auto& w) { return w == "|" || w == ">"; }),
          words.end());
      const Parsed parsed = parse(words);
      CHECK(parsed.options.has_value());
      CHECK(parsed.text.empty());
    }
}
