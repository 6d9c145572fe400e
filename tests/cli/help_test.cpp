// The help: everything in it, and no line wider than the page.
#include "src/cli/help.hpp"

#include "src/cli/command_notes.hpp"
#include "src/cli/describe.hpp"
#include "src/report/layout.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/page.hpp"

using namespace boxproof;
using namespace boxproof::cli;
using namespace boxproof::test;

TEST_CASE("no line of any help is wider than 80 columns, and none ends in a blank") {
  for (const CommandHelp& c : describe_commands()) {
    const auto lines = lines_of(help_text(c.name));
    CHECK(lines.size() > 10);
    for (const auto& line : lines) {
      CAPTURE(c.name, std::string(line));
      CHECK(report::width_of(line) <= 80);
      CHECK((line.empty() || line.back() != ' '));
    }
  }
}

TEST_CASE("the help of a command has every option and argument with its description") {
  for (const CommandHelp& c : describe_commands()) {
    const std::string text = help_text(c.name);
    std::string flowing;  // as it is before it is wrapped
    for (const char letter : text)
      if (letter != '\n' && (letter != ' ' || flowing.empty() || flowing.back() != ' '))
        flowing += letter;
      else if (!flowing.empty() && flowing.back() != ' ')
        flowing += ' ';
    const auto has = [&](const std::string& words) { return flowing.find(words) != std::string::npos; };
    for (const auto* list : {&c.options, &c.positionals})
      for (const ArgumentHelp& a : *list) {
        CAPTURE(c.name, a.name);
        const bool named = a.name.starts_with("--");
        CHECK(has(" " + a.name + (named && a.takes_value() ? " " + a.type_name : "") + " " +
                  whole_description(a) + " "));
      }
    for (const cli::Example& example : notes_of(c.name).examples)
      CHECK(text.find(example.line) != std::string::npos);
    CHECK(has("Usage: " + usage(c)));
    const std::vector<std::string> arguments =
        c.name.empty() ? std::vector<std::string>{"--help"} : std::vector<std::string>{c.name, "--help"};
    CHECK(call(arguments).out == text);
  }
}

TEST_CASE("the program's help names the commands under their headings") {
  const std::string text = help_text("");
  std::size_t at = 0;
  for (const char* piece :
       {"\nJudging:\n  check ", "\n  box ", "\n  compare ", "\n  baseline ", "\nOn the roof:\n", "\n  tally ",
        "\nDesign files:\n  draft ", "\n  schedule ", "\nLooking up:\n  rules ", "\n  tables ", "\n  schema ",
        "\nFor the shell:\n  completion ", "\n  man ", "\nOptions:\n  -h, --help "}) {
    CAPTURE(piece);
    const auto found = text.find(piece, at);
    REQUIRE(found != std::string::npos);
    at = found;
  }
  for (const CommandHelp& c : describe_commands())
    if (!c.name.empty()) CHECK(text.find("\n  " + c.name + " ") != std::string::npos);
}
