// Sums over the boxes of a site.
#pragma once

#include <functional>

#include "boxproof/rule.hpp"

namespace boxproof {

// Totals of the plan, or, with `visited`, of the site as built: what was found in box number i, or null.
SiteTotals totals_of(const Design& design, const Edition& edition,
                     const std::function<const VisitedBox*(std::size_t)>& visited);

}  // namespace boxproof
