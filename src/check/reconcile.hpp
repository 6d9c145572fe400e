// Two accounts of one box told as one: what the plan had already, what is new as found, what is gone.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "boxproof/asbuilt.hpp"
#include "boxproof/finding.hpp"

namespace boxproof {

// The findings of a box as planned, and of the same box as found, told as one list in which each matter
// stands once. What was there before is not said again, and says so where it is there with other numbers;
// what the box as found has not, or has worse or milder, is set aside as gone, and stands as the box as found
// has it.
void reconcile(std::vector<Finding>& planned, std::vector<Finding>& built, std::vector<Finding>& gone);

// Where in the record the value stands that made a finding appear on the box as built: the record's own key,
// where it states one that can have done it, or else the part that the key would be in.
std::string place_in_record(const Finding& f, const VisitedBox& visited, std::uint32_t box,
                            std::uint32_t record_index);

// Where the other account of such a finding stands, before its own place is put in the record: on the plan
// the value that it is about, or in the record the label whose contents are the plan's. Empty: there is none.
std::string other_account(const Finding& f, const Combiner& plan, const Combiner& found,
                          const VisitedBox& visited, std::uint32_t box, std::uint32_t record_index);

}  // namespace boxproof
