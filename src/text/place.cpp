#include "src/text/place.hpp"

#include <algorithm>

namespace boxproof::text {
namespace {

constexpr std::uint32_t block = 1U << 16;

std::uint32_t line_ends(std::string_view text) {
  // Counted in bytes for stretches that a byte can count, which the compiler turns into wide instructions.
  constexpr std::size_t stretch = 255;
  std::uint32_t total = 0;
  for (; !text.empty(); text.remove_prefix(std::min(stretch, text.size()))) {
    std::uint8_t here = 0;
    for (const char c : text.substr(0, stretch)) here = static_cast<std::uint8_t>(here + (c == '\n' ? 1 : 0));
    total += here;
  }
  return total;
}

std::uint32_t column_of(std::string_view source, std::uint32_t offset) {
  const auto end_before = source.substr(0, offset).rfind('\n');
  std::string_view line = source.substr(0, offset);
  if (end_before != std::string_view::npos) line.remove_prefix(end_before + 1);
  if (end_before == std::string_view::npos && line.starts_with("\xEF\xBB\xBF")) line.remove_prefix(3);
  const auto points = std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; });
  return static_cast<std::uint32_t>(points) + 1;
}

}  // namespace

LineColumn line_column(std::string_view source, std::uint32_t offset) {
  return LineIndex(source).at(offset);
}

LineColumn LineIndex::at(std::uint32_t offset) {
  offset = static_cast<std::uint32_t>(std::min<std::size_t>(offset, source_.size()));
  const std::uint32_t wanted = offset / block;
  if (before_.empty()) before_.push_back(0);
  while (before_.size() <= wanted) {
    const std::size_t start = (before_.size() - 1) * block;
    before_.push_back(before_.back() + line_ends(source_.substr(start, block)));
  }
  const std::string_view rest = source_.substr(std::size_t{wanted} * block, offset - wanted * block);
  return {before_[wanted] + line_ends(rest) + 1, column_of(source_, offset)};
}

}  // namespace boxproof::text
