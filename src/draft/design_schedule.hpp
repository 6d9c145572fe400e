// The combiner schedule of a design, and its CSV.
#pragma once

#include <span>

#include "boxproof/read.hpp"
#include "boxproof/write.hpp"
#include "src/draft/schedule.hpp"

namespace boxproof::draft {

struct DesignSchedule {
  Schedule schedule;
  // What a schedule has no place for: remarks on boxes and box types, and types that no box is of.
  std::size_t notes = 0, unused_types = 0;
};

// Of a design that has been read without a problem. Throws InputError where a text is none that a cell can
// hold.
DesignSchedule schedule_of(const Document& document, const ProgressHook& progress = {});

// The columns that a box states something in, and those that every schedule has.
std::vector<std::size_t> columns_in_use(const Schedule& schedule);

// Writes the columns as CSV (RFC 4180): a row a circuit; what is of the box stands in its first row.
void write_schedule_csv(const Schedule& schedule, std::span<const std::size_t> shown, const Write& write);

}  // namespace boxproof::draft
