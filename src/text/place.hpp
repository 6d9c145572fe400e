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

// The same for many offsets of one long text: remembers how many lines end before each block.
class LineIndex {
 public:
  explicit LineIndex(std::string_view source) : source_(source) {}
  LineColumn at(std::uint32_t offset);

 private:
  std::string_view source_;
  std::vector<std::uint32_t> before_;  // line ends before each block that has been passed
};

}  // namespace boxproof::text
