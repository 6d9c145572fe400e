#include "src/check/sample.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>
#include <utility>

#include "src/check/bounded_draw.hpp"

namespace boxproof {

std::optional<double> Nearness::share() const {
  if (!tightest || !every_voltage_known || std::isnan(tightest->share())) return std::nullopt;
  return tightest->share();
}

std::vector<Nearness> nearness_of(const Design& design, const Lot& lot, const Edition& edition) {
  std::vector<Nearness> out;
  out.reserve(lot.size());
  BoxFacts facts;
  for (const Combiner* box : lot) {
    box_facts(design, *box, edition, facts);
    out.push_back({tightest_margin(design, facts, edition), facts.every_voltage_known});
  }
  return out;
}

std::vector<Picked> draw_sample(std::span<const std::optional<double>> shares, const SampleSize& size) {
  const std::size_t boxes = std::min(size.boxes, shares.size());
  const std::size_t thinnest = std::min(size.thinnest, boxes);
  std::vector<std::size_t> pile(shares.size());
  std::iota(pile.begin(), pile.end(), std::size_t{0});
  // An absent share compares as less than any number.
  std::stable_sort(pile.begin(), pile.end(),
                   [&](std::size_t a, std::size_t b) { return shares[a] < shares[b]; });
  std::sort(pile.begin() + static_cast<std::ptrdiff_t>(thinnest), pile.end());

  std::mt19937 generator(size.seed);
  std::vector<Picked> out;
  for (std::size_t i = 0; i < boxes; ++i) {
    if (i >= thinnest)
      std::swap(pile[i], pile[i + draw_below(generator, static_cast<std::uint32_t>(pile.size() - i))]);
    out.push_back({pile[i], i >= thinnest});
  }
  std::sort(out.begin(), out.end(), [](const Picked& a, const Picked& b) { return a.place < b.place; });
  return out;
}

}  // namespace boxproof
