#include "tests/benchmark/plant_parts.hpp"

#include <fmt/format.h>

namespace plant {
namespace {

// Members of a list: a comma behind all but the last.
std::string_view separator(bool last) {
  return last ? "" : ",";
}

void print_box_type(const BoxKind& kind, int fuse, bool last) {
  constexpr double string_current = 1.25 * 15.2;  // as the boxes are sized
  fmt::print(R"(    "{0}-{1}": {{
      "mounting": {{ "place": "ground", "cover": "side", "air_gap_mm": 12, "wet": true }},
      "enclosure": {{
        "type": "4X", "rated_v": 1500, "rated_a": {2}, "inputs": {3}, "listed": true, "metal": false, "inside_c": 46
      }},
      "fuse": {{
        "a": {1}, "v": 1500, "dc": true, "pv_listed": true, "poles": "one", "interrupt_ka": 30, "ambient_factor": 0.96
      }},
      "output": {{ "ocpd_a": {4}, "ocpd_rated_100_pct": false }},
      "disconnect": {{
        "rated_v": 1500, "rated_a": {5}, "load_break": true, "distance_m": 0, "external_handle": true, "lockable": true
      }},
      "egc": {{ "size": "{6}", "material": "copper" }},
      "bond": {{ "size": "10 AWG", "material": "copper" }},
      "labels": [
        {{ "kind": "box-identification" }},
        {{ "kind": "dc-power-source", "values": {{ "max_v": 1490, "max_a": {7} }} }},
        {{ "kind": "max-voltage", "values": {{ "max_v": 1490 }} }},
        {{ "kind": "shock-both-sides" }},
        {{ "kind": "disconnect" }},
        {{ "kind": "raceway-power-source" }}
      ]
    }}{8}
)",
             kind.id, fuse, kind.enclosure, kind.near + kind.far, kind.ocpd, kind.disconnect, kind.grounding,
             string_current * (kind.near + kind.far), separator(last));
}

}  // namespace

void print_modules() {
  fmt::print("  \"modules\": {{\n");
  for (const ModuleKind& m : modules)
    fmt::print(R"(    "{}": {{
      "cell": "mono-si", "pmax_w": {}, {},
      "vmp_coeff_pct_per_c": -0.34, "isc_coeff_pct_per_c": 0.05, "max_system_v": 1500, "listed": true
    }}{}
)",
               m.id, m.pmax, m.values, separator(&m == &modules.back()));
  fmt::print("  }},\n");
}

void print_conductors() {
  struct Wire {
    std::string_view id, size, insulation;
  };
  constexpr std::array<Wire, 5> wires{{{"pv-10", "10 AWG", "PV wire"},
                                       {"cu-4", "4 AWG", "RHW-2"},
                                       {"cu-1/0", "1/0 AWG", "RHW-2"},
                                       {"cu-3/0", "3/0 AWG", "RHW-2"},
                                       {"cu-350", "350 kcmil", "RHW-2"}}};
  fmt::print("  \"conductors\": {{\n");
  for (const Wire& w : wires)
    fmt::print(R"(    "{}": {{
      "size": "{}", "material": "copper", "insulation": "{}", "insulation_c": 90, "rated_v": 2000, "stranding": "coarse"
    }}{}
)",
               w.id, w.size, w.insulation, separator(&w == &wires.back()));
  fmt::print("  }},\n");
}

void print_box_types() {
  fmt::print("  \"box_types\": {{\n");
  for (const BoxKind& kind : boxes) {
    print_box_type(kind, 25, false);
    print_box_type(kind, 30, &kind == &boxes.back());
  }
  fmt::print("  }},\n");
}

}  // namespace plant
