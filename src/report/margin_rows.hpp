// How near the boxes of a site come to their limits: boxes that are alike in that, together.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/report.hpp"

namespace boxproof::report {

enum class LimitKind : std::uint8_t { voltage, current, ampacity };
inline constexpr std::array<std::string_view, 3> limit_kind_names{"voltage", "current", "ampacity"};

// Of which kind a margin is, by its brief name ("fuse voltage").
LimitKind kind_of_margin(const Margin& margin);

// What a box uses of a limit, the nearest of its kind, as it is printed.
struct UsedShare {
  std::int32_t tenths = -1;  // tenths of a percent; below 0: not known
  std::string_view limit;    // its brief name
  bool over = false;         // what is over by less than is printed is over, too
  bool incomplete = false;   // another limit of the kind cannot be told
  bool operator==(const UsedShare&) const = default;
  std::string words() const;  // "96.9 %"; "?"
};
using UsedShares = std::array<UsedShare, limit_kind_names.size()>;  // by LimitKind

UsedShares used_shares(const Design& design, const BoxFacts& facts, const Edition& edition);

// The highest of them; below 0: none is known.
std::int32_t most_used(const UsedShares& shares);

struct BoxShares {
  UsedShares shares;
  std::uint32_t box = 0;  // index in the design
};

// Every judged box, as found where it was visited: the thinnest margin first, boxes with the same shares side
// by side, in the order of the plan.
std::vector<BoxShares> box_shares(const ReportInput& report);

}  // namespace boxproof::report
