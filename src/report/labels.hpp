// The label schedule: what to have made, where it goes, under which section.
#pragma once

#include <string_view>
#include <vector>

#include "boxproof/labels.hpp"
#include "boxproof/report.hpp"

namespace boxproof::report {

struct LabelReport {
  const Design& design;
  const Edition& edition;
  std::vector<const Combiner*> boxes;       // those to list, in the order of the plan, or as found
  bool whole_site = true;                   // the site's own labels too
  std::vector<std::string> overrides = {};  // what the command line put in place of the file's values
  Basis basis = Basis::design;              // as built: visited boxes are those found
  std::size_t visited = 0;                  // how many of the boxes listed are
  ProgressHook progress = {};
};

// For people: like labels of many boxes as one entry.
void write_labels_text(const LabelReport& report, const Write& write);
// One row a label and box (RFC 4180), for whoever makes them.
void write_labels_csv(const LabelReport& report, const Write& write);
// The format boxproof-labels/1.
void write_labels_json(const LabelReport& report, const Write& write);

// Calls `look` with every entry: the site's, then box by box.
template <class Look>
void each_label(const LabelReport& r, Look&& look) {
  if (r.whole_site)
    for (const LabelEntry& e : label_schedule(r.design, r.boxes, r.edition)) look(e);
  BoxFacts facts;
  constexpr std::size_t now_and_then = 256;  // boxes
  std::size_t done = 0;
  for (const Combiner* box : r.boxes) {
    box_facts(r.design, *box, r.edition, facts);
    for (const LabelEntry& e : label_schedule(r.design, *box, facts, r.edition)) look(e);
    if (++done % now_and_then == 0 && r.progress) r.progress(done, r.boxes.size());
  }
}

// How an entry came into the schedule: "yes" (the edition asks for it), "not stated" (whether it does hangs
// on a value that the plan does not state), "plan" (only the plan calls for it).
std::string_view needed_word(const LabelEntry& entry);

}  // namespace boxproof::report
