#include "tests/support/page.hpp"

#include <algorithm>

namespace boxproof::test {

std::vector<std::string> lines_of(std::string_view page) {
  std::vector<std::string> out;
  while (!page.empty()) {
    const auto end = page.find('\n');
    out.emplace_back(page.substr(0, end));
    page = end == std::string_view::npos ? std::string_view() : page.substr(end + 1);
  }
  return out;
}

std::string without_colour(std::string_view page) {
  std::string out;
  for (std::size_t at = 0; at < page.size(); ++at) {
    const bool code = page.substr(at, 2) == "\x1b[" && page.find('m', at) != std::string_view::npos;
    if (code)
      at = page.find('m', at);
    else
      out += page[at];
  }
  return out;
}

std::size_t columns_of(std::string_view line) {
  const std::string bare = without_colour(line);
  return static_cast<std::size_t>(std::count_if(
      bare.begin(), bare.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::vector<std::string> too_wide(std::string_view page) {
  constexpr std::size_t page_width = 80;
  std::vector<std::string> out;
  for (const std::string& line : lines_of(page))
    if (columns_of(line) > page_width) out.push_back(line);
  return out;
}

std::size_t control_characters(std::string_view page) {
  return static_cast<std::size_t>(std::count_if(page.begin(), page.end(), [](char c) {
    const auto u = static_cast<unsigned char>(c);
    return (u < 0x20 && c != '\n') || u == 0x7F;
  }));
}

}  // namespace boxproof::test
