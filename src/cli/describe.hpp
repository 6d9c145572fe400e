// What the command line takes, as data. Help, manual pages and completion are made of it, so that none of
// them can miss an option.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace boxproof::cli {

// An option, or an argument without a name.
struct ArgumentHelp {
  std::string name;                          // "--format"; where it has none, what stands for it: "DESIGN"
  std::string short_name;                    // "-h"; mostly empty
  std::string type_name;                     // what stands for the value: "FORMAT"; empty: it takes none
  std::string description;                   // without capital and full stop
  std::string range;                         // of a number: "-70 to 30"; mostly empty
  std::string group;                         // heading in the help
  std::vector<std::string> choices;          // the only values; empty: there are others
  std::vector<std::string> offers;           // values to offer that are too many for the help
  bool takes_path = false;                   // a value, or what stands behind the = of one, is a path
  std::vector<std::string_view> extensions;  // of the files that it takes; empty: any
  bool required = false, repeatable = false;
  std::vector<std::string> needs, excludes;  // names of options

  bool takes_value() const { return !type_name.empty(); }
};

struct CommandHelp {
  std::string name;  // empty: the program itself
  std::string summary;
  std::vector<ArgumentHelp> positionals, options;
};

// The program itself, then its commands.
std::vector<CommandHelp> describe_commands();

// Adds what the parser does not know: which values are paths, and of which files, by the word that stands for
// the value; which ids to offer. Throws std::logic_error for a word that stands for nothing known: a new one
// gets its place in the table of describe.cpp.
void classify(CommandHelp& command);

// "boxproof check [OPTIONS] [DESIGN...]"
std::string usage(const CommandHelp& command);

// The description, with what the parser knows beside it: range, choices that it does not name, and options
// that it goes with or not.
std::string whole_description(const ArgumentHelp& argument);

}  // namespace boxproof::cli
