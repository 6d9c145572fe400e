// Ids in sequence, so that a list of many boxes reads as "A-01…A-38, A-40".
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace boxproof::text {

// Positions of the first and the last id of a sequence.
struct IdRun {
  std::size_t first, last;
  std::size_t size() const { return last - first + 1; }
};

// Ids in the given order, neighbours in sequence together; 9 and 10 follow each other, 09 and 010 do not.
std::vector<IdRun> id_runs(const std::vector<std::string_view>& ids);

// "A-01", "A-01, A-02", "A-01…A-03".
std::string run_words(std::string_view first, std::string_view last, std::size_t size);

}  // namespace boxproof::text
