#include "src/cli/help.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <vector>

#include "src/cli/command_notes.hpp"
#include "src/cli/describe.hpp"
#include "src/report/layout.hpp"

namespace boxproof::cli {
namespace {

constexpr std::size_t widest_left = 26;  // columns; a longer name has a line of its own

struct Row {
  std::string left, right;
};

std::string laid_out(std::string_view heading, const std::vector<Row>& rows) {
  if (rows.empty()) return {};
  std::size_t width = 0;
  for (const Row& row : rows)
    if (row.left.size() <= widest_left) width = std::max(width, row.left.size());
  std::string out = heading.empty() ? "\n" : fmt::format("\n{}:\n", heading);
  const std::size_t indent = width + 4;  // two blanks on either side
  for (const Row& row : rows) {
    if (row.left.size() > width) out += fmt::format("  {}\n", row.left);
    const std::string_view left = row.left.size() > width ? std::string_view() : row.left;
    out += report::wrap(row.right, indent, fmt::format("  {:<{}}  ", left, width));
  }
  return out;
}

std::string option_name(const ArgumentHelp& a) {
  return (a.short_name.empty() ? "" : a.short_name + ", ") + a.name +
         (a.takes_value() ? " " + a.type_name : "");
}

std::string options(const CommandHelp& command) {
  std::vector<std::string_view> groups;
  for (const ArgumentHelp& a : command.options)
    if (std::find(groups.begin(), groups.end(), a.group) == groups.end()) groups.push_back(a.group);
  std::string out;
  for (const std::string_view group : groups) {
    std::vector<Row> rows;
    for (const ArgumentHelp& a : command.options)
      if (a.group == group) rows.push_back({option_name(a), whole_description(a)});
    out += laid_out(group, rows);
  }
  return out;
}

std::string commands(const std::vector<CommandHelp>& all) {
  std::vector<std::string_view> groups;
  for (const CommandHelp& c : all)
    if (const auto group = notes_of(c.name).group;
        !group.empty() && std::find(groups.begin(), groups.end(), group) == groups.end())
      groups.push_back(group);
  std::string out;
  for (const std::string_view group : groups) {
    std::vector<Row> rows;
    for (const CommandHelp& c : all)
      if (notes_of(c.name).group == group) rows.push_back({fmt::format("{:<10}", c.name), c.summary});
    out += laid_out(group, rows);
  }
  return out;
}

std::string exit_statuses(std::string_view command) {
  std::string out = "Exit status:";
  for (const StatusNote& s : statuses_of(command))
    out += fmt::format("{} {} {}", s.status == 0 ? "" : ";", s.status, s.means);
  return report::wrap(out + ".", 0, "");
}

}  // namespace

std::string help_text(std::string_view name) {
  const std::vector<CommandHelp> all = describe_commands();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const CommandHelp& c) { return c.name == name; });
  if (found == all.end()) throw std::out_of_range("no command " + std::string(name));
  const CommandHelp& command = *found;
  std::string out = report::wrap(command.summary + (command.summary.ends_with(".") ? "" : "."), 0, "");
  out += "\n" + report::wrap(usage(command), 4, "Usage: ");
  std::vector<Row> positionals;
  for (const ArgumentHelp& a : command.positionals) positionals.push_back({a.name, whole_description(a)});
  out += laid_out("", positionals);
  if (name.empty()) out += commands(all);
  out += options(command);
  out += "\nExamples:\n";
  for (const Example& example : notes_of(name).examples) out += fmt::format("  {}\n", example.line);
  return out + "\n" + exit_statuses(name) + "Every report is an aid to review and no approval.\n";
}

}  // namespace boxproof::cli
