// The completion scripts hold whatever the description holds. That shells do as they say is tested in the
// shells: tests/install/completion.sh.
#include "src/cli/completion.hpp"

#include "src/cli/describe.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/page.hpp"

using namespace boxproof::cli;
using namespace boxproof::test;

namespace {

bool has(std::string_view text, const std::string& piece) {
  return text.find(piece) != std::string_view::npos;
}

// From the line with `head` to the one with `end` behind it.
std::string part(const std::string& text, const std::string& head, const std::string& end) {
  const auto from = text.find(head);
  CAPTURE(head);
  REQUIRE(from != std::string::npos);
  return text.substr(from, text.find(end, from + head.size()) - from);
}

}  // namespace

TEST_CASE("bash: every command, option and choice stands in the script") {
  const std::string script = bash_completion();
  const std::string commands = part(script, "_boxproof_commands=\"", "\n");
  const std::string takes = part(script, "_boxproof_takes() {", "\n}\n");
  for (const CommandHelp& c : describe_commands()) {
    if (!c.name.empty()) CHECK((has(commands, " " + c.name) || has(commands, "\"" + c.name)));
    const std::string row = part(script, "\n    \"" + c.name + "\") options=", "\n    ") + " ";
    const std::string valued = row.substr(row.find("valued="));
    for (const ArgumentHelp& a : c.options) {
      CAPTURE(c.name, a.name);
      CHECK((has(row, "\"" + a.name) || has(row, " " + a.name)));
      CHECK((has(valued, a.name + " ") || has(valued, a.name + "\"")) == a.takes_value());
      if (a.choices.empty() && !a.takes_path) continue;
      const std::string what = part(takes, "\n    \"" + c.name + " \"" + a.name + ") ", " ;;");
      for (const std::string& choice : a.choices) CHECK(has(what, choice));
      CHECK(has(what, "files=") == a.takes_path);
      for (const auto extension : a.extensions) CHECK(has(what, std::string(extension)));
    }
  }
  CHECK(call({"completion", "bash"}).out == script);
}

TEST_CASE("zsh: every command, option and choice stands in the script") {
  const std::string script = zsh_completion();
  CHECK(script.starts_with("#compdef boxproof\n"));
  for (const CommandHelp& c : describe_commands()) {
    const std::string own = c.name.empty() ? part(script, "_arguments -C", "&& return")
                                           : part(script, "\n      (" + c.name + ")\n", ";;\n");
    if (!c.name.empty()) CHECK(has(script, "\n    '" + c.name + ":"));
    for (const ArgumentHelp& a : c.options) {
      CAPTURE(c.name, a.name);
      const bool both = !a.short_name.empty();
      const std::string lead =
          both ? "{" + a.short_name + "," + a.name + "}" : a.name + (a.takes_value() ? "=[" : "[");
      const std::string line = part(own, lead, "\n");
      for (const std::string& choice : a.choices)
        CHECK((has(line, choice) || has(part(script, "_boxproof_report() {", "\n}\n"), choice)));
      CHECK(has(line, "_files") == (a.takes_path && a.choices.empty()));
    }
    for (const ArgumentHelp& a : c.positionals) CHECK(has(own, ":" + a.name + ":"));
  }
  CHECK(call({"completion", "zsh"}).out == script);
  CHECK(call({"completion", "fish"}).status == 2);
}
