// Lines and columns of a text, counted only when somebody asks.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace boxproof::text {

struct LineColumn {
  std::uint32_t line = 1;    // from 1
  std::uint32_t column = 1;  // from 1, in code points
};

// Place of a byte offset; an offset at or behind the end gives the place behind the last character.
LineColumn line_column(std::string_view source, std::uint32_t offset);

// The same for many offsets of one long text: remembers the place at which each block of it starts, so that a
// file without line ends is no slower.
class LineIndex {
 public:
  explicit LineIndex(std::string_view source) : source_(source) {}
  LineColumn at(std::uint32_t offset);

 private:
  std::string_view source_;
  std::vector<LineColumn> starts_;  // of the blocks that have been passed
};

}  // namespace boxproof::text
