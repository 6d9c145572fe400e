// What becomes of the boxes in which something was seen.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "boxproof/report.hpp"

namespace boxproof::report {

struct BoxDisposition {
  std::uint32_t box;  // in the design
  Disposition disposition;
  std::string seen;  // "burned-bus, 2 × loose-terminal (repair)"
};
// Those of the boxes that have one, in the order of the plan.
std::vector<BoxDisposition> dispositions(const Judgement& judgement);

// A line a box: its one disposition and all that was seen. Nothing where nothing was seen.
void write_dispositions(const ReportInput& report, const Write& write);

}  // namespace boxproof::report
