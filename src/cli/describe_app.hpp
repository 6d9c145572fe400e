// The description of the command line out of its parser. Of options.cpp alone: it includes CLI11.
#pragma once

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string>
#include <vector>

#include "src/cli/describe.hpp"

namespace boxproof::cli {

// The words of a list, as one_of() describes it: "{text,csv}".
inline std::vector<std::string> listed(const std::string& description) {
  std::vector<std::string> out;
  std::string word;
  for (const char c : description.substr(1))
    if (c == ',' || c == '}') {
      out.push_back(word);
      word.clear();
    } else {
      word += c;
    }
  return out;
}

inline ArgumentHelp describe(const CLI::Option& option) {
  ArgumentHelp out;
  const bool positional = option.get_positional();
  out.name = positional ? option.get_name(true) : "--" + option.get_lnames().front();
  if (!option.get_snames().empty()) out.short_name = "-" + option.get_snames().front();
  out.description = option.get_description();
  out.group = option.get_group();
  out.required = option.get_required();
  if (option.get_items_expected_max() > 0) {
    // "FORMAT:{text,csv}": the word that stands for the value, then what its validator says of it.
    const std::string type = option.get_type_name();
    const auto colon = type.find(':');
    out.type_name = positional ? out.name : type.substr(0, colon);
    const std::string values = colon == std::string::npos ? "" : type.substr(colon + 1);
    if (values.starts_with("{"))
      out.choices = listed(values);
    else
      out.range = values;
    out.repeatable = option.get_multi_option_policy() == CLI::MultiOptionPolicy::TakeAll ||
                     option.get_items_expected_max() > 1;
  }
  // Sets of pointers: in the order of the names.
  for (const CLI::Option* other : option.get_needs()) out.needs.push_back(other->get_name());
  for (const CLI::Option* other : option.get_excludes()) out.excludes.push_back(other->get_name());
  std::sort(out.needs.begin(), out.needs.end());
  std::sort(out.excludes.begin(), out.excludes.end());
  return out;
}

inline CommandHelp describe(const CLI::App& app, std::string name) {
  CommandHelp out{std::move(name), app.get_description(), {}, {}};
  for (const CLI::Option* option : app.get_options())
    (option->get_positional() ? out.positionals : out.options).push_back(describe(*option));
  return out;
}

}  // namespace boxproof::cli
