// The columns of a combiner schedule, told to whoever makes one.
#pragma once

#include "boxproof/write.hpp"

namespace boxproof::draft {

void write_column_list(const Write& write);

}  // namespace boxproof::draft
