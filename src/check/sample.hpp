// Which boxes to open, where not all of them are to be: those nearest to a limit, and others at random.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "boxproof/calculate.hpp"

namespace boxproof {

// How near a box of the lot comes to a limit.
struct Nearness {
  std::optional<Margin> tightest;
  bool every_voltage_known = true;

  // What is left of the nearest limit; nothing where the box cannot be shown to keep all of its limits.
  std::optional<double> share() const;
};
using Lot = std::vector<const Combiner*>;
std::vector<Nearness> nearness_of(const Design& design, const Lot& lot, const Edition& edition);

struct SampleSize {
  std::size_t boxes = 0;     // all of the lot where it has no more
  std::size_t thinnest = 0;  // of these, how many go by thin margins; the others are drawn at random
  std::uint32_t seed = 1;
};

struct Picked {
  std::size_t place = 0;  // in the lot
  bool at_random = false;
};

// In the order of the lot. Boxes without a share come before all others, then those with the least; of equal
// ones the first in the lot.
//
// The others are drawn without replacement: a pile of the boxes left over, in the order of the lot; each draw
// exchanges the first of the pile not drawn yet with one of those from there on, picked by draw_below() out
// of std::mt19937(seed), whose numbers ISO C++ fixes [rand.predef]. The same lot, sizes and seed give the
// same sample everywhere, and a greater sample with as many thinnest holds the smaller one.
std::vector<Picked> draw_sample(std::span<const std::optional<double>> shares, const SampleSize& size);

}  // namespace boxproof
