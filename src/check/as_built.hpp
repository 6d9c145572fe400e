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
  std::string_view key;       // which number of the record it is: "positive" or "negative"
  std::uint32_t counted = 0;  // that number itself
  bool as_inputs = false;     // it was read as a number of inputs on which strings are joined
};

// The strings that the inspector counted; nothing if nobody counted. Where positives and negatives differ the
// larger one counts, the worse case. Where strings are joined ahead of the box, a count is that of its inputs
// or that of its strings: whichever the plan's number is nearer to, its inputs where both are as near. An
// input more is as many strings more as the surplus group joins on one; an input fewer takes its strings off
// the group with the highest short-circuit current, then off the next.
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
// Strings that the record does not speak of have the plan's modules in series. Where it lists more strings
// than there are, the longest of the list count: which ones are too many cannot be told.
std::vector<std::vector<SeriesShare>> series_of_groups(const Combiner& plan, const VisitedBox& visited);

using text::same_word;

}  // namespace boxproof
