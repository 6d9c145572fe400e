// What to look at on a second visit: what an earlier report has open, box by box, and which keys of the new
// field record close it.
#pragma once

#include <string>
#include <vector>

#include "boxproof/compare.hpp"

namespace boxproof {

struct AgainItem {
  const Finding* finding = nullptr;
  // All of them must be stated again. Empty: the finding is of the box as a whole, and any visit shows it.
  std::vector<std::string> keys;
  std::vector<std::string> more;  // what the rule asks for next, where these say the same as before
};

struct Again {
  // Of each box of the design, worst first, then as in the report; empty: nothing to look at there.
  std::vector<std::vector<AgainItem>> boxes;
  std::vector<const Finding*> site;       // of the site as found
  std::vector<const Finding*> strangers;  // of boxes that this design does not have
  // What is not for the roof: findings that only the plan can close, advice, what is set aside.
  std::size_t of_plan = 0, advice = 0, agreed = 0;
};

// Findings at query or above are open. The report must outlive what comes out.
Again look_again(const ReportFile& report, const Design& design);

}  // namespace boxproof
