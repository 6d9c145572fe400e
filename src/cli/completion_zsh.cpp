// The script for zsh: the specifications that its function _arguments takes.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "boxproof/report.hpp"
#include "src/cli/completion.hpp"
#include "src/cli/describe.hpp"

namespace boxproof::cli {
namespace {

// In single quotes, with a backslash before whatever ends a part of a specification.
std::string escaped(std::string_view text, std::string_view special) {
  std::string out;
  for (const char c : text) {
    if (c == '\'') {
      out += "'\\''";
      continue;
    }
    if (special.find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

// ":DESIGN:_files": what stands for a value, and what completes it.
std::string action(const ArgumentHelp& a) {
  std::string does = " ";  // nothing known
  if (a.takes_path && !a.choices.empty())
    does = "_boxproof_report";
  else if (a.takes_path)
    does = a.extensions.empty()       ? "_files"
           : a.extensions.size() == 1 ? fmt::format("_files -g \"*.{}\"", a.extensions.front())
                                      : fmt::format("_files -g \"*.({})\"", fmt::join(a.extensions, "|"));
  else if (const auto& words = a.choices.empty() ? a.offers : a.choices; !words.empty())
    does = fmt::format("({})", fmt::join(words, " "));
  return fmt::format(":{}:{}", escaped(a.type_name, ":\\"), does);
}

std::string option(const ArgumentHelp& a) {
  const std::string what = fmt::format("[{}]", escaped(whole_description(a), "[]\\"));
  if (!a.short_name.empty() && !a.takes_value())  // the help and the version: nothing stands beside them
    return fmt::format("'(- *)'{{{},{}}}'{}'", a.short_name, a.name, what);
  std::string lead;
  if (a.repeatable) lead = "*";
  if (!a.excludes.empty()) lead = fmt::format("({}){}", fmt::join(a.excludes, " "), lead);
  if (a.short_name.empty())
    return a.takes_value() ? fmt::format("'{}{}={}{}'", lead, a.name, what, action(a))
                           : fmt::format("'{}{}{}'", lead, a.name, what);
  return fmt::format("'{0}{1}={2}{3}' '{0}{4}{2}{3}'", lead, a.name, what, action(a), a.short_name);
}

std::string command(const CommandHelp& c) {
  std::string out = fmt::format("      ({})\n        _arguments -S", c.name);
  for (const ArgumentHelp& a : c.options) out += " \\\n          " + option(a);
  for (std::size_t i = 0; i < c.positionals.size(); ++i) {
    const ArgumentHelp& a = c.positionals[i];
    const std::string place = a.repeatable ? "*" : fmt::format("{}", i + 1);
    out += fmt::format(" \\\n          '{}{}'", place, action(a));
  }
  return out + "\n        ;;\n";
}

}  // namespace

std::string zsh_completion() {
  std::string names, options, commands;
  std::vector<std::string> formats;
  for (const CommandHelp& c : describe_commands()) {
    if (c.name.empty()) {
      for (const ArgumentHelp& a : c.options) options += fmt::format(" \\\n    {}", option(a));
      continue;
    }
    for (const ArgumentHelp& a : c.options)
      if (a.takes_path && !a.choices.empty()) formats = a.choices;
    names += fmt::format("    '{}:{}'\n", c.name, escaped(c.summary, ":\\"));
    commands += command(c);
  }
  return fmt::format(
      "#compdef boxproof\n"
      "# Completes the command line of boxproof {0} in zsh. Made by \"boxproof completion zsh\".\n\n"
      "_boxproof_commands() {{\n  local -a commands=(\n{1}  )\n  _describe -t commands command commands\n}}\n\n"
      "# A format, then = and a file.\n"
      "_boxproof_report() {{\n  if compset -P 1 '*='; then\n    _files\n  else\n"
      "    compadd -S = -q -- {2}\n  fi\n}}\n\n"
      "_boxproof() {{\n  local context state state_descr line\n  typeset -A opt_args\n"
      "  _arguments -C -S{3} \\\n    '(-)1:command:_boxproof_commands' \\\n    '(-)*::argument:->arguments' && return\n"
      "  if [[ $state == arguments ]]; then\n    case $words[1] in\n{4}    esac\n  fi\n}}\n\n"
      "# Run when it was loaded for the first completion; made known where it was read by source.\n"
      "if [[ $funcstack[1] == _boxproof ]]; then\n  _boxproof \"$@\"\nelse\n  compdef _boxproof boxproof\nfi\n",
      version(), names, fmt::join(formats, " "), options, commands);
}

}  // namespace boxproof::cli
