// A box drawn: its strings, fuses, bus, switch and output.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "boxproof/report.hpp"

namespace boxproof::report {

// A finding that concerns a part of the box, as the drawing marks it.
struct Mark {
  const Finding* finding = nullptr;
  std::size_t number = 0;  // of its entry in the report
  std::string href;        // "#finding-3"; empty: no link
};

// An SVG element of its own. `facts` are those of the box as found where it was visited. Nothing in it needs
// a script or a style sheet other than "drawing".
std::string schematic(const ReportInput& report, const BoxResult& box, const BoxFacts& facts,
                      const std::vector<Mark>& marks);

// What its signs mean, once for all drawings of a page: an element of its own.
std::string schematic_key();

}  // namespace boxproof::report
