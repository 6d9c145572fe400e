// What an invented ground-mounted plant is made of: the kinds of modules and boxes, sized so that they fit
// together.
#pragma once

#include <array>
#include <string_view>
#include <vector>

namespace plant {

struct ModuleKind {
  std::string_view id;
  int series;  // modules in a string: the most that stay under 1500 V at the plant's coldest
  int fuse;    // string fuse, A
  double pmax;
  std::string_view values;  // the rest of its data, as JSON members
};

struct BoxKind {
  std::string_view id;
  int near, far;                    // strings of the two groups
  std::string_view conductor;       // of the output
  int ocpd, enclosure, disconnect;  // A
  std::string_view grounding;
};

// Made-up modules of today's sizes. At -12 °C their strings reach 1463 to 1481 V.
inline constexpr std::array<ModuleKind, 4> modules{{
    {"P-545", 27, 25, 545,
     R"("voc_v": 49.7, "isc_a": 13.9, "vmp_v": 41.8, "imp_a": 13.04, "voc_coeff_pct_per_c": -0.27, "max_fuse_a": 25)"},
    {"P-410", 36, 25, 410,
     R"("voc_v": 37.4, "isc_a": 13.9, "vmp_v": 31.3, "imp_a": 13.1, "voc_coeff_pct_per_c": -0.27, "max_fuse_a": 25)"},
    {"P-590-2G", 25, 30, 590,
     R"("voc_v": 53.4, "isc_a": 13.9, "isc_rear_a": 15.2, "vmp_v": 44.7, "imp_a": 13.2, "voc_coeff_pct_per_c": -0.26, "max_fuse_a": 30)"},
    {"P-620", 24, 25, 620,
     R"("voc_v": 55.6, "isc_a": 14.2, "vmp_v": 46.4, "imp_a": 13.37, "voc_coeff_pct_per_c": -0.27, "max_fuse_a": 30)"},
}};

// Sized for the largest module current above, 1.25 · 15.2 A a string.
inline constexpr std::array<BoxKind, 3> boxes{{
    {"S6", 3, 3, "cu-1/0", 150, 160, 160, "6 AWG"},
    {"S8", 4, 4, "cu-3/0", 200, 200, 200, "6 AWG"},
    {"S12", 6, 6, "cu-350", 300, 320, 320, "4 AWG"},
}};

enum class Fault { none, series, output_conductor, fuse, disconnect, length };

struct Box {
  unsigned number = 0, inverter = 0;  // both from 1
  const BoxKind* kind = nullptr;
  const ModuleKind* module = nullptr;
  int series = 0, near_length = 0, far_length = 0, output_length = 0;
  Fault fault = Fault::none;
};

// A visit to every box.
void print_record(const std::vector<Box>& plan);

// Everything in front of the inverters, and the parts between them and the boxes.
void print_modules();
void print_conductors();
void print_box_types();

}  // namespace plant
