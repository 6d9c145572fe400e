#include "src/report/schematic_inputs.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/rules/tally_accounts.hpp"

namespace boxproof::report {
namespace {

constexpr std::uint32_t most_one_by_one = 32, most_condensed = 4;
constexpr std::size_t most_groups = 12;
constexpr int fuse_length = 12, first_fuse = sheet::wall + 8, second_fuse = sheet::wall + 26;

int pitch_for(std::uint32_t inputs) {
  constexpr std::uint32_t few = 8, several = 16;
  return inputs <= few ? 16 : inputs <= several ? 11 : 8;
}

// The groups behind the last one drawn, in words.
DrawnLines words_of_rest(const DrawnBox& b, std::size_t from) {
  std::uint64_t strings = 0, inputs = 0;
  for (std::size_t i = from; i < b.box.circuits.size(); ++i) {
    strings += b.box.circuits[i].strings;
    inputs += b.box.circuits[i].inputs();
  }
  return {{DrawnLine::Kind::title, fmt::format("{} groups more", b.box.circuits.size() - from)},
          {DrawnLine::Kind::detail, counted(strings, "string")},
          {DrawnLine::Kind::detail, fmt::format("{}, none drawn", counted(inputs, "input"))}};
}

std::string fuse_path(int x, int y, int pitch) {
  const int height = pitch > 10 ? 7 : 5;
  return fmt::format("M{} {}h{}v{}h-{}z", x, y - height / 2, fuse_length, height, fuse_length);
}

}  // namespace

std::vector<InputGroup> groups_to_draw(const DrawnBox& b) {
  const auto& circuits = b.box.circuits;
  const bool one_by_one = b.facts.inputs <= most_one_by_one;
  const bool all = circuits.size() <= most_groups;
  std::vector<InputGroup> out;
  std::uint32_t before = 0;
  for (std::size_t i = 0; i < (all ? circuits.size() : most_groups - 1); ++i) {
    InputGroup group;
    group.circuit = i;
    group.inputs = circuits[i].inputs();
    group.before = before;
    group.drawn = one_by_one ? group.inputs : std::min(group.inputs, most_condensed);
    group.pitch = pitch_for(one_by_one ? b.facts.inputs : most_condensed);
    group.block.lines = words_of_circuit(b, i, group.drawn);
    before += group.inputs;
    out.push_back(std::move(group));
  }
  if (all) return out;
  InputGroup rest;
  rest.circuit = out.size();
  rest.block.lines = words_of_rest(b, out.size());
  out.push_back(std::move(rest));
  return out;
}

void draw_group(Sheet& sheet, const DrawnBox& b, const InputGroup& group, int top, bool marked,
                bool fuses_marked) {
  if (group.drawn == 0) return;
  const Circuit& circuit = b.box.circuits[group.circuit];
  const auto fuses = fuses_an_input(b.box);
  std::string lines, heavy, forks, fuse, odd, unknown;
  for (std::uint32_t i = 0; i < group.drawn; ++i) {
    const bool last_of_condensed = group.condensed() && i + 1 == group.drawn;
    const std::uint32_t input = last_of_condensed ? group.inputs - 1 : i;
    const int y = top + group.offset(i);
    const std::string line = fmt::format("M{} {}H{}", sheet::inputs_from, y, sheet::bus);
    (group.marked.contains(input) ? heavy : lines) += line;
    if (circuit.strings_per_fuse > 1) forks += fmt::format("M{} {}l4 2-4 2", sheet::inputs_from - 4, y - 2);
    if (fuses == 0U) continue;
    const bool is_odd = b.visited != nullptr &&
                        std::any_of(b.visited->mixed_fuses.begin(), b.visited->mixed_fuses.end(),
                                    [&](const OddFuse& o) { return o.position == group.before + input + 1; });
    (is_odd ? odd : fuse) += fuse_path(first_fuse, y, group.pitch);
    if (fuses == 2U) (is_odd ? odd : fuse) += fuse_path(second_fuse, y, group.pitch);
    if (!fuses) unknown += fuse_path(second_fuse, y, group.pitch);
  }
  const bool whole = marked || group.marked_whole;
  const auto put = [&](std::string_view style, bool hit, const std::string& d) {
    if (!d.empty()) sheet.path(style, hit, d);
  };
  put("in", whole, lines);
  put("in", true, heavy);
  put("fork", false, forks);
  put("fuse", fuses_marked, fuse);
  put("fuse odd", fuses_marked, odd);
  put("fuse unk", fuses_marked, unknown);
  if (group.condensed()) {
    const int from = top + group.offset(group.drawn - 2) + group.pitch,
              to = top + group.offset(group.drawn - 1);
    put("dots", false,
        fmt::format("M{} {}V{}", first_fuse + fuse_length / 2, from - 2, to - group.pitch + 2));
  }
  if (group.drawn > 1)
    put("brace", whole,
        fmt::format("M{} {}h-3V{}h3", sheet::inputs_from - 1, top + group.offset(0) - 2,
                    top + group.offset(group.drawn - 1) + 2));
}

}  // namespace boxproof::report
