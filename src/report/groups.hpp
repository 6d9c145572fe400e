// The same finding on many boxes, made one entry.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/finding.hpp"

namespace boxproof::report {

struct Group {
  std::vector<const Finding*> findings;  // in report order
  const Finding& first() const { return *findings.front(); }
};

// Worst first, then by rule, then in the order in which they first appear.
std::vector<Group> group(const std::vector<const Finding*>& findings);
std::vector<Group> group(const std::vector<Finding>& findings);

// "1012.4 to 1022.7 V", or the one value that all have. What is required and not the same for all is told
// apart: "15 A, 30 A (A-06)", or of many "15 A … 30 A, by box".
std::string range_of(const Group& g, Amount Finding::*value);

// Ids of the boxes of the group, once each, run together.
std::string boxes_of(const Group& g);
std::size_t box_count(const Group& g);

// The parts of the boxes that the group concerns, once each.
std::string parts_of(const Group& g);

}  // namespace boxproof::report
