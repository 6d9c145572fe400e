// The design file that a schedule and a site make.
#pragma once

#include <string>

#include "src/draft/schedule.hpp"
#include "src/draft/site_part.hpp"

namespace boxproof::draft {

// The same inputs give the same bytes.
std::string design_text(const Schedule& schedule, const SitePart& site);

}  // namespace boxproof::draft
