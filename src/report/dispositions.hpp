// What becomes of the boxes in which something was seen.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/report.hpp"

namespace boxproof::report {

struct BoxDisposition {
  std::optional<std::uint32_t> box;  // in the design; nothing: it is not on the plan, as `seen` says, too
  std::string_view id;
  Disposition disposition;
  std::string seen;  // "burned-bus, 2 × loose-terminal (repair)"
};
// Those of the boxes that have one, in the order of the plan, then boxes that are not on it.
std::vector<BoxDisposition> dispositions(const ReportInput& report);

// A line a box: its one disposition and all that was seen. Nothing where nothing was seen.
void write_dispositions(const ReportInput& report, const Write& write);

}  // namespace boxproof::report
