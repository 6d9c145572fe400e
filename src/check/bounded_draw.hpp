// A random number below a bound, the same on every machine.
#pragma once

#include <cstdint>

namespace boxproof {

// From a generator that gives each 32-bit number as likely as any other. Numbers beyond the last whole
// multiple of `end` are drawn again, so that none below `end` is likelier than another. The distributions of
// the standard library do the like, each library in a way of its own.
template <class Generator>
std::uint32_t draw_below(Generator& generator, std::uint32_t end) {
  constexpr std::uint64_t all = std::uint64_t{1} << 32;
  const std::uint64_t whole = all - all % end;
  std::uint64_t number = generator();
  while (number >= whole) number = generator();
  return static_cast<std::uint32_t>(number % end);
}

}  // namespace boxproof
