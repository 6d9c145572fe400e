// Which boxes to open, where not all of them are to be: those that the plan has findings on, those nearest to
// a limit, and others at random.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "boxproof/check.hpp"
#include "src/check/open_limits.hpp"

namespace boxproof {

// What speaks for opening a box, the strongest first.
enum class Cause : std::uint8_t { hazard, correction, not_known, margin };

struct Urgency {
  Cause cause = Cause::margin;
  std::optional<double> share;  // left of the nearest limit; nothing: not known, and before all that are
  auto operator<=>(const Urgency&) const = default;
};

// What the plan shows of a box of the lot.
struct Nearness {
  std::optional<Margin> tightest;
  bool every_voltage_known = true;
  OpenLimits open;
  const Finding* worst = nullptr;  // of the plan's findings on the box; null: none above advice

  // What is left of the nearest limit; nothing where the box cannot be shown to keep all of its limits.
  std::optional<double> share() const;
  Urgency urgency() const;
};
using Lot = std::vector<const Combiner*>;

// `plan` is the judgement of the whole design, without a record, and must outlive what is returned.
std::vector<Nearness> nearness_of(const Design& design, const Lot& lot, const Edition& edition,
                                  const Judgement& plan);

struct SampleSize {
  std::size_t boxes = 0;     // all of the lot where it has no more
  std::size_t thinnest = 0;  // of these, how many go by urgency; the others are drawn at random
  std::uint32_t seed = 1;
};

struct Picked {
  std::size_t place = 0;  // in the lot
  bool at_random = false;
};

// In the order of the lot. The more urgent come before the others; of equal ones the first in the lot.
//
// The others are drawn without replacement: a pile of the boxes left over, in the order of the lot; each draw
// exchanges the first of the pile not drawn yet with one of those from there on, picked by draw_below() out
// of std::mt19937(seed), whose numbers ISO C++ fixes [rand.predef]. The same lot, sizes and seed give the
// same sample everywhere, and a greater sample with as many thinnest holds the smaller one.
std::vector<Picked> draw_sample(std::span<const Urgency> lot, const SampleSize& size);

}  // namespace boxproof
