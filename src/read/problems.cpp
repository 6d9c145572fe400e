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

void Problems::keep(Item item) {
  constexpr std::size_t most = 20 * shown;
  items_.push_back(std::move(item));
  if (items_.size() < most) return;
  by_place();  // only the first of the file are shown, in whatever order they came
  items_.resize(shown);
}

void Problems::by_place() {
  std::stable_sort(items_.begin(), items_.end(),
                   [](const Item& a, const Item& b) { return a.offset < b.offset; });
}

void Problems::add(std::uint32_t offset, std::string pointer, std::string message) {
  ++total_;
  if (made_ != nullptr) {
    const MadeText::Piece piece = made_->piece(offset);
    offset = piece.source_at;
    message = made_->with_cell(piece, std::move(message));
  }
  keep({offset, std::move(pointer), std::move(message)});
}

std::string Problems::name_of(std::uint32_t offset, std::string pointer) const {
  return made_ != nullptr ? fmt::format("row {}", made_->piece(offset).row) : pointer;
}

void Problems::take(Problems&& other) {
  total_ += other.total_;
  for (Item& item : other.items_) keep(std::move(item));
}

void Problems::raise() {
  if (!any()) return;
  by_place();
  text::LineIndex lines(source_);
  std::vector<Problem> problems;
  for (Item& item : items_) {
    if (problems.size() == shown) break;
    const text::LineColumn at = lines.at(item.offset);
    problems.push_back({file_, at.line, at.column, std::move(item.pointer), std::move(item.message)});
  }
  throw InputError(std::move(problems), total_);
}

}  // namespace read
}  // namespace boxproof
