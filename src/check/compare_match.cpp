#include "src/check/compare_match.hpp"

#include <algorithm>
#include <span>

namespace boxproof {
namespace {

using Items = std::vector<Item*>;

Items by_fingerprint(std::vector<Item>& items) {
  Items out;
  out.reserve(items.size());
  for (Item& item : items) out.push_back(&item);
  std::stable_sort(out.begin(), out.end(), [](const Item* a, const Item* b) {
    return a->finding->fingerprint < b->finding->fingerprint;
  });
  return out;
}

// Pairs the findings of one fingerprint: those that are wholly the same first, so that of several the right
// one is left over.
void pair_up(std::span<Item*> before, std::span<Item*> after) {
  const auto pair = [&](auto&& fits) {
    for (Item* b : before) {
      if (b->match != nullptr) continue;
      const auto a = std::find_if(after.begin(), after.end(),
                                  [&](Item* other) { return other->match == nullptr && fits(*b, *other); });
      if (a == after.end()) continue;
      b->match = (*a)->finding;
      b->match_agreed = (*a)->agreed;
      (*a)->match = b->finding;
      (*a)->match_agreed = b->agreed;
    }
  };
  pair(is_same);
  pair([](const Item& b, const Item& a) { return a.agreed == b.agreed; });
  pair([](const Item&, const Item&) { return true; });
}

}  // namespace

std::vector<Item> items_of(const ReportFile& report) {
  std::vector<Item> out;
  out.reserve(report.findings.size() + report.agreed.size());
  for (const ReportedFinding& f : report.findings) out.push_back({&f, false});
  for (const ReportedFinding& f : report.agreed) out.push_back({&f, true});
  return out;
}

bool is_same(const Item& a, const Item& b) {
  const Finding &x = a.finding->finding, &y = b.finding->finding;
  return a.agreed == b.agreed && x.severity == y.severity && x.basis == y.basis && x.found == y.found &&
         x.required == y.required && x.message == y.message;
}

void pair_findings(std::vector<Item>& before, std::vector<Item>& after) {
  Items b = by_fingerprint(before), a = by_fingerprint(after);
  const auto end_of = [](const Items& items, std::size_t from, std::uint64_t fingerprint) {
    while (from < items.size() && items[from]->finding->fingerprint == fingerprint) ++from;
    return from;
  };
  for (std::size_t i = 0, j = 0; i < b.size() && j < a.size();) {
    const std::uint64_t one = b[i]->finding->fingerprint, two = a[j]->finding->fingerprint;
    const std::size_t i_end = end_of(b, i, one), j_end = end_of(a, j, two);
    if (one == two) pair_up(std::span(b).subspan(i, i_end - i), std::span(a).subspan(j, j_end - j));
    if (one <= two) i = i_end;
    if (two <= one) j = j_end;
  }
}

}  // namespace boxproof
