#include "src/rules/like_boxes.hpp"

#include <algorithm>

namespace boxproof {

LikeBoxes::LikeBoxes(const Design& design) {
  for (std::uint32_t i = 0; i < design.combiners.size(); ++i) {
    const Combiner& box = design.combiners[i];
    if (box.type == nullptr) continue;
    Boxes& like = by_type_[box.type];
    like.ids.push_back(box.id);
    like.indexes.push_back(i);
  }
  for (auto& [type, like] : by_type_) like.runs = text::id_runs(like.ids);
}

LikeBoxes::Others LikeBoxes::others(const BoxType& type, std::uint32_t box) const {
  constexpr std::size_t most_ids = 12;  // a message stays a sentence
  Others out;
  const auto found = by_type_.find(&type);
  if (found == by_type_.end()) return out;
  const Boxes& like = found->second;
  const auto own = std::lower_bound(like.indexes.begin(), like.indexes.end(), box);
  const bool is_one = own != like.indexes.end() && *own == box;
  const auto at = is_one ? static_cast<std::size_t>(own - like.indexes.begin()) : like.ids.size();
  std::size_t ids = 0, boxes = 0;
  const auto name = [&](const text::IdRun& run) {  // says whether there was room for it
    ids += std::min<std::size_t>(run.size(), 2);
    if (ids > most_ids) return false;
    if (!out.named.empty()) out.named += ", ";
    out.named += text::run_words(like.ids[run.first], like.ids[run.last], run.size());
    boxes += run.size();
    return true;
  };
  for (const text::IdRun& run : like.runs) {
    const bool within = run.first <= at && at <= run.last;  // then the run falls apart around the box
    if (!within && !name(run)) break;
    if (within && run.first < at && !name({run.first, at - 1})) break;
    if (within && at < run.last && !name({at + 1, run.last})) break;
  }
  out.unnamed = like.ids.size() - (is_one ? 1 : 0) - boxes;
  return out;
}

}  // namespace boxproof
