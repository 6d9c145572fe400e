// A sheet to draw a box on: blocks of words in two columns, callouts below them, lines.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "src/report/schematic.hpp"
#include "src/report/schematic_words.hpp"

namespace boxproof::report {

// Units of the drawing: at its natural width a unit is a CSS pixel. The width is a phone's.
namespace sheet {
inline constexpr int width = 364;
inline constexpr int left = 2, left_room = 140;      // words on the source circuits' side
inline constexpr int inputs_from = 146, wall = 152;  // the near side of the enclosure
inline constexpr int bus = 200;
inline constexpr int right = 216, right_room = 138;  // words within the enclosure and below it
inline constexpr int far_wall = 362;
inline constexpr double title_size = 12, detail_size = 11, head_size = 10;
}  // namespace sheet

// The words beside a part and the marks on it.
struct DrawnBlock {
  DrawnLines lines;
  std::vector<const Mark*> marks;
  bool hit() const { return !marks.empty(); }
};

// Lines that are too wide for their side broken into two at a blank.
DrawnLines broken(DrawnLines lines, int x);

class Sheet {
 public:
  // The lower edge of a block whose upper one is `top`. `x`: sheet::left or sheet::right.
  static int bottom_of(const DrawnBlock& block, int top, int x);
  int put(const DrawnBlock& block, int top, int x);

  // A line of the drawing: its class, heavier where the part is marked, and path data.
  void path(std::string_view style, bool hit, std::string_view d);
  void text(int x, int y, std::string_view style, std::string_view text, double size, double room);

  const std::string& ink() const { return ink_; }      // said as a whole by the drawing's title
  const std::string& links() const { return links_; }  // the callouts

 private:
  void put_line(const DrawnLine& line, int x, int baseline, int room);
  void put_row(const DrawnLine& row, int x, int baseline, int room);
  std::string ink_, links_;
};

// A callout at its upper left corner; its shape tells the severity.
std::string callout(const Mark& mark, int x, int y);
int callout_width(std::size_t number);
// The shape alone, as small as it gets, at 0, 0.
std::string callout_sign(Severity severity);

}  // namespace boxproof::report
