// The boxes of a schedule as a JSON text of whole boxes, for the reader of designs to check: what it says of
// a value is told at the value's cell.
#pragma once

#include <memory>
#include <utility>
#include <vector>

#include "src/draft/schedule.hpp"
#include "src/read/made_text.hpp"

namespace boxproof::draft {

struct CellPlace {
  std::uint32_t offset = 0;  // in the file
  std::uint32_t row = 0;     // from 1; 0: not stated
};
using Places = std::array<CellPlace, columns.size()>;

// Where the values of one box stand.
struct BoxPlaces {
  Places box{};
  std::vector<Places> circuits;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> labels;  // from the JSON of the labels to the file
};

class MadeBoxes {
 public:
  explicit MadeBoxes(std::string_view source);
  void add(const Box& box, const Texts& texts, const BoxPlaces& places);
  std::shared_ptr<const read::MadeText> finish();

 private:
  std::shared_ptr<read::MadeText> made_;
};

}  // namespace boxproof::draft
