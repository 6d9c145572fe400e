#include "src/text/nearest.hpp"

#include <algorithm>
#include <numeric>

namespace boxproof::text {
namespace {

// Names are told apart by how they begin; the time goes with the square of the length, and a file may hold
// anything.
constexpr std::size_t enough = 64;  // bytes

std::size_t distance(std::string_view a, std::string_view b) {
  const std::size_t tail_a = a.size() - std::min(a.size(), enough),
                    tail_b = b.size() - std::min(b.size(), enough);
  return edit_distance(a.substr(0, enough), b.substr(0, enough)) + std::max(tail_a, tail_b) -
         std::min(tail_a, tail_b);
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  // What both begin and end with changes nothing, and names of one site have much of it.
  while (!a.empty() && !b.empty() && a.front() == b.front()) a.remove_prefix(1), b.remove_prefix(1);
  while (!a.empty() && !b.empty() && a.back() == b.back()) a.remove_suffix(1), b.remove_suffix(1);
  // Optimal string alignment over three rows.
  std::vector<std::size_t> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  std::iota(last.begin(), last.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replace = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replace});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    std::swap(before_last, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

std::vector<std::string_view> nearest_few(std::string_view name, std::span<const std::string_view> candidates,
                                          std::size_t most) {
  std::vector<std::pair<std::size_t, std::string_view>> ranked;
  for (std::string_view candidate : candidates) ranked.emplace_back(distance(name, candidate), candidate);
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string_view> out;
  for (const auto& [distance, candidate] : ranked)
    if (out.size() < most) out.push_back(candidate);
  return out;
}

std::string_view nearest(std::string_view name, std::span<const std::string_view> candidates) {
  const auto few = nearest_few(name, candidates, 1);
  if (few.empty()) return {};
  const std::size_t allowed = std::max<std::size_t>(1, std::max(name.size(), few.front().size()) / 3);
  return distance(name, few.front()) <= allowed ? few.front() : std::string_view();
}

std::string did_you_mean(std::string_view name, std::span<const std::string_view> candidates) {
  const bool number = !name.empty() && name.find_first_not_of("0123456789") == std::string_view::npos;
  const std::string_view meant =
      number ? std::string_view() : nearest(name, candidates);  // 2016 is not "2011" misspelt
  return meant.empty() ? std::string() : "; did you mean \"" + std::string(meant) + "\"?";
}

}  // namespace boxproof::text
