// Conductor sizes of the NEC ampacity tables, 14 AWG to 1000 kcmil, in order of cross section.
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <optional>
#include <string_view>

namespace boxproof {

enum class Material : std::uint8_t { copper, aluminum };
inline constexpr std::array<std::string_view, 2> material_names{"copper", "aluminum"};

class Size {
 public:
  static constexpr std::array<std::string_view, 24> names{
      "14 AWG",    "12 AWG",    "10 AWG",    "8 AWG",     "6 AWG",     "4 AWG",
      "3 AWG",     "2 AWG",     "1 AWG",     "1/0 AWG",   "2/0 AWG",   "3/0 AWG",
      "4/0 AWG",   "250 kcmil", "300 kcmil", "350 kcmil", "400 kcmil", "500 kcmil",
      "600 kcmil", "700 kcmil", "750 kcmil", "800 kcmil", "900 kcmil", "1000 kcmil"};
  static constexpr std::size_t count = names.size();

  constexpr explicit Size(std::size_t index) : index_(static_cast<std::uint8_t>(index)) {}
  constexpr std::size_t index() const { return index_; }
  constexpr std::string_view name() const { return names[index_]; }

  // The size with this name, written as in the tables ("10 AWG", "2/0 AWG", "350 kcmil"); nothing for any
  // other text.
  static constexpr std::optional<Size> parse(std::string_view text) {
    for (std::size_t i = 0; i < count; ++i)
      if (names[i] == text) return Size(i);
    return std::nullopt;
  }
  friend constexpr auto operator<=>(Size, Size) = default;

 private:
  std::uint8_t index_;
};

}  // namespace boxproof
