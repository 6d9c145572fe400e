// The drawing of a box, taken apart.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/web_page.hpp"

namespace boxproof::test {

struct Drawn {
  std::string svg;
  WebPage parts;
  std::size_t marks = 0;  // findings that were handed in

  std::size_t inputs() const;  // strokes drawn
  std::size_t fuses() const;   // symbols drawn, those dashed too
  bool says(std::string_view text) const;
  bool has(std::string_view style) const;           // a line of the class
  bool is_hit(std::string_view style) const;        // one that is heavier
  std::vector<std::string> marked_numbers() const;  // as the callouts say them
  std::vector<std::string> hit() const;             // classes of the heavier lines, sorted, each once
};

// A box of a judgement, its findings marked with the numbers of the report's entries.
Drawn draw(const Judged& judged, std::size_t box = 0);
Drawn draw(const Json& design, const Json& record = nullptr);

// What a reader sees on the sheet.
struct Extent {
  double left, right, top, bottom;
  std::string what;
};
std::vector<Extent> texts_of(const Drawn& drawn);
std::vector<Extent> callouts_of(const Drawn& drawn);
Extent sheet_of(const Drawn& drawn);
bool overlap(const Extent& a, const Extent& b);

}  // namespace boxproof::test
