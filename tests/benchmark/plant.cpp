// Writes the plan of an invented solar plant of any size as a design file, for measuring speed and memory; or
// the record of a visit to each of its boxes, which finds the plan built but for one fault in a hundred
// boxes.
//
//   boxproof_plant BOXES [--seed N] [--record] > plant.json
//
// The same number of boxes and seed give the same bytes. One box in a hundred has a fault; the others are
// meant to pass every rule. Sixty thousand boxes make about 50 MB and half a million strings.
#include <fmt/format.h>

#include <charconv>
#include <cstdio>
#include <optional>
#include <random>
#include <string_view>
#include <system_error>
#include <vector>

#include "tests/benchmark/plant_parts.hpp"

namespace plant {
namespace {

constexpr unsigned boxes_per_inverter = 40;
constexpr unsigned boxes_per_fault = 100;
constexpr unsigned boxes_per_sheet = 20;

constexpr unsigned fault_kinds = 5;

// Whole numbers from 0 to below `end`. The generator's sequence is fixed by the standard, the distributions
// are not.
class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  int below(unsigned end) { return static_cast<int>(engine_() % end); }

 private:
  std::mt19937 engine_;
};

std::vector<Box> make_boxes(unsigned count, unsigned seed) {
  Dice dice(seed);
  std::vector<Box> plan(count);
  unsigned faulty = 0;
  for (unsigned i = 0; i < count; ++i) {
    Box& box = plan[i];
    box.number = i + 1;
    box.inverter = i / boxes_per_inverter + 1;
    const int roll =
        dice.below(10);  // of ten boxes two take 6 strings, six take 8, two take 12: 8.4 on average
    box.kind = &boxes[roll < 2 ? 0 : roll < 8 ? 1 : 2];
    box.module = &modules[box.inverter % modules.size()];  // one kind of module an inverter
    box.series = box.module->series;
    box.near_length = 12 + dice.below(18);
    box.far_length = box.near_length + 10 + dice.below(25);
    box.output_length = 40 + dice.below(110);
    if (i % boxes_per_fault == 0) faulty = i + static_cast<unsigned>(dice.below(boxes_per_fault));
    if (i == faulty) box.fault = static_cast<Fault>(1 + dice.below(fault_kinds));
    if (box.fault == Fault::series) ++box.series;
  }
  return plan;
}

void print_front(const std::vector<Box>& plan) {
  long strings = 0, modules = 0;
  double watts = 0;
  for (const Box& box : plan) {
    const int on_box = box.kind->near + box.kind->far;
    strings += on_box;
    modules += on_box * box.series;
    watts += on_box * box.series * box.module->pmax;
  }
  fmt::print(R"({{
  "$schema": "design.schema.json",
  "format": "boxproof-design/1",
  "site": {{
    "name": "Long Furrow plant, {0} boxes",
    "use": "ground",
    "low_c": -12,
    "high_c": 38,
    "temperature_source": "sheet E-001",
    "permit": {{ "number": "LF-1", "modules": {1}, "strings": {2}, "combiners": {0}, "dc_kw": {3:.2f} }}
  }},
  "code": {{ "edition": "2020" }},
)",
             plan.size(), modules, strings, watts / 1000);
}

void print_inverters(unsigned count) {
  fmt::print("  \"inverters\": {{\n");
  for (unsigned i = 1; i <= count; ++i)
    fmt::print(R"(    "INV-{:04}": {{
      "max_dc_v": 1500, "max_dc_isc_a": 9200, "mppt_min_v": 875, "mppt_max_v": 1350, "grounding": "functional",
      "ground_fault_protection": true, "arc_fault_protection": true, "rapid_shutdown": true, "backfeed_a": 0
    }}{}
)",
               i, i == count ? "" : ",");
  fmt::print("  }},\n");
}

void print_circuit(const Box& box, std::string_view id, int strings, int length, bool last) {
  const bool left_out = last && box.fault == Fault::length;
  fmt::print(R"(        {{
          "id": "{}", "module": "{}", "series": {}, "strings": {},
          "run": {{
            "conductor": "pv-10", "method": "free-air", "current_carrying": {}, "terminal_c": 75{}
          }}
        }}{}
)",
             id, box.module->id, box.series, strings, 2 * strings,
             left_out ? "" : fmt::format(", \"length_m\": {}", length), last ? "" : ",");
}

void print_box(const Box& box, bool last) {
  fmt::print(R"(    {{
      "id": "CB-{:05}",
      "type": "{}-{}",
      "inverter": "INV-{:04}",
      "sheet": "E-{:04}",
      "location": "block {}, row {}",
      "circuits": [
)",
             box.number, box.kind->id, box.module->fuse, box.inverter,
             201 + (box.number - 1) / boxes_per_sheet, box.inverter,
             (box.number - 1) % boxes_per_inverter + 1);
  print_circuit(box, "near", box.kind->near, box.near_length, false);
  print_circuit(box, "far", box.kind->far, box.far_length, true);
  fmt::print("      ],\n");
  if (box.fault == Fault::fuse) fmt::print("      \"fuse\": {{ \"a\": 20 }},\n");
  if (box.fault == Fault::disconnect) fmt::print("      \"disconnect\": {{ \"distance_m\": 7.5 }},\n");
  fmt::print(R"(      "output": {{
        "run": {{
          "conductor": "{}", "method": "raceway", "current_carrying": 2, "terminal_c": 75, "length_m": {}
        }},
        "ocpd_a": {}
      }}
    }}{}
)",
             box.fault == Fault::output_conductor ? "cu-4" : box.kind->conductor, box.output_length,
             box.kind->ocpd, last ? "" : ",");
}

void print_plan(const std::vector<Box>& plan) {
  print_front(plan);
  print_modules();
  print_inverters(plan.back().inverter);
  print_conductors();
  print_box_types();
  fmt::print("  \"combiners\": [\n");
  for (const Box& box : plan) print_box(box, &box == &plan.back());
  fmt::print("  ]\n}}\n");
}

// Nothing where the text is no whole number.
std::optional<unsigned> whole_number(std::string_view text) {
  unsigned value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

}  // namespace
}  // namespace plant

int main(int count, char** arguments) {
  std::vector<std::string_view> words(arguments + 1, arguments + count);
  const bool record = !words.empty() && words.back() == "--record";
  if (record) words.pop_back();
  const bool seeded = words.size() == 3 && words[1] == "--seed";
  const unsigned boxes = words.empty() ? 0 : plant::whole_number(words[0]).value_or(0);
  const std::optional<unsigned> seed = plant::whole_number(seeded ? words[2] : "1");
  if (boxes == 0 || !seed || (words.size() != 1 && !seeded)) {
    fmt::print(stderr, "usage: boxproof_plant BOXES [--seed N] [--record] > plant.json (at least one box)\n");
    return 2;
  }
  try {
    const auto plan = plant::make_boxes(boxes, *seed);
    record ? plant::print_record(plan) : plant::print_plan(plan);
  } catch (const std::system_error& error) {  // fmt's, where it cannot write
    fmt::print(stderr, "boxproof_plant: {}\n", error.what());
    return 3;
  }
  return std::fflush(stdout) == 0 ? 0 : 3;
}
