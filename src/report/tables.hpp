// Topics of the tables that have a file of their own.
#pragma once

#include "boxproof/edition.hpp"
#include "boxproof/report.hpp"

namespace boxproof::report {

void write_enclosures(const Edition& e, const Write& write);
void write_labels(const Edition& e, const Write& write);
void write_protection(const Edition& e, const Write& write);

}  // namespace boxproof::report
