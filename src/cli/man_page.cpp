#include "src/cli/man_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <vector>

#include "boxproof/report.hpp"
#include "src/cli/command_notes.hpp"
#include "src/cli/describe.hpp"
#include "src/cli/roff.hpp"
#include "src/cli/settings.hpp"
#include "src/report/layout.hpp"

namespace boxproof::cli {
namespace {

std::string page_name(std::string_view command) {
  return command.empty() ? "boxproof" : fmt::format("boxproof-{}", command);
}

bool has_option(const CommandHelp& command, std::string_view name) {
  return std::any_of(command.options.begin(), command.options.end(),
                     [&](const ArgumentHelp& a) { return a.name == name; });
}

// The summary as NAME has it: in the middle of a line.
std::string in_a_line(std::string text) {
  if (text.ends_with('.')) text.pop_back();
  if (text[0] >= 'A' && text[0] <= 'Z') text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text + ".";
}

void put_arguments(Roff& page, const CommandHelp& command) {
  if (!command.positionals.empty()) {
    page.section("ARGUMENTS");
    for (const ArgumentHelp& a : command.positionals) page.term("", a.name, whole_description(a) + ".");
  }
  page.section("OPTIONS");
  for (const ArgumentHelp& a : command.options)
    page.term((a.short_name.empty() ? "" : a.short_name + ", ") + a.name, a.type_name,
              whole_description(a) + ".");
}

void put_commands(Roff& page, const std::vector<CommandHelp>& all) {
  page.section("COMMANDS");
  std::vector<std::string_view> groups;
  for (const CommandHelp& c : all)
    if (const auto group = notes_of(c.name).group;
        !group.empty() && std::find(groups.begin(), groups.end(), group) == groups.end())
      groups.push_back(group);
  for (const std::string_view group : groups) {
    page.subsection(group);
    for (const CommandHelp& c : all)
      if (notes_of(c.name).group == group)
        page.term(c.name, "", fmt::format("{} See {}(1).", sentence(c.summary), page_name(c.name)));
  }
}

// Files that are read without being named, and those that a package brings.
void put_files(Roff& page, const CommandHelp& command) {
  const bool program = command.name.empty();
  const bool settings = program || has_option(command, "--no-settings");
  if (!settings) return;
  page.section("FILES");
  page.term(settings_name, "",
            "The settings of a folder and what is under it: what the command line would say each time. The "
            "nearest one counts, in the working folder or above it. The command line wins. boxproof schema "
            "settings prints its keys.");
}

void put_environment(Roff& page, const CommandHelp& command) {
  const bool colour = command.name.empty() || has_option(command, "--color");
  if (!colour) return;
  page.section("ENVIRONMENT");
  page.term("NO_COLOR", "", "Where it is set and not empty, text has no colour unless --color asks for it.");
  page.term("TERM", "", "Where it is dumb, text has no colour, and a long run shows no progress.");
}

void put_see_also(Roff& page, const std::vector<CommandHelp>& all, std::string_view name) {
  page.section("SEE ALSO");
  std::vector<std::string> others;
  for (const CommandHelp& c : all)
    if (c.name != name && (name.empty() || c.name.empty() || notes_of(c.name).group == notes_of(name).group))
      others.push_back(page_name(c.name));
  std::sort(others.begin(), others.end());
  for (const std::string& other : others) page.reference(other, &other == &others.back());
}

}  // namespace

std::string man_page(std::string_view name) {
  const std::vector<CommandHelp> all = describe_commands();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const CommandHelp& c) { return c.name == name; });
  if (found == all.end()) throw std::out_of_range("no command " + std::string(name));
  const CommandHelp& command = *found;
  const CommandNotes& notes = notes_of(name);
  Roff page;
  page.title(report::upper(page_name(name)), BOXPROOF_DAY, fmt::format("boxproof {}", version()));
  page.section("NAME");
  page.name(page_name(name), in_a_line(command.summary));
  page.section("SYNOPSIS");
  const std::string call = usage(command),
                    lead = name.empty() ? "boxproof" : fmt::format("boxproof {}", name);
  page.synopsis(lead, call.substr(lead.size()));
  page.section("DESCRIPTION");
  for (const std::string_view paragraph : notes.paragraphs) page.paragraph(paragraph);
  if (name.empty()) put_commands(page, all);
  put_arguments(page, command);
  page.section("EXIT STATUS");
  for (const StatusNote& s : statuses_of(name))
    page.term(fmt::format("{}", s.status), "", std::string(s.means) + ".");
  put_files(page, command);
  put_environment(page, command);
  page.section("EXAMPLES");
  for (const Example& e : notes.examples) page.example(sentence(std::string(e.does)), e.line);
  page.section("CAUTION");
  page.paragraph(caution());
  put_see_also(page, all, name);
  return page.page();
}

}  // namespace boxproof::cli
