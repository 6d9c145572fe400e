// Words in a drawing: how wide they are at most, and cut to the room that there is.
#pragma once

#include <string>
#include <string_view>

namespace boxproof::report {

// Width of a text in a wide sans serif face; fonts differ, so this is an estimate that most of them stay
// within.
double svg_width(std::string_view text, double size, bool bold = false);

// The text, or as much of its beginning as fits in `room` with "…" behind it.
std::string svg_fit(std::string_view text, double size, double room, bool bold = false);

// A text element with its lower left corner (or, `at_end`, its right one) at x, y. What was cut is whole in a
// title within it. `style`: its class; empty for none.
std::string svg_text(int x, int y, std::string_view style, std::string_view text, double size, double room,
                     bool bold = false, bool at_end = false);

}  // namespace boxproof::report
