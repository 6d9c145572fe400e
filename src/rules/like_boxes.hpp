// The plan's boxes by type, for findings that concern all that came from the same maker.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "boxproof/design.hpp"
#include "src/text/id_runs.hpp"

namespace boxproof {

class LikeBoxes {
 public:
  LikeBoxes() = default;
  explicit LikeBoxes(const Design& design);  // which must outlive it

  // The boxes of a type, one of them left out: at most twelve ids, sequences run together.
  struct Others {
    std::string named;        // "A-15, A-17…A-28"; empty: there is none
    std::size_t unnamed = 0;  // how many more there are
  };
  Others others(const BoxType& type, std::uint32_t box) const;

 private:
  struct Boxes {
    std::vector<std::string_view> ids;
    std::vector<std::uint32_t> indexes;  // in the design, ascending
    std::vector<text::IdRun> runs;
  };
  std::unordered_map<const BoxType*, Boxes> by_type_;
};

}  // namespace boxproof
