#include "src/check/reconcile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "boxproof/rule.hpp"

namespace boxproof {
namespace {

bool same_matter(const Finding& a, const Finding& b) {
  if (a.part != b.part) return false;
  return a.rule == b.rule || (a.lacking && b.lacking);  // whichever rule asks for the value
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
    if (wants_more || match->found != p.found || match->required != p.required)
      p.message += fmt::format(" As found: {}", match->message);
    if (wants_more) p.also = match->also;
    built.erase(match);
    kept.push_back(std::move(p));
  }
  planned = std::move(kept);
}

}  // namespace boxproof
