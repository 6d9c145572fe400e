// A number that stands for a text: the same text gives the same number on every machine.
#pragma once

#include <fmt/format.h>

#include <cstdint>
#include <string>
#include <string_view>

namespace boxproof::text {

// FNV-1a, 64 bits, over pieces with a separator that no UTF-8 text holds.
class Hash {
 public:
  void add(std::string_view piece) {
    for (const char c : piece) value_ = (value_ ^ static_cast<unsigned char>(c)) * prime;
    value_ = (value_ ^ 0xFFU) * prime;
  }
  std::string hex() const { return fmt::format("{:016x}", value_); }  // 16 digits

 private:
  static constexpr std::uint64_t prime = 0x100000001b3U;
  std::uint64_t value_ = 0xcbf29ce484222325U;
};

}  // namespace boxproof::text
