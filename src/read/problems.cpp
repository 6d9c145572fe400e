#include "src/read/problems.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/text/place.hpp"

namespace boxproof {

std::string to_text(const Problem& p) {
  std::string place = p.line == 0 ? p.file : fmt::format("{}:{}:{}", p.file, p.line, p.column);
  return fmt::format("{}: {}{}{}", place, p.pointer, p.pointer.empty() ? "" : ": ", p.message);
}

namespace read {

namespace {
constexpr std::size_t kept = 20 * Problems::shown;  // enough to sort by place, however many there are
}

void Problems::add(std::uint32_t offset, std::string pointer, std::string message) {
  ++total_;
  if (items_.size() < kept) items_.push_back({offset, std::move(pointer), std::move(message)});
}

void Problems::take(Problems&& other) {
  total_ += other.total_;
  for (Item& item : other.items_)
    if (items_.size() < kept) items_.push_back(std::move(item));
}

void Problems::raise() const {
  if (!any()) return;
  std::vector<Item> sorted = items_;
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const Item& a, const Item& b) { return a.offset < b.offset; });
  text::LineIndex lines(source_);
  std::vector<Problem> problems;
  for (Item& item : sorted) {
    if (problems.size() == shown) break;
    const text::LineColumn at = lines.at(item.offset);
    problems.push_back({file_, at.line, at.column, std::move(item.pointer), std::move(item.message)});
  }
  throw InputError(std::move(problems), total_);
}

}  // namespace read
}  // namespace boxproof
