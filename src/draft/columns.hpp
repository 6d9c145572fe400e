// The columns of a combiner schedule: each is a key of a box or of one of its circuits.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>

#include "boxproof/conductor_size.hpp"
#include "boxproof/design.hpp"

namespace boxproof::draft {

// What the cells of a column hold. `part`: true, where the part is there though no other column says anything
// of it, or false, where there is none.
enum class Holds : std::uint8_t { text, number, truth, part, labels };

struct Column {
  std::string_view name;
  std::string_view path;  // of the key in a box of a design file
  Holds holds = Holds::text;
  std::span<const std::string_view> words = {};  // of a text: what it may be; empty: any
  bool own = false;                              // differs among boxes of one kind
  std::string_view about = {};                   // what it means; empty: as the schema says of the key
};

// In the order of a box's keys; the columns of a part stand behind the part's own.
inline constexpr auto columns = std::to_array<Column>({
    {"id", "id", Holds::text, {}, true},
    {"type",
     "type",
     Holds::text,
     {},
     true,
     "What kind of box it is, by any name; boxes of one type share what most of them state"},
    {"inverter", "inverter", Holds::text, {}, true},
    {"sheet", "sheet", Holds::text, {}, true},
    {"location", "location", Holds::text, {}, true},
    {"mounting", "mounting", Holds::part},
    {"mounting_place", "mounting/place", Holds::text, place_names},
    {"mounting_cover", "mounting/cover", Holds::text, cover_names},
    {"mounting_air_gap_mm", "mounting/air_gap_mm", Holds::number},
    {"mounting_wet", "mounting/wet", Holds::truth},
    {"enclosure", "enclosure", Holds::part},
    {"enclosure_type", "enclosure/type"},
    {"enclosure_rated_v", "enclosure/rated_v", Holds::number},
    {"enclosure_rated_a", "enclosure/rated_a", Holds::number},
    {"enclosure_inputs", "enclosure/inputs", Holds::number},
    {"enclosure_listed", "enclosure/listed", Holds::truth},
    {"enclosure_metal", "enclosure/metal", Holds::truth},
    {"enclosure_rated_100_pct", "enclosure/rated_100_pct", Holds::truth},
    {"enclosure_inside_c", "enclosure/inside_c", Holds::number},
    {"circuit_id", "circuits/id", Holds::text, {}, true},
    {"module", "circuits/module", Holds::text, {}, true},
    {"series", "circuits/series", Holds::number, {}, true},
    {"strings", "circuits/strings", Holds::number, {}, true},
    {"strings_per_fuse", "circuits/strings_per_fuse", Holds::number, {}, true},
    {"run", "circuits/run", Holds::part, {}, true},
    {"run_conductor", "circuits/run/conductor", Holds::text, {}, true},
    {"run_method", "circuits/run/method", Holds::text, method_names, true},
    {"run_current_carrying", "circuits/run/current_carrying", Holds::number, {}, true},
    {"run_above_roof_mm", "circuits/run/above_roof_mm", Holds::number, {}, true},
    {"run_ambient_c", "circuits/run/ambient_c", Holds::number, {}, true},
    {"run_terminal_c", "circuits/run/terminal_c", Holds::number, {}, true},
    {"run_length_m", "circuits/run/length_m", Holds::number, {}, true},
    {"run_parallel", "circuits/run/parallel", Holds::number, {}, true},
    {"circuit_bond",
     "circuits/bond",
     Holds::part,
     {},
     true,
     "Equipment grounding conductor of this circuit, where it is not the box's bond"},
    {"circuit_bond_size", "circuits/bond/size", Holds::text, Size::names, true},
    {"circuit_bond_material", "circuits/bond/material", Holds::text, material_names, true},
    {"fuse", "fuse", Holds::part},
    {"fuse_a", "fuse/a", Holds::number},
    {"fuse_v", "fuse/v", Holds::number},
    {"fuse_dc", "fuse/dc", Holds::truth},
    {"fuse_pv_listed", "fuse/pv_listed", Holds::truth},
    {"fuse_poles", "fuse/poles", Holds::text, poles_names},
    {"fuse_interrupt_ka", "fuse/interrupt_ka", Holds::number},
    {"fuse_ambient_factor", "fuse/ambient_factor", Holds::number},
    {"output", "output", Holds::part},
    {"output_run", "output/run", Holds::part, {}, false, "How the output is laid"},
    {"output_conductor", "output/run/conductor"},
    {"output_method", "output/run/method", Holds::text, method_names},
    {"output_current_carrying", "output/run/current_carrying", Holds::number},
    {"output_above_roof_mm", "output/run/above_roof_mm", Holds::number},
    {"output_ambient_c", "output/run/ambient_c", Holds::number},
    {"output_terminal_c", "output/run/terminal_c", Holds::number},
    {"output_length_m", "output/run/length_m", Holds::number, {}, true},
    {"output_parallel", "output/run/parallel", Holds::number},
    {"output_ocpd_a", "output/ocpd_a", Holds::number},
    {"output_ocpd_rated_100_pct", "output/ocpd_rated_100_pct", Holds::truth},
    {"disconnect", "disconnect", Holds::part},
    {"disconnect_rated_v", "disconnect/rated_v", Holds::number},
    {"disconnect_rated_a", "disconnect/rated_a", Holds::number},
    {"disconnect_load_break", "disconnect/load_break", Holds::truth},
    {"disconnect_distance_m", "disconnect/distance_m", Holds::number},
    {"disconnect_external_handle", "disconnect/external_handle", Holds::truth},
    {"disconnect_lockable", "disconnect/lockable", Holds::truth},
    {"egc", "egc", Holds::part, {}, false, "Equipment grounding conductor of the output"},
    {"egc_size", "egc/size", Holds::text, Size::names},
    {"egc_material", "egc/material", Holds::text, material_names},
    {"bond", "bond", Holds::part, {}, false, "Equipment grounding conductor of the source circuits"},
    {"bond_size", "bond/size", Holds::text, Size::names},
    {"bond_material", "bond/material", Holds::text, material_names},
    {"labels", "labels", Holds::labels, {}, true},
});

inline constexpr auto column_names = [] {
  std::array<std::string_view, columns.size()> names{};
  for (std::size_t c = 0; c < columns.size(); ++c) names[c] = columns[c].name;
  return names;
}();

// Its number; a name that is none does not compile.
consteval std::size_t column(std::string_view name) {
  std::size_t c = 0;
  while (columns.at(c).name != name) ++c;
  return c;
}

// The columns of a circuit; the others are of a box.
inline constexpr std::size_t circuit_begin = column("circuit_id"), circuit_end = column("fuse");
constexpr bool is_of_circuit(std::size_t c) {
  return c >= circuit_begin && c < circuit_end;
}

// What every box, or every circuit, must state.
inline constexpr std::array<std::string_view, 4> required_columns{"id", "inverter", "module", "series"};

// The key that a column is: "a" of "fuse/a".
constexpr std::string_view key_of(std::size_t c) {
  const std::string_view path = columns[c].path;
  return path.substr(path.rfind('/') + 1);  // the whole, where there is no stroke
}

// Behind the last column of a part.
constexpr std::size_t part_end(std::size_t part) {
  std::size_t c = part + 1;
  const std::string_view path = columns[part].path;
  while (c < columns.size() && columns[c].path.starts_with(path) && columns[c].path[path.size()] == '/') ++c;
  return c;
}

}  // namespace boxproof::draft
