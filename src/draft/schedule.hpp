// A combiner schedule: the boxes of a plan as flat rows, and no more than what they state.
#pragma once

#include <array>
#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "src/draft/columns.hpp"

namespace boxproof::draft {

// The texts of cells, each kept once: sixty thousand boxes have few different ones.
class Texts {
 public:
  // The number of a text; 0 of the empty one.
  std::uint32_t add(std::string_view text) {
    if (text.empty()) return 0;
    if (const auto known = index_.find(text); known != index_.end()) return known->second;
    const auto number = static_cast<std::uint32_t>(texts_.size());
    index_.emplace(texts_.emplace_back(text), number);
    return number;
  }
  std::string_view at(std::uint32_t number) const { return texts_[number]; }

 private:
  std::deque<std::string> texts_{""};  // stay where they are
  std::unordered_map<std::string_view, std::uint32_t> index_;
};

// One text a column; 0: not stated. Texts stand as they are, numbers in the shortest form that reads back
// equal, labels as labels_cell.hpp writes them. A part's own column is stated only if none of the part's
// others is.
using Cells = std::array<std::uint32_t, columns.size()>;

struct Box {
  Cells cells{};                // those of a box
  std::vector<Cells> circuits;  // in each those of a circuit
};

struct Schedule {
  Texts texts;
  std::vector<Box> boxes;
  bool has_types = false;  // there is a column that says of what type each box is
};

// Whether any of the columns from `from` on, up to and not including `to`, is stated.
inline bool states(const Cells& cells, std::size_t from, std::size_t to) {
  for (std::size_t c = from; c < to; ++c)
    if (cells[c] != 0) return true;
  return false;
}

}  // namespace boxproof::draft
