// Input files with something wrong in them, and what the reader says about it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/read.hpp"

namespace boxproof::test {

// In these functions a ' stands for the " of JSON and of messages, which would need a backslash each.
std::string as_json(std::string_view text);

// The text with `from`, which it holds exactly once, changed into `to`.
std::string changed(std::string_view text, std::string_view from, std::string_view to);

// What the reader tells, one line a problem; empty where it reads the text.
std::vector<std::string> design_problems(std::string_view text);      // as "design.json"
std::vector<std::string> record_problems(std::string_view text);      // as "record.json"
std::vector<std::string> baseline_problems(std::string_view text);    // as "b.json"
std::vector<std::string> exceptions_problems(std::string_view text);  // as "e.json"

// The same without what the JSON parser gives as its reason, in brackets: those words are the library's.
std::vector<std::string> without_reasons(std::vector<std::string> problems);

// One change to a sound file, and all that the reader then says, without the file's name and the colon behind
// it.
struct BadInput {
  std::string_view what, from, to;
  std::vector<std::string_view> lines;
};

void check_designs(std::string_view sound, const std::vector<BadInput>& table);
void check_records(std::string_view sound, const std::vector<BadInput>& table);
void check_baselines(std::string_view sound, const std::vector<BadInput>& table);
void check_exceptions(std::string_view sound, const std::vector<BadInput>& table);

// Sound files with something of everything in them, a line a part.
extern const std::string_view small_design, small_record;

}  // namespace boxproof::test
