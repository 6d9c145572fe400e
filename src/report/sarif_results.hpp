// The results of a run within the limit of its consumers.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "boxproof/finding.hpp"

namespace boxproof::report {

inline constexpr std::size_t severities = severity_names.size();
using SeverityCounts = std::array<std::size_t, severities>;

// What code hosts take of one run (GitHub's documentation, "SARIF support for code scanning").
inline constexpr std::size_t most_results = 25'000;

// Results by how much they matter: what is news by severity, then what is on a baseline or agreed.
class SarifResults {
 public:
  void add(std::size_t rank, std::string result) {
    of_rank_[rank].push_back(std::move(result));
    ++kept_;
  }
  // Drops the mildest until there is room for the others.
  void trim(SeverityCounts& left_out) {
    for (std::size_t rank = of_rank_.size(); kept_ > most_results; --rank)
      for (auto& results = of_rank_[rank - 1]; kept_ > most_results && !results.empty(); --kept_) {
        results.pop_back();
        ++left_out[(rank - 1) % severities];
      }
  }
  bool empty() const { return kept_ == 0; }
  template <class Visit>
  void each(Visit&& visit) const {
    for (const auto& results : of_rank_)
      for (const std::string& result : results) visit(result);
  }

 private:
  std::array<std::vector<std::string>, 2 * severities> of_rank_;
  std::size_t kept_ = 0;
};

}  // namespace boxproof::report
