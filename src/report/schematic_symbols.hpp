// Symbols of a one-line drawing as path data. Their forms are common practice on drawings of the trade: a
// fuse is a rectangle with its line through it; a switch is drawn open, a bar at its fixed contact for one
// that isolates, with a ring for one that also breaks load.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>

namespace boxproof::report {

inline constexpr int switch_height = 44, device_height = 14, inverter_size = 22;

// Vertical at x from y down. Where it is not known what the switch may break it has no sign for it.
inline std::string switch_path(int x, int y, std::optional<bool> load_break) {
  constexpr int contact = 14, pivot = 34;
  std::string out =
      fmt::format("M{} {}v{}M{} {}l-13-{}M{} {}v{}", x, y, load_break == true ? contact - 6 : contact, x,
                  y + pivot, pivot - contact, x, y + pivot, switch_height - pivot);
  if (load_break) out += fmt::format("M{} {}h12", x - 6, y + contact);
  if (load_break == true) out += fmt::format("m-9-3a3 3 0 1 0 6 0a3 3 0 1 0-6 0");
  return out;
}

// An overcurrent device of any kind: a square with a cross in it.
inline std::string device_path(int x, int y) {
  constexpr int half = device_height / 2;
  return fmt::format("M{} {}h{}v{}h-{}zl{} {}m0-{}l-{} {}", x - half, y, device_height, device_height,
                     device_height, device_height, device_height, device_height, device_height,
                     device_height);
}

// Direct current in, alternating out.
inline std::string inverter_path(int x, int y) {
  constexpr int half = inverter_size / 2;
  return fmt::format("M{} {}h{}v{}h-{}zm0 {}l{}-{}M{} {}h7m-7 3h7M{} {}q2.5-4 4.5 0t4.5 0", x - half, y,
                     inverter_size, inverter_size, inverter_size, inverter_size, inverter_size, inverter_size,
                     x - half + 3, y + 6, x + 1, y + 16);
}

// A conductor down to earth.
inline std::string ground(int x, int from, int to) {
  return fmt::format("M{} {}V{}m-8 0h16m-13 3h10m-7 3h4", x, from, to);
}

// One that comes in from the left at `from` and ends on a grounded bar at x.
inline std::string ground_bar(int x, int y, int from) {
  return fmt::format("M{} {}H{}v4m-8 0h16m-13 3h10m-7 3h4", from, y, x);
}

// Conductors in parallel side by side, as many as can be told apart.
inline std::string conductors(int x, int from, int to, unsigned parallel) {
  constexpr unsigned most = 4;
  constexpr int pitch = 4;
  const int n = static_cast<int>(std::clamp(parallel, 1U, most));
  std::string out;
  for (int i = 0; i < n; ++i) out += fmt::format("M{} {}V{}", x + i * pitch - (n - 1) * pitch / 2, from, to);
  return out;
}

}  // namespace boxproof::report
