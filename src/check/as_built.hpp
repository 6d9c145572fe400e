// What a field record says of a box's strings. The box as found is made from it, and the tally rules speak of
// the same numbers.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "boxproof/asbuilt.hpp"
#include "boxproof/design.hpp"
#include "src/text/words.hpp"

namespace boxproof {

std::uint64_t planned_strings(const Combiner& plan);
std::uint64_t planned_inputs(const Combiner& plan);

struct StringCount {
  std::uint32_t strings = 0;
  std::string_view key;  // which number of the record it is: "positive" or "negative"
};

// The strings that the inspector counted; nothing if nobody counted. Where positives and negatives differ the
// larger one counts, the worse case. Where strings are joined ahead of the box, a count of its inputs means
// "as planned".
std::optional<StringCount> counted_strings(const Combiner& plan, const VisitedBox& visited);

// The group that a surplus of strings goes to: the highest short-circuit current, the first of equals.
std::size_t surplus_group(const Combiner& plan);

// Strings of each group once the count is put in. A lack comes off the group with the highest short-circuit
// current, then off the next.
std::vector<std::uint32_t> strings_of_groups(const Combiner& plan, const VisitedBox& visited);

// Strings of one group with the same number of modules in series.
struct SeriesShare {
  std::uint32_t series, strings;
};

// What was found of each group, at least one share a group, in the order in which the record comes to them.
// Strings that the record does not speak of have the plan's modules in series.
std::vector<std::vector<SeriesShare>> series_of_groups(const Combiner& plan, const VisitedBox& visited);

using text::same_word;

}  // namespace boxproof
