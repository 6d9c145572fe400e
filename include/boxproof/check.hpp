// The judgement of a whole site.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/baseline.hpp"
#include "boxproof/exceptions.hpp"
#include "boxproof/finding.hpp"
#include "boxproof/progress.hpp"
#include "boxproof/read.hpp"
#include "boxproof/rule.hpp"

namespace boxproof {

struct CheckOptions {
  std::vector<std::string> boxes;  // shell-style patterns of ids; empty: all boxes
  bool show_work = false;
  ProgressHook progress = {};
};

struct BoxResult {
  std::uint32_t index = 0;  // in the design
  Verdict verdict = Verdict::accept;
  std::optional<std::uint32_t> visited;    // its place in the field record
  std::optional<Disposition> disposition;  // the weightiest of its findings; nothing: none has one
};

// What a baseline did: its day and reason, and its entries of this design that cover nothing.
struct BaselineUse {
  std::string name, reason;
  Date date{};
  std::vector<BaselineEntry> stale = {};   // nothing of their fingerprint is found any more
  std::vector<BaselineEntry> graver = {};  // their findings are graver than they were, and count
};

// What came out. Findings are in report order: the site's, then box by box as in the plan (worst first, then
// by rule), then boxes that are not on the plan.
struct Judgement {
  Basis basis = Basis::design;
  Verdict verdict = Verdict::accept;
  SiteTotals totals;
  std::array<std::size_t, severity_names.size()> counts{};  // findings by severity
  std::vector<BoxResult> boxes;
  std::vector<Finding> findings;
  // Findings of the plan that are not so on the box as found: a query that the field record answers, a part
  // that was changed, a matter that stands as built with another severity. Not counted.
  std::vector<Finding> gone;
  bool selected = false;  // by CheckOptions::boxes: the site's own findings are left out
  // By apply_exceptions(); nothing was set aside where there is no day.
  std::optional<ExceptionDay> exceptions_day;
  std::vector<ExceptionResult> exceptions;  // those of this design, in the order of the file
  std::size_t exceptions_elsewhere = 0;     // entries that name other designs
  bool exceptions_idle_left_out = false;    // in a run of many: entries without a finding of this design
  std::vector<AgreedFinding> agreed;        // in report order
  // By mark_known(); nothing: there is no baseline.
  std::optional<BaselineUse> baseline;
};

// Judges a design, alone or with a field record. Every finding has its place.
Judgement check(const DesignFile& design, const Edition& edition, const RecordFile* record,
                const CheckOptions& options);

// The box as found: the plan with whatever the record says in its place. Parts that the record changes are
// kept in `own`, which must outlive the returned box.
struct FoundParts {
  std::deque<Conductor> conductors;
};
Combiner as_built(const Combiner& plan, const VisitedBox& visited, FoundParts& own);

// Facts of a judged box: as built where it was visited, else as planned. `own` must live as long as the
// facts.
struct FoundBox {
  FoundParts parts;
  Combiner box;
};
void facts_of(const DesignFile& design, const Edition& edition, const RecordFile* record,
              const BoxResult& result, FoundBox& own, BoxFacts& facts);

// Shell-style pattern: * any text, ? any character, [a-c] a set.
bool matches(std::string_view pattern, std::string_view text);
bool matches_any(const std::vector<std::string>& patterns, std::string_view text);

// Whether a box is among those asked for: one of the patterns has its id, or there are none.
bool is_chosen(const std::vector<std::string>& patterns, std::string_view id);

}  // namespace boxproof
