// The inputs of a drawn box with their fuses, group by group.
#pragma once

#include <cstdint>
#include <set>
#include <vector>

#include "src/report/schematic_sheet.hpp"

namespace boxproof::report {

struct InputGroup {
  std::size_t circuit = 0;
  std::uint32_t inputs = 0;  // of the box
  std::uint32_t before = 0;  // inputs of the groups before it
  std::uint32_t drawn = 0;   // fewer: the last one stands for the rest, behind dots
  int pitch = 0;
  DrawnBlock block;
  std::set<std::uint32_t> marked;  // inputs with a mark on one of their strings, from 0
  bool marked_whole = false;

  bool condensed() const { return drawn < inputs; }
  int height() const { return static_cast<int>(drawn + (condensed() && drawn > 0 ? 2 : 0)) * pitch; }
  // Of the i-th input drawn, below the group's top.
  int offset(std::uint32_t i) const {
    const bool behind_dots = condensed() && i + 1 == drawn;
    return static_cast<int>(i + (behind_dots ? 2 : 0)) * pitch + pitch / 2;
  }
};

// Up to 32 inputs are drawn one by one; of more, the ends of each group. Of very many groups the last one
// drawn stands for the rest.
std::vector<InputGroup> groups_to_draw(const DrawnBox& b);

// Draws a group's inputs from `top` on.
void draw_group(Sheet& sheet, const DrawnBox& b, const InputGroup& group, int top, bool marked,
                bool fuses_marked);

}  // namespace boxproof::report
