// What like boxes of a schedule have in common, stated once as a box type.
//
// A type states what more than half of its boxes state, or of those boxes that have the part, if that is most
// of them; a box is a merge patch onto it. Where the schedule
// says of what type each box is, that counts. Where it has no column for it, boxes are of one type if they
// agree in all that makes a kind of box: everything but id, inverter, sheet, location, circuits, labels and
// the length of the output. A kind of which there is only one box makes no type.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "src/draft/schedule.hpp"

namespace boxproof::draft {

struct FoundType {
  std::string id;
  Box base;
};

struct FoundTypes {
  std::vector<FoundType> types;       // in the order of their first boxes
  std::vector<std::uint32_t> of_box;  // for each box the number of its type, from 1; 0: none
};

FoundTypes find_types(const Schedule& schedule);

}  // namespace boxproof::draft
