// Combiner schedules in CSV.
#pragma once

#include "boxproof/read.hpp"
#include "src/draft/schedule.hpp"

namespace boxproof::draft {

// Reads the schedule of a site. Throws InputError with every problem of the file, each at its cell; what the
// reader of designs says of the boxes is among them.
Schedule read_schedule(const Document& document, Design site, const ProgressHook& progress = {});

}  // namespace boxproof::draft
