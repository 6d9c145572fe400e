// How many threads a piece of work is divided among.
#pragma once

#include <algorithm>
#include <cstddef>
#include <thread>

namespace boxproof::text {

// Who does the work: as many threads as there are cores, unless it says how many.
struct Crew {
  std::size_t workers = 0;  // 0: one a core
  std::size_t ahead = 2;    // pieces a worker that may be made before they are taken
};

// Whether this thread makes pieces of a divided work already: it does not divide its own part again, else a
// run of many designs would start threads by the square of the cores.
inline bool& divides_no_more() {
  thread_local bool inside = false;
  return inside;
}

inline std::size_t workers_for(std::size_t pieces, Crew crew = {}) {
  if (divides_no_more()) return 1;
  const std::size_t cores = std::thread::hardware_concurrency();  // 0: not known
  return std::clamp<std::size_t>(crew.workers > 0 ? crew.workers : cores, 1,
                                 std::max<std::size_t>(pieces, 1));
}

}  // namespace boxproof::text
