#include "src/check/reconcile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

#include "boxproof/rule.hpp"

namespace boxproof {
namespace {

bool same_matter(const Finding& a, const Finding& b) {
  if (a.part != b.part) return false;
  return a.rule == b.rule || (a.lacking && b.lacking);  // whichever rule asks for the value
}

// How far a finding is off; nothing where it is not a matter of numbers.
std::optional<double> distance(const Finding& f) {
  const double* found = std::get_if<double>(&f.found);
  const double* required = std::get_if<double>(&f.required);
  return found != nullptr && required != nullptr ? std::optional(std::abs(*found - *required)) : std::nullopt;
}

// Whether what was found is another matter than what the plan shows, and not a lesser one.
bool is_worse(const Finding& planned, const Finding& built) {
  const auto before = distance(planned), after = distance(built);
  return !before || !after || exceeds(*after, *before);
}

}  // namespace

void reconcile(std::vector<Finding>& planned, std::vector<Finding>& built, std::vector<Finding>& gone) {
  std::vector<Finding> kept;
  for (Finding& p : planned) {
    const auto match =
        std::find_if(built.begin(), built.end(), [&](const Finding& b) { return same_matter(p, b); });
    if (match == built.end() || match->severity != p.severity) {  // not there, or not as grave
      gone.push_back(std::move(p));
      continue;
    }
    const bool wants_more = p.lacking && match->also.size() > p.also.size();  // more rules need it as found
    const bool otherwise = match->found != p.found || match->required != p.required;
    if (wants_more || otherwise) p.message += fmt::format(" As found: {}", match->message);
    p.worse_as_found = otherwise && is_worse(p, *match);
    if (wants_more) p.also = match->also;
    if (otherwise && match->in_record) p.other_account.pointer = match->place.pointer;
    built.erase(match);
    kept.push_back(std::move(p));
  }
  planned = std::move(kept);
}

}  // namespace boxproof
