// What the help and the manual say of each command beside its options.
#pragma once

#include <string_view>
#include <vector>

namespace boxproof::cli {

struct Example {
  std::string_view line;  // "boxproof check plant.json"
  std::string_view does;  // what it is for, without capital and full stop
};

struct CommandNotes {
  std::string_view name;   // empty: the program itself
  std::string_view group;  // heading under which the program's help names it
  std::vector<std::string_view> paragraphs;
  std::vector<Example> examples;
};

// Throws std::out_of_range for a command without notes.
const CommandNotes& notes_of(std::string_view command);

struct StatusNote {
  int status;
  std::string_view means;
};

// What the exit statuses of a command tell, from 0 on. Only some commands fail on what they find; only some
// read an input.
std::vector<StatusNote> statuses_of(std::string_view command);

}  // namespace boxproof::cli
