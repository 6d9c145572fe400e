#include "src/text/words.hpp"

#include <algorithm>
#include <array>

namespace boxproof::text {
namespace {

constexpr std::array<std::string_view, 3> between{"/", ",", " or "};

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

}  // namespace

bool same_word(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return lower(x) == lower(y); });
}

std::vector<std::string_view> printed_names(std::string_view print) {
  std::vector<std::string_view> names;
  while (true) {
    std::size_t end = print.size(), next = print.size();
    for (const std::string_view separator : between)
      if (const std::size_t at = print.find(separator); at < end) end = at, next = at + separator.size();
    if (const std::string_view name = trimmed(print.substr(0, end)); !name.empty()) names.push_back(name);
    if (next >= print.size()) break;
    print.remove_prefix(next);
  }
  if (names.empty()) names.push_back(print);
  return names;
}

bool prints(std::string_view print, std::string_view name) {
  const std::vector<std::string_view> names = printed_names(print);
  return std::any_of(names.begin(), names.end(), [&](std::string_view n) { return same_word(n, name); });
}

}  // namespace boxproof::text
