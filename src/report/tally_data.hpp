// What the page of the field sheet knows of the plan, as JSON for its script.
#pragma once

#include <string>

#include "src/report/tally.hpp"

namespace boxproof::report {

// One object: the site, a key and a stamp under which the browser keeps counts, the words of a field record,
// the kinds of box (each once), the boxes of the sheet, and the plan's other boxes. Whatever is only shown is
// plain(); ids are the plan's own, since they go into the record, and hold no byte beyond ASCII.
std::string tally_data(const TallySheet& sheet);

// What the plan says of a box in words, and what its numbers are; all but its id and where it stands.
// Boxes that have the same are of one kind.
std::string tally_kind(const TallySheet& sheet, const Combiner& box);

}  // namespace boxproof::report
