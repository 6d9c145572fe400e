// The findings of two reports, paired.
#pragma once

#include <vector>

#include "boxproof/compare.hpp"

namespace boxproof {

// A finding of one report, and what it is in the other.
struct Item {
  const ReportedFinding* finding = nullptr;
  bool agreed = false;
  const ReportedFinding* match = nullptr;  // null: not in the other report
  bool match_agreed = false;
};

// The findings of a report, then the agreed ones.
std::vector<Item> items_of(const ReportFile& report);

// Pairs them by fingerprint. One that is there several times is paired as often as both reports have it.
void pair_findings(std::vector<Item>& before, std::vector<Item>& after);

// Whether nothing differs but the place.
bool is_same(const Item& a, const Item& b);

}  // namespace boxproof
