// How near the boxes of a site come to their limits, and what else they have against them: boxes that are
// alike in that, together.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/report.hpp"
#include "src/report/html_sections.hpp"

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

inline constexpr std::int32_t limit_tenths = 1000;  // a limit that is used up

// The highest of them; below 0: none is known.
std::int32_t most_used(const UsedShares& shares);

struct BoxShares {
  UsedShares shares;
  Verdict verdict = Verdict::accept;
  std::vector<std::size_t> besides;  // entries of the page, above advice, that no bar tells of; worst first
  std::uint32_t box = 0;             // index in the design

  bool reads_as(const BoxShares& other) const {
    return shares == other.shares && verdict == other.verdict && besides == other.besides;
  }
};

// Every judged box, as found where it was visited: the worst verdict first, of these the thinnest margin
// (where something is not stated, it counts as none left). Boxes that read the same stand side by side, in
// the order of the plan.
std::vector<BoxShares> box_shares(const PageIndex& page);

}  // namespace boxproof::report
