// What the plan has in a box, in words for somebody who stands in front of it. A value that is not stated is
// "?". What comes from a file is made plain().
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "boxproof/calculate.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {

// "20 A", "? A"
template <class T>
std::string or_unknown(const std::optional<T>& value, std::string_view unit) {
  return value ? fmt::format("{} {}", boxproof::shown(*value), unit) : std::string("? ") + std::string(unit);
}
std::string yes_no(const std::optional<bool>& value, std::string_view yes, std::string_view no);

// Fuses for the inputs of the box: one each, or two where both poles are fused; none where the plan has none.
unsigned fuse_count(const BoxFacts& facts);

// "circuit near: 8 strings of 18 modules M-450, 2 joined on each fuse"
std::string circuit_words(const Circuit& circuit);
// "4 strings of 17, 8 strings of 18"
std::string strings_words(const Combiner& box);
// "20 A, 1000 V, DC, listed for PV, one pole"
std::string fuse_words(const Fuse& fuse);
// "in the box", "3 m away", "distance ?"
std::string distance_words(const Disconnect& disconnect);
// "600 kcmil aluminum XHHW-2, 2 in parallel"; "not stated"
std::string wire_words(const Run* run);

}  // namespace boxproof::report
