#include "src/text/place.hpp"

#include <algorithm>

namespace boxproof::text {
namespace {

constexpr std::uint32_t block = 1U << 14;  // bytes

// Bytes for which `is` holds, counted in a byte for stretches that a byte can count, which the compiler turns
// into wide instructions.
template <class Is>
std::uint32_t count_bytes(std::string_view text, Is is) {
  constexpr std::size_t stretch = 255;
  std::uint32_t total = 0;
  for (; !text.empty(); text.remove_prefix(std::min(stretch, text.size()))) {
    std::uint8_t here = 0;
    for (const char c : text.substr(0, stretch)) here = static_cast<std::uint8_t>(here + (is(c) ? 1 : 0));
    total += here;
  }
  return total;
}

std::uint32_t line_ends(std::string_view text) {
  return count_bytes(text, [](char c) { return c == '\n'; });
}
std::uint32_t code_points(std::string_view text) {
  return count_bytes(text, [](char c) { return (c & 0xC0) != 0x80; });
}

// The place behind `text`, which starts at `from`.
LineColumn advance(LineColumn from, std::string_view text) {
  const auto last = text.rfind('\n');
  if (last == std::string_view::npos) return {from.line, from.column + code_points(text)};
  return {from.line + line_ends(text.substr(0, last + 1)), 1 + code_points(text.substr(last + 1))};
}

}  // namespace

LineColumn line_column(std::string_view source, std::uint32_t offset) {
  return LineIndex(source).at(offset);
}

LineColumn LineIndex::at(std::uint32_t offset) {
  constexpr std::uint32_t mark = 3;  // bytes of a byte-order mark, which takes no column
  if (starts_.empty())
    starts_.push_back(source_.starts_with("\xEF\xBB\xBF") ? LineColumn{1, 0} : LineColumn{1, 1});
  offset = static_cast<std::uint32_t>(std::min<std::size_t>(offset, source_.size()));
  if (starts_.front().column == 0 && offset < mark) return {1, 1};
  const std::uint32_t wanted = offset / block;
  while (starts_.size() <= wanted)
    starts_.push_back(advance(starts_.back(), source_.substr((starts_.size() - 1) * block, block)));
  return advance(starts_[wanted], source_.substr(std::size_t{wanted} * block, offset - wanted * block));
}

}  // namespace boxproof::text
