// The field sheet: what to count at each box. One sheet, as text for paper, as a CSV field record to be
// filled in, and as a page to count on.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "boxproof/report.hpp"

namespace boxproof::report {

// What to look at again in a box: something that an earlier report has open.
struct AgainLine {
  Severity severity = Severity::query;
  std::string rule, message;
  bool on_plan = false;           // the plan has it, and the box itself may
  std::string look;               // "fuse A, modules in series"
  std::vector<std::string> keys;  // of the field record, all to be stated again; empty: the box as a whole
};

// Of the sheet of a second visit.
struct SecondVisit {
  std::string mark;  // tells the report from others: what was counted on one visit is not another's
  std::string date;  // of the earlier visit; empty: not known
  bool was_visited;  // the report is of a visit, not of a plan alone
  std::vector<std::string> remarks;    // what makes the report fit the plan not wholly, a sentence each
  std::vector<std::string> elsewhere;  // what is open of the site and of boxes that are not on the plan
};

struct TallyBox {
  const Combiner* box = nullptr;
  std::string why;  // "thin margin, 0.4 % to fuse", "at random"; empty where all or named boxes are taken
  std::vector<AgainLine> again = {};  // worst first
};

struct TallySheet {
  const DesignFile& design;
  const Edition& edition;
  std::vector<TallyBox> boxes;  // in the order of the plan
  // How the boxes were chosen, a sentence each: "All 50 boxes of the plan."; of a sample its size, its
  // source, its seed, and what it does not tell.
  std::vector<std::string> how;
  std::vector<std::string> overrides;  // what the command line put in place of the file's values
  std::optional<SecondVisit> second = {};
};

// 80 columns, to be printed and written on.
void write_tally_text(const TallySheet& sheet, const Write& write);

// The columns of a field record in CSV, ids filled in, counts open: boxproof check --asbuilt reads it back.
void write_tally_csv(const TallySheet& sheet, const Write& write);

// One page that works without a network, keeps its counts in the browser and exports boxproof-asbuilt/1.
void write_tally_html(const TallySheet& sheet, const Write& write);

}  // namespace boxproof::report
