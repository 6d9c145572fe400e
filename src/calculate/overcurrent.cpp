// Overcurrent devices: least rating, standard ratings, what a rating protects.
#include <algorithm>

#include "boxproof/calculate.hpp"

namespace boxproof {
namespace {

// The smallest rating of a list that is at or above `least`.
std::optional<double> next_rating(const std::vector<double>& ratings, double least) {
  std::optional<double> found;
  for (double rating : ratings)
    if (!exceeds(least, rating) && (!found || rating < *found)) found = rating;
  return found;
}

}  // namespace

Amps least_rating(Amps max, bool rated_100_pct, std::optional<double> ambient_factor, const Edition& e,
                  Working* working) {
  const double k = rated_100_pct ? 1 : e.overcurrent_factor;
  const double f = ambient_factor.value_or(1);
  const Amps least = k * max / f;
  if (working) {
    const std::string_view section = rated_100_pct ? e.rated_100_section : e.overcurrent_section;
    if (ambient_factor)
      working->push_back(computed("Imin", "kc · Imax / f", {{"kc", k}, {"Imax", max.value()}, {"f", f}},
                                  least.value(), "A", section));
    else
      working->push_back(
          computed("Imin", "kc · Imax", {{"kc", k}, {"Imax", max.value()}}, least.value(), "A", section));
  }
  return least;
}

std::optional<Amps> standard_rating(Amps least, const Edition& e) {
  const auto standard = next_rating(e.standard_ratings, least.value());
  const auto additional = next_rating(e.additional_fuse_ratings, least.value());
  if (!standard && !additional) return std::nullopt;
  if (!standard || (additional && *additional < *standard)) return Amps(*additional);
  return Amps(*standard);
}

bool protects(Amps rating, Amps ampacity, const Edition& e) {
  if (ampacity <= Amps(0)) return false;  // past the end of a table: nothing protects it
  if (!exceeds(rating, ampacity)) return true;
  if (exceeds(rating, e.next_size_up_to)) return false;
  const auto next = standard_rating(ampacity, e);
  // Next size up is for an ampacity that is no standard rating itself; then the next one is above it.
  return next && exceeds(*next, ampacity) && !exceeds(rating, *next);
}

}  // namespace boxproof
