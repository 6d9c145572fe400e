// Two reports of one site held against each other: what was corrected, what is still open, what is new.
//
// A finding that the later report does not have is corrected only if that report could have found it. What a
// second visit did not look at again, what another edition or another design temperature would not find, what
// cannot be judged any more because a value was taken out of the plan: all that is not looked at again, and
// counts as open.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "boxproof/finding.hpp"
#include "boxproof/read.hpp"
#include "boxproof/rule.hpp"

namespace boxproof {

// A computed value of a box, as reports name it.
struct ValueName {
  std::string_view key, words, unit;
};
inline constexpr std::array<ValueName, 7> box_values{
    {{"max_v", "highest string voltage", "V"},
     {"cold_factor", "cold factor", ""},
     {"out_max_a", "output current", "A"},
     {"out_continuous_a", "continuous output current", "A"},
     {"strings", "strings", ""},
     {"modules", "modules", ""},
     {"disconnect_min_a", "least rating of the disconnect", "A"}}};
inline constexpr std::array<ValueName, 10> circuit_values{
    {{"max_v", "string voltage", "V"},
     {"max_a", "current of an input", "A"},
     {"back_a", "current from other strings", "A"},
     {"fuse_min_a", "least fuse", "A"},
     {"fuse_suggested_a", "suggested fuse", "A"},
     {"ampacity_a", "ampacity", "A"},
     {"terminal_ampacity_a", "ampacity at the terminals", "A"},
     {"correction", "correction factor", ""},
     {"adjustment", "adjustment factor", ""},
     {"drop_pct", "voltage drop", "%"}}};
inline constexpr std::array<ValueName, 5> output_values{
    {{"ampacity_a", "ampacity", "A"},
     {"terminal_ampacity_a", "ampacity at the terminals", "A"},
     {"correction", "correction factor", ""},
     {"adjustment", "adjustment factor", ""},
     {"drop_pct", "voltage drop", "%"}}};
inline constexpr ValueName fuse_needed_value{"fuse_needed", "overcurrent protection", ""};
inline constexpr ValueName suggested_size_value{"suggested_size", "suggested size", ""};
inline constexpr ValueName disposition_value{"disposition", "disposition", ""};

// A box in a report. A value that could not be computed is no number (NaN).
struct ReportedBox {
  struct Circuit {
    std::string id;  // empty: the plan gives none
    std::optional<bool> fuse_needed;
    std::array<double, circuit_values.size()> values{};
  };
  std::string id;
  Verdict verdict = Verdict::accept;
  std::optional<Disposition> disposition;
  std::string looked_at;  // keys of the field record, a line end before and behind each; empty: not visited
  std::array<double, box_values.size()> values{};
  std::vector<Circuit> circuits;
  std::array<double, output_values.size()> output{};
  std::string suggested_size;

  bool visited() const { return !looked_at.empty(); }
};

// A finding in a report. Its rule is the program's own, or stands in ReportFile::strange_rules.
struct ReportedFinding {
  Finding finding;
  std::uint64_t fingerprint = 0;
  std::optional<std::uint32_t> exception;  // of an agreed one: index in ReportFile::exceptions
};

struct ReportedException {
  std::string reason, agreed_by, expires;  // empty: no end
};

// A report (boxproof-report/1), read back.
struct ReportFile {
  std::string name;     // as messages show it
  std::string version;  // of the program that made it
  std::string data;     // revision of the data that judged; empty: not stated
  std::string edition;
  std::vector<std::pair<std::string, std::string>> amendments;  // key, and what became of the value
  std::vector<std::string> overrides;
  Basis basis = Basis::design;
  bool selected = false;                           // only some boxes are in it
  std::string visit_date;                          // empty: no visit, or no day
  std::string site;                                // its name
  std::optional<double> low, high;                 // design temperatures, °C
  std::optional<std::vector<std::string>> permit;  // totals that the permit states; nothing: not told
  Verdict verdict = Verdict::accept;
  std::string exceptions_on;  // empty: no agreed exceptions were looked at
  std::vector<ReportedBox> boxes;
  std::vector<ReportedFinding> findings, gone, agreed;
  std::vector<ReportedException> exceptions;
  // Rules that this program does not have, by id; only `id` and `title` are filled.
  std::map<std::string, Rule, std::less<>> strange_rules;
};

// Reads a report. Keys that are not known are passed over: a later program may write more. Throws InputError
// with every problem of the file.
ReportFile read_report(const Document& document);

// What became of a finding.
enum class Outcome : std::uint8_t { appeared, open, reopened, unseen, agreed, corrected, dropped };
inline constexpr std::array<std::string_view, 7> outcome_names{
    "new", "still-open", "open-again", "not-looked-at-again", "agreed", "corrected", "no-longer-on-plan"};
// Whether it keeps an approval up.
constexpr bool is_open(Outcome o) {
  return o == Outcome::appeared || o == Outcome::open || o == Outcome::reopened || o == Outcome::unseen;
}

// Why it became that. `detail` of Compared says which.
enum class Reason : std::uint8_t {
  none,
  // new
  new_box,           // its box is new
  not_shown_before,  // the earlier report shows only some boxes, and not this one
  visited_before,    // nobody visited the box, and the earlier report says that it was visited then
  was_gone,          // the plan had it before, and the box as found had not
  no_rule_before,    // the earlier report's edition does not have the rule
  other_part,        // the rule had this box before, at another part: detail
  first_visit,       // found on the box itself, which nobody had visited before
  // not looked at again
  not_shown,          // the later report shows only some boxes, and not this one, or not the site
  plan_only,          // found on the box itself, and the later report is a check of the plan alone
  not_visited,        // found on the box itself, and nobody visited it again
  not_stated,         // visited, but the record does not say it again: detail
  not_met,            // a box that is not on the plan, and the record does not have it again
  behind_site,        // of the site as found, and boxes behind it were not visited again: detail
  no_rule,            // the edition does not have the rule, or an amendment took it away
  other_code,         // the rule has other numbers there: detail
  other_temperature,  // another design temperature was given on the command line
  asks_first,         // the rule cannot judge there any more: a value is not stated: detail
  behind_boxes,       // it hangs on other boxes as found, of which less is stated now: detail
  no_longer_stated,   // what it was judged by is not stated or cannot be computed any more: detail
  // agreed
  agreed_new,
  agreed_now,
  agreed_before,
  agreed_unseen,
  // corrected
  as_found,     // on the box; the plan still has it
  was_agreed,   // it was set aside before
  misread_id,   // a box that is not on the plan: its id was misread for detail
  not_there,    // a box that is not on the plan: every box was visited, and it was not met again
  now_on_plan,  // a box that was not on the plan, and is now
  now_part,     // the rule has this box now at another part: detail
};
inline constexpr std::array<std::string_view, 30> reason_names{
    "none",           "new-box",           "not-shown-before", "visited-before", "was-gone",
    "no-rule-before", "other-part",        "first-visit",      "not-shown",      "plan-only",
    "not-visited",    "not-stated",        "not-met",          "behind-site",    "no-rule",
    "other-code",     "other-temperature", "asks-first",       "behind-boxes",   "no-longer-stated",
    "agreed-new",     "agreed-now",        "agreed-before",    "agreed-unseen",  "as-found",
    "was-agreed",     "misread-id",        "not-there",        "now-on-plan",    "now-part"};

struct Compared {
  Outcome outcome = Outcome::appeared;
  Reason reason = Reason::none;
  std::string detail;
  const ReportedFinding* before = nullptr;  // null: not in that report
  const ReportedFinding* after = nullptr;

  const Finding& finding() const { return after != nullptr ? after->finding : before->finding; }
};

struct ValueChange {
  std::string where;  // "circuit near", "output"; empty: the box
  const ValueName* name = nullptr;
  Amount before, after;
};

// A box that has nothing above advice in the later report, and is not as it was.
struct ChangedBox {
  const ReportedBox* before = nullptr;
  const ReportedBox* after = nullptr;
  std::vector<ValueChange> changes;
  bool asked = false;  // the earlier report had something above advice there
};

struct Comparison {
  const ReportFile* before = nullptr;
  const ReportFile* after = nullptr;
  std::vector<std::string> remarks;  // what makes the two not comparable, or not wholly; a sentence each
  // Every finding of the two reports, agreed ones too, exactly once: by outcome, then severity, then rule,
  // then as in the report.
  std::vector<Compared> findings;
  std::vector<std::string_view> new_boxes, dropped_boxes;
  std::vector<ChangedBox> changed;
  bool nothing_changed = false;

  using Counts = std::array<std::size_t, severity_names.size()>;
  Counts counts(Outcome outcome) const;
  Counts open_counts() const;  // what is_open()
  // What was not looked at again and is worse than the later verdict, which says nothing of it.
  Counts beyond_verdict() const;
};

// Compares two reports, which must outlive what comes out.
Comparison compare(const ReportFile& before, const ReportFile& after);

}  // namespace boxproof
