#include "src/cli/describe.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <stdexcept>

#include "boxproof/rule.hpp"

namespace boxproof::cli {
namespace {

struct ValueType {
  std::string_view name;
  bool path;
  std::vector<std::string_view> extensions = {};
};

// The words that stand for values. Those of paths say which files to offer.
const std::vector<ValueType>& value_types() {
  static const std::vector<ValueType> types{{"DESIGN", true, {"json"}},
                                            {"RECORD", true, {"json", "csv"}},
                                            {"REPORT", true, {"json"}},
                                            {"BEFORE", true, {"json"}},
                                            {"AFTER", true, {"json"}},
                                            {"SCHEDULE", true, {"csv"}},
                                            {"FILE", true, {"json"}},
                                            {"FORMAT=FILE", true},
                                            {"CELSIUS", false},
                                            {"ID", false},
                                            {"N", false},
                                            {"TEXT", false},
                                            {"YYYY-MM-DD", false}};
  return types;
}

bool has_word(std::string_view text, std::string_view word) {
  const auto letter = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
  };
  for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
    const auto behind = at + word.size();
    if ((at == 0 || !letter(text[at - 1])) && (behind == text.size() || !letter(text[behind]))) return true;
  }
  return false;
}

void classify(ArgumentHelp& argument) {
  if (!argument.takes_value()) return;
  const auto& types = value_types();
  const auto type = std::find_if(types.begin(), types.end(),
                                 [&](const ValueType& t) { return t.name == argument.type_name; });
  if (type == types.end()) {
    if (!argument.choices.empty()) return;
    throw std::logic_error(fmt::format("{} takes a {}, and describe.cpp does not say what that is",
                                       argument.name, argument.type_name));
  }
  argument.takes_path = type->path;
  if (argument.name != "--output") argument.extensions = type->extensions;  // an output may be anything
}

}  // namespace

void classify(CommandHelp& command) {
  for (ArgumentHelp& option : command.options) classify(option);
  for (ArgumentHelp& positional : command.positionals) classify(positional);
  if (command.name == "rules")
    for (const Rule* rule : all_rules()) command.positionals.front().offers.emplace_back(rule->id);
}

std::string usage(const CommandHelp& command) {
  std::string out = command.name.empty() ? "boxproof [OPTIONS] [COMMAND]"
                                         : fmt::format("boxproof {} [OPTIONS]", command.name);
  for (const ArgumentHelp& a : command.options)
    if (a.required) out += fmt::format(" {} {}", a.name, a.type_name);
  for (const ArgumentHelp& a : command.positionals) {
    const std::string name = a.name + (a.repeatable ? "..." : "");
    out += a.required ? " " + name : " [" + name + "]";
  }
  return out;
}

std::string whole_description(const ArgumentHelp& a) {
  std::string out = a.description;
  if (!a.range.empty()) out += ", " + a.range;
  const bool named = std::all_of(a.choices.begin(), a.choices.end(),
                                 [&](const std::string& word) { return has_word(a.description, word); });
  // What stands before the = of a path has been told with the option that takes it alone.
  if (!named && !a.takes_path)
    out += fmt::format("; {}{}", a.choices.size() > 1 ? "one of " : "", fmt::join(a.choices, ", "));
  if (!a.needs.empty()) out += fmt::format("; only with {}", fmt::join(a.needs, ", "));
  if (!a.excludes.empty()) out += fmt::format("; not with {}", fmt::join(a.excludes, ", "));
  return out;
}

}  // namespace boxproof::cli
