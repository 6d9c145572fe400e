// Published sampling plans: how many of a lot to look at.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace boxproof {

struct SamplingPlan {
  struct Band {
    std::optional<std::uint32_t> up_to;  // of the lot; nothing: any size
    std::string letter;
    std::uint32_t size = 0;  // of the sample
  };
  std::string standard, tables, scheme;
  std::string source;
  bool unverified = false;  // known from memory only
  std::uint32_t least_lot = 0;
  std::vector<Band> bands;

  // Null for a lot below the least, which is looked at whole.
  const Band* band(std::uint32_t lot) const;
};

// The plans that the program carries, by their names on the command line.
inline constexpr std::array<std::string_view, 1> sampling_plan_names{"iso2859"};

// Throws std::out_of_range for any other name.
SamplingPlan load_sampling_plan(std::string_view name);

}  // namespace boxproof
