// The three accounts of a box: the approved plan, the label posted on it, and what the inspector counted.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/rule.hpp"

namespace boxproof {

struct Account {
  std::optional<std::uint64_t> strings;
  std::optional<std::uint32_t> series;  // nothing: not known, or not the same in all strings
};

Account plan_account(const Combiner& plan);
Account label_account(const VisitCase& c);
Account found_account(const VisitCase& c);

// Pairs of accounts that are alike but for strings and modules in series having changed places (12 strings of
// 15 against 15 strings of 12). What such a pair explains is said once, by tally/transposed; the other rules
// ask here and keep silent on it. Label and count are a pair of their own only where the plan explains
// neither.
struct Transposed {
  bool plan_label = false, plan_found = false, label_found = false;
  bool any() const { return plan_label || plan_found || label_found; }
};
Transposed transposed(const VisitCase& c);

// Modules in series of the plan's groups, each number once, in the order of the groups.
std::vector<std::uint32_t> planned_series(const Combiner& plan);

// Pointer to a key of the visited box in the record: record_pointer(c, "/count/positive").
std::string record_pointer(const VisitCase& c, std::string_view key);

// The same to a key of its box on the plan.
std::string plan_pointer(const VisitCase& c, std::string_view key = {});
// Where the plan has strings, or modules in series: in the box's one group, or else in its groups as a whole.
std::string plan_strings_pointer(const VisitCase& c);
std::string plan_series_pointer(const VisitCase& c);
// Where the strings of the box are counted: in the record if somebody did, or else on the plan.
std::string strings_pointer(const VisitCase& c);

// "1 string", "12 strings".
std::string counted(std::uint64_t number, std::string_view thing);

// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& words, std::string_view last = "and");

}  // namespace boxproof
