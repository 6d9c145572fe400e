// Agreed exceptions (boxproof-exceptions/1): where an authority accepts another method than a rule's on named
// boxes. They set findings aside in a section of their own; they never hide one.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/date.hpp"
#include "boxproof/finding.hpp"

namespace boxproof {

struct Design;
struct Judgement;

struct Exception {
  const Rule* rule = nullptr;
  std::vector<std::string> boxes;  // ids and shell-style patterns; "*" has the site's own findings too
  // Paths of design files and shell-style patterns, from the folder of the exceptions file; none: every
  // design.
  std::vector<std::string> designs;
  std::string reason, agreed_by;
  Date date{};                  // the first day in force
  std::optional<Date> expires;  // the last day in force; nothing: no end
  bool hazard = false;          // covers hazards too
  FilePlace place;              // of the entry
};

struct ExceptionsFile {
  std::string name;
  std::vector<Exception> entries;
};

// The day on which an entry must be in force, and who said so.
enum class DayFrom : std::uint8_t { command_line, visit, today };
struct ExceptionDay {
  Date date{};
  DayFrom from = DayFrom::today;
};

// What became of an entry.
enum class ExceptionState : std::uint8_t {
  applied,         // in force, and findings are set aside under it
  worse_as_found,  // in force, but the box as found is farther off than the plan that was agreed to
  hazards_only,    // in force, but it has only hazards, which it does not cover
  shared_only,     // in force, but it has only queries that other rules, not excepted, ask too
  covered_before,  // in force, but an earlier entry has its findings
  matches_nothing,
  not_yet,
  expired,
};
inline constexpr std::array<std::string_view, 8> exception_state_names{
    "applied",        "worse-as-found",  "hazards-only",     "shared-only",
    "covered-before", "matches-nothing", "not-yet-in-force", "expired"};

struct ExceptionResult {
  Exception entry;
  std::size_t index = 0;  // in the file
  ExceptionState state = ExceptionState::matches_nothing;
  bool matched = false;      // it names findings, in force or not
  std::size_t findings = 0;  // set aside under it
  // Findings of its rule on its boxes that stand; of an entry in force, by what keeps them.
  std::size_t standing = 0, worse = 0, hazards = 0, shared = 0;
  std::vector<std::string> unknown;  // of its boxes: what names no box of the plan or of the field record
};

// A finding that was set aside.
struct AgreedFinding {
  Finding finding;
  std::size_t exception = 0;  // index of the entry that it falls under: the first that covers it
};

// Moves the findings that the file's entries cover on that day out of the judgement's findings into its
// agreed ones, says what became of each entry, and makes counts and verdicts anew without them. `path` is the
// design's, from the folder of the exceptions file: entries of other designs are counted and left out.
//
// An entry covers a finding of its rule on its boxes from `date` to the end of `expires`, a hazard only if
// the entry says so. A finding of the plan from which the box as found is farther off stands: nobody agreed
// to that. A query for a missing value that several rules ask for needs an entry for each of them.
void apply_exceptions(Judgement& judgement, const Design& design, const ExceptionsFile& file,
                      ExceptionDay day, std::string_view path = {});

}  // namespace boxproof
