// The large groups of an edition's data, each read in a file of its own.
#pragma once

#include "boxproof/edition.hpp"
#include "src/edition/group.hpp"

namespace boxproof::read {

void read_conductors(const Group& g, Edition& e);
void read_labels(const Group& g, LabelRules& rules);
void read_measured(const Group& g, Edition& e);
void read_enclosure(const Group& g, EnclosureRules& rules);
void read_protection(const Group& g, Edition& e);

}  // namespace boxproof::read
