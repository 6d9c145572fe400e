// Where in the drawing of a box a finding belongs.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

#include "boxproof/design.hpp"
#include "boxproof/finding.hpp"

namespace boxproof::report {

enum class DrawnPart : std::uint8_t {
  strings,  // the source circuits together
  circuit,  // one group of them
  fuses,
  bus,
  disconnect,
  output,
  device,  // the overcurrent device at the far end of the output
  grounding,
  bond,
  label,
  enclosure,
  inverter
};
inline constexpr std::array<std::string_view, 12> drawn_part_names{
    "strings", "circuit",   "fuses", "bus",   "disconnect", "output",
    "device",  "grounding", "bond",  "label", "enclosure",  "inverter"};

struct DrawnAt {
  DrawnPart part = DrawnPart::enclosure;
  std::size_t circuit = 0;                   // of the box as drawn; only of DrawnPart::circuit
  std::optional<std::uint32_t> string = {};  // position of the one string of the group, from 1
};

// The part that a finding concerns, by its `part` (what an inspector wrote of a place included) and its rule.
// What belongs to no part concerns the enclosure. `drawn`: the box as found where it was visited.
DrawnAt place_of(const Finding& finding, const Combiner& plan, const Combiner& drawn);

}  // namespace boxproof::report
