// The script for bash: two tables made of the description, and the functions that read them.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "boxproof/report.hpp"
#include "src/cli/completion.hpp"
#include "src/cli/describe.hpp"

namespace boxproof::cli {
namespace {

// Bash takes words apart at "=" where COMP_WORDBREAKS holds it, and puts the answer behind the last "=".
constexpr std::string_view functions = R"bash(
# Adds these lines to the answer; $lead stands before them, $typed is what bash keeps of that.
_boxproof_add() {
  local word
  while IFS= read -r word; do
    [[ -z $word ]] && continue
    word=$lead$word
    COMPREPLY+=("${word#"$typed"}")
  done <<< "$1"
}

# Adds what completes $value out of these words.
_boxproof_words() {
  _boxproof_add "$(compgen -W "$*" -- "$value")"
}

# Adds the folders, and the files with these extensions; of none: all files.
_boxproof_files() {
  local extension
  compopt -o filenames 2> /dev/null
  if [[ $# -eq 0 ]]; then
    _boxproof_add "$(compgen -f -- "$value")"
  else
    _boxproof_add "$(compgen -d -- "$value")"
    for extension in "$@"; do _boxproof_add "$(compgen -f -X "!*.$extension" -- "$value")"; done
  fi
}

# Adds what completes $value, the value of an option or the argument at a place: $2 of the command $1.
_boxproof_value() {
  local choices="" files=none
  _boxproof_takes "$1" "$2"
  case $files in
    none) _boxproof_words "$choices" ;;
    any) _boxproof_files ;;
    report)
      if [[ $value == *=* ]]; then
        lead=$lead${value%%=*}=
        value=${value#*=}
        _boxproof_files
      else
        compopt -o nospace 2> /dev/null
        _boxproof_words "${choices// /= }="
      fi
      ;;
    *) IFS=" " read -r -a files <<< "$files" && _boxproof_files "${files[@]}" ;;
  esac
}

_boxproof() {
  local options="" valued="" command="" place=1 typed lead="" value word before="" i
  local -a line=()
  COMPREPLY=()
  for ((i = 1; i <= COMP_CWORD; ++i)); do
    word=${COMP_WORDS[i]}
    if [[ ${#line[@]} -gt 0 && ($word == "=" || ${COMP_WORDS[i - 1]} == "=") ]]; then
      line[${#line[@]} - 1]+=$word
    else
      line+=("$word")
    fi
  done
  value=${line[${#line[@]} - 1]}
  word=${COMP_WORDS[COMP_CWORD]}
  [[ $word == "=" ]] && word=""
  typed=${value%"$word"}

  for ((i = 0; i < ${#line[@]} - 1; ++i)); do
    word=${line[i]}
    if [[ -n $before ]]; then
      before=""  # the value of an option
    elif [[ $word == -* ]]; then
      [[ " $valued " == *" $word "* ]] && before=$word
    elif [[ -z $command ]]; then
      command=$word
      _boxproof_options "$command"
    else
      place=$((place + 1))
    fi
  done

  if [[ -n $before ]]; then
    _boxproof_value "$command" "$before"
  elif [[ $value == --*=* ]]; then
    before=${value%%=*}
    lead=$before=
    value=${value#*=}
    _boxproof_value "$command" "$before"
  elif [[ $value == -* ]]; then
    [[ -z $command ]] && _boxproof_options ""
    _boxproof_words "$options"
  elif [[ -z $command ]]; then
    _boxproof_words "$_boxproof_commands"
  else
    _boxproof_value "$command" "$place"
  fi
}

complete -F _boxproof boxproof
)bash";

std::string joined(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, " "));
}

// A row of the table of values; nothing where nothing can be offered.
std::string row(std::string_view command, std::string_view name, const ArgumentHelp& a) {
  std::string does;
  if (const auto& words = a.choices.empty() ? a.offers : a.choices; !words.empty())
    does += fmt::format(" choices=\"{}\"", joined(words));
  if (a.takes_path)
    does += fmt::format(" files=\"{}\"", !a.choices.empty() ? "report"
                                         : a.extensions.empty()
                                             ? "any"
                                             : fmt::format("{}", fmt::join(a.extensions, " ")));
  return does.empty() ? "" : fmt::format("    \"{} \"{}){} ;;\n", command, name, does);
}

}  // namespace

std::string bash_completion() {
  std::string names, options, values;
  for (const CommandHelp& c : describe_commands()) {
    std::vector<std::string> all, valued;
    for (const ArgumentHelp& a : c.options) {
      all.push_back(a.name);
      if (!a.takes_value()) continue;
      valued.push_back(a.name);
      values += row(c.name, a.name, a);
    }
    options +=
        fmt::format("    \"{}\") options=\"{}\" valued=\"{}\" ;;\n", c.name, joined(all), joined(valued));
    for (std::size_t i = 0; i < c.positionals.size(); ++i) {
      const ArgumentHelp& a = c.positionals[i];
      values += row(c.name, a.repeatable ? "[0-9]*" : fmt::format("{}", i + 1), a);
    }
    if (!c.name.empty()) names += (names.empty() ? "" : " ") + c.name;
  }
  return fmt::format(
             "# Completes the command line of boxproof {0} in bash. Made by \"boxproof completion bash\".\n"
             "# shellcheck shell=bash disable=SC2034  # some variables are read by the function that calls\n\n"
             "_boxproof_commands=\"{1}\"\n\n"
             "# The options of a command, and those of them that take a value.\n"
             "_boxproof_options() {{\n  case $1 in\n{2}  esac\n}}\n\n"
             "# What an option or the argument at a place takes: words, or files with some extensions.\n"
             "_boxproof_takes() {{\n  case \"$1 $2\" in\n{3}  esac\n}}\n",
             version(), names, options, values) +
         std::string(functions);
}

}  // namespace boxproof::cli
