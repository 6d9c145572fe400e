#include "src/draft/box_types.hpp"

#include <fmt/format.h>

#include <string_view>

namespace boxproof::draft {
namespace {

// What more than half of the boxes have there; `none` where there is no such thing. The one candidate is the
// one that is left when each two that differ cancel each other out (Boyer and Moore's vote).
template <class T, class Of>
T of_most(const std::vector<const Box*>& boxes, const T& none, Of&& of) {
  const T* candidate = &none;
  std::size_t votes = 0;
  for (const Box* box : boxes) {
    if (votes == 0) candidate = &of(*box);
    votes = *candidate == of(*box) ? votes + 1 : votes - 1;
  }
  std::size_t count = 0;
  for (const Box* box : boxes) count += *candidate == of(*box) ? 1 : 0;
  return 2 * count > boxes.size() ? *candidate : none;
}

using Boxes = std::vector<const Box*>;

// Those of the boxes that have the part of the columns [from, to).
Boxes with_part(const Boxes& boxes, std::size_t from, std::size_t to) {
  Boxes out;
  for (const Box* box : boxes)
    if (states(box->cells, from, to)) out.push_back(box);
  return out;
}

void vote(Box& base, const Boxes& boxes, std::size_t c) {
  base.cells[c] =
      of_most<std::uint32_t>(boxes, 0, [c](const Box& box) -> const std::uint32_t& { return box.cells[c]; });
}

Box common_part(const Boxes& boxes) {
  Box base;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    if (is_of_circuit(c)) continue;
    if (columns[c].holds != Holds::part) {
      const bool of_each_box =
          c == column("id") || c == column("type") || c == column("sheet") || c == column("location");
      if (!of_each_box) vote(base, boxes, c);
      continue;
    }
    const std::size_t end = part_end(c);
    const Boxes having = with_part(boxes, c, end);
    for (std::size_t in = c + 1; in < end; ++in)
      if (columns[in].holds != Holds::part && 2 * having.size() > boxes.size()) vote(base, having, in);
    c = end - 1;
  }
  base.circuits = of_most<std::vector<Cells>>(
      boxes, {}, [](const Box& box) -> const std::vector<Cells>& { return box.circuits; });
  return base;
}

// What two boxes of one kind have alike.
std::string kind_of(const Box& box) {
  std::string kind;
  for (std::size_t c = 0; c < columns.size(); ++c)
    if (!columns[c].own) kind.append(reinterpret_cast<const char*>(&box.cells[c]), sizeof box.cells[c]);
  return kind;
}

}  // namespace

FoundTypes find_types(const Schedule& schedule) {
  std::unordered_map<std::string, std::size_t> index;
  std::vector<std::vector<const Box*>> groups;
  std::vector<std::size_t> group_of(schedule.boxes.size(), SIZE_MAX);
  for (std::size_t i = 0; i < schedule.boxes.size(); ++i) {
    const Box& box = schedule.boxes[i];
    const std::uint32_t stated = box.cells[column("type")];
    if (schedule.has_types && stated == 0) continue;
    const auto [group, fresh] = index.emplace(
        schedule.has_types ? std::string(schedule.texts.at(stated)) : kind_of(box), groups.size());
    if (fresh) groups.emplace_back();
    groups[group->second].push_back(&box);
    group_of[i] = group->second;
  }
  FoundTypes out;
  std::vector<std::uint32_t> number(groups.size(), 0);
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (!schedule.has_types && groups[g].size() == 1) continue;
    number[g] = static_cast<std::uint32_t>(out.types.size() + 1);
    std::string id = schedule.has_types ? std::string(schedule.texts.at(groups[g][0]->cells[column("type")]))
                                        : fmt::format("type-{}", number[g]);
    out.types.push_back({std::move(id), common_part(groups[g])});
  }
  for (const std::size_t group : group_of) out.of_box.push_back(group == SIZE_MAX ? 0 : number[group]);
  return out;
}

}  // namespace boxproof::draft
