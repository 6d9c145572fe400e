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

Urgency Nearness::urgency() const {
  Cause cause = Cause::margin;
  if (!share() || open.any()) cause = Cause::not_known;
  if (worst != nullptr) switch (worst->severity) {
      case Severity::hazard: cause = Cause::hazard; break;
      case Severity::correction: cause = Cause::correction; break;
      default: cause = Cause::not_known;
    }
  return {cause, share()};
}

std::vector<Nearness> nearness_of(const Design& design, const Lot& lot, const Edition& edition,
                                  const Judgement& plan) {
  std::vector<const Finding*> worst(design.combiners.size());
  for (const Finding& f : plan.findings)  // of a box the worst stands first
    if (f.box && f.severity != Severity::advice && worst[*f.box] == nullptr) worst[*f.box] = &f;
  std::vector<Nearness> out;
  out.reserve(lot.size());
  BoxFacts facts;
  for (const Combiner* box : lot) {
    box_facts(design, *box, edition, facts);
    out.push_back({tightest_margin(design, facts, edition), facts.every_voltage_known, open_limits(facts),
                   worst[static_cast<std::size_t>(box - design.combiners.data())]});
  }
  return out;
}

std::vector<Picked> draw_sample(std::span<const Urgency> lot, const SampleSize& size) {
  const std::size_t boxes = std::min(size.boxes, lot.size());
  const std::size_t thinnest = std::min(size.thinnest, boxes);
  std::vector<std::size_t> pile(lot.size());
  std::iota(pile.begin(), pile.end(), std::size_t{0});
  std::stable_sort(pile.begin(), pile.end(), [&](std::size_t a, std::size_t b) { return lot[a] < lot[b]; });
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
