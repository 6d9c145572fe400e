// What a rule has to say: findings are values, and every report is written from them.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "boxproof/working.hpp"

namespace boxproof {

struct Rule;

// From worst to mildest.
enum class Severity : std::uint8_t { hazard, correction, query, advice };
inline constexpr std::array<std::string_view, 4> severity_names{"hazard", "correction", "query", "advice"};

enum class Basis : std::uint8_t { design, as_built };
inline constexpr std::array<std::string_view, 2> basis_names{"design", "as-built"};

// From best to worst.
enum class Verdict : std::uint8_t { accept, clarify, not_visited, correct, stop };
inline constexpr std::array<std::string_view, 5> verdict_names{"accept", "clarify", "not-visited", "correct",
                                                               "stop"};

// What becomes of a part that was seen in a bad state. The first outweighs the next.
enum class Disposition : std::uint8_t { replace, repair, correct, explain };
inline constexpr std::array<std::string_view, 4> disposition_names{"replace", "repair", "correct", "explain"};

// A value in a finding: none, a number in the finding's unit, or words.
using Amount = std::variant<std::monostate, double, std::string>;

struct FilePlace {
  std::string file;
  std::string pointer;                 // RFC 6901
  std::uint32_t line = 0, column = 0;  // from 1, columns in code points; 0: not located yet
  // Behind the value's own bytes on its first line: a value that goes on below is pointed to by that line.
  std::uint32_t end_line = 0, end_column = 0;
};

struct Finding {
  const Rule* rule = nullptr;
  std::vector<const Rule*> also;  // of a query for a missing value: the other rules that cannot be judged
  Severity severity = Severity::query;
  Basis basis = Basis::design;
  std::optional<std::uint32_t>
      box;              // index in the design; nothing: the site, or a box that is not on the plan
  std::string box_id;   // empty: the site
  std::string part;     // of the box: "circuit 1", "output", "fuse"; unique together with rule and box
  std::string message;  // one sentence with both numbers and their units
  Amount found, required;
  std::string unit;
  std::string section;
  std::string ask;                         // what to do about it, where that is not the rule's remedy
  std::optional<Disposition> disposition;  // of a part that was seen in a bad state
  std::vector<std::string> amended;  // keys of the edition behind this finding that a local amendment changed
  bool lacking = false;              // a query for a value that is not stated; its part is the value
  bool worse_as_found = false;       // of the plan, and the box as found is farther off
  bool in_record = false;            // the place is in the field record, not in the design
  bool in_plan = false;              // of a box as found: the place is in the design all the same
  bool known = false;                // on the baseline: no news
  FilePlace place;
  // Of a finding that holds two accounts against each other, the other account's place; no file: there is
  // none.
  FilePlace other_account;
  Working working;  // filled only when asked for

  // Whether it is the rule's, or a query for a value that the rule needs too.
  bool speaks_for(const Rule& of) const {
    return rule == &of || std::find(also.begin(), also.end(), &of) != also.end();
  }
};

// 16 hexadecimal digits made of rule, box and part: the same finding keeps it when the file around it
// changes.
std::string fingerprint(const Finding& finding);

}  // namespace boxproof
