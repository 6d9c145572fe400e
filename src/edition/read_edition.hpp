// An edition's data, merged, into the typed edition.
#pragma once

#include "boxproof/edition.hpp"
#include "src/read/object.hpp"

namespace boxproof::read {

// Reads a merged edition; what does not fit goes to `problems`, at the place of the topmost patch that says
// it.
Edition read_edition(const Field& data, Problems& problems);

}  // namespace boxproof::read
