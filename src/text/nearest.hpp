// "Did you mean": the name out of a list that is nearest to a misspelt one.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace boxproof::text {

// Single-character edits (insert, delete, replace, swap of neighbours) from a to b.
std::size_t edit_distance(std::string_view a, std::string_view b);

// The nearest candidate, if it is near enough to be meant (at most a third of the length, at least 1 edit
// allowed). Ties go to the first.
std::string_view nearest(std::string_view name, std::span<const std::string_view> candidates);

// The `most` nearest candidates, near or not, nearest first.
std::vector<std::string_view> nearest_few(std::string_view name, std::span<const std::string_view> candidates,
                                          std::size_t most);

// `; did you mean "x"?` or nothing.
std::string did_you_mean(std::string_view name, std::span<const std::string_view> candidates);

}  // namespace boxproof::text
