// The record of a visit to every box of the invented plant: counted, read, looked at, and one box in ten
// measured.
#include <fmt/format.h>

#include "tests/benchmark/plant_parts.hpp"

namespace plant {
namespace {

constexpr unsigned boxes_per_measured = 10;
constexpr unsigned boxes_per_odd_one = 100;  // where something is not as planned

void print_measured(const Box& box) {
  const int strings = box.kind->near + box.kind->far;
  fmt::print(",\n      \"measured\": {{ \"irradiance_w_m2\": 870, \"cell_c\": 41, \"strings\": [\n");
  for (int i = 1; i <= strings; ++i)
    fmt::print("        {{ \"position\": {}, \"isc_a\": {:.2f}, \"insulation_mohm\": {} }}{}\n", i,
               12.0 + 0.01 * (i % 4), 40 + i, i == strings ? "" : ",");
  fmt::print("      ] }}");
}

void print_visited(const Box& box, bool last) {
  const int strings = box.kind->near + box.kind->far;
  const bool odd = box.number % boxes_per_odd_one == 0;
  const int fuse = box.fault == Fault::fuse ? 20 : box.module->fuse;
  constexpr double string_current = 1.25 * 15.2;  // as the labels of the plan
  fmt::print(R"(    {{
      "id": "CB-{0:05}",
      "posted": {{ "id": "CB-{0:05}", "strings": {1}, "series": {2}, "max_v": 1490, "max_a": {3}, "fuse_a": {4} }},
      "count": {{ "positive": {5}, "negative": {1}, "fuses": {1}, "series": {2}, "modules": {6} }},
      "fuse": {{ "a": {4}, "v": 1500, "dc": true, "pv_listed": true, "poles": "one" }},
      "enclosure": {{ "type": "4X", "air_gap_mm": 12, "cover": "side", "listed": true, "secured": true, "gasket_seated": {7} }},
      "disconnect": {{ "present": true, "rated_v": 1500, "rated_a": {8}, "load_break": true, "works": true }},
      "output": {{ "material": "copper", "stranding": "coarse", "insulation": "RHW-2" }},
      "source": {{ "size": "10 AWG", "material": "copper", "stranding": "coarse", "insulation": "PV wire" }},
      "egc": {{ "size": "{9}", "material": "copper" }},
      "labels": [
        {{ "kind": "box-identification", "legible": true }}, {{ "kind": "dc-power-source", "legible": true }},
        {{ "kind": "max-voltage", "legible": true, "values": {{ "max_v": 1490 }} }},
        {{ "kind": "shock-both-sides", "legible": true }}, {{ "kind": "disconnect", "legible": true }},
        {{ "kind": "raceway-power-source", "legible": true }}
      ])",
             box.number, strings, box.series, string_current * strings, fuse, strings + (odd ? 1 : 0),
             strings * box.series, odd ? "false" : "true", box.kind->disconnect, box.kind->grounding);
  if (odd)
    fmt::print(
        ",\n      \"seen\": [ {{ \"what\": \"cracked-bushing\", \"where\": \"output hub\", \"origin\": "
        "\"manufacture\" }} ]");
  if (box.number % boxes_per_measured == 0) print_measured(box);
  fmt::print("\n    }}{}\n", last ? "" : ",");
}

}  // namespace

void print_record(const std::vector<Box>& plan) {
  fmt::print(
      "{{\n  \"format\": \"boxproof-asbuilt/1\",\n  \"visit\": {{ \"date\": \"2027-05-04\" }},\n  \"boxes\": [\n");
  for (const Box& box : plan) print_visited(box, &box == &plan.back());
  fmt::print("  ]\n}}\n");
}

}  // namespace plant
