#include "src/read/source_map.hpp"

#include <algorithm>
#include <charconv>
#include <string_view>

namespace boxproof::read {

const Tree* SourceMap::piece(std::string_view key, std::int64_t index) {
  for (const Cached& c : cache_)
    if (c.index == index && c.key == key) return &c.tree;
  std::uint32_t offset = 0;
  if (index >= 0) {
    if (static_cast<std::size_t>(index) >= elements_.size()) return nullptr;
    offset = elements_[static_cast<std::size_t>(index)];
    cache_.remove_if([](const Cached& c) { return c.index >= 0; });
  } else {
    const auto member =
        std::find_if(members_.begin(), members_.end(), [&](const auto& m) { return m.first == key; });
    if (member == members_.end()) return nullptr;
    offset = member->second;
  }
  Cached& cached = cache_.emplace_back();
  cached.key = std::string(key);
  cached.index = index;
  cached.tree = parse_value(text_, offset);
  cached.tree.top_key = cached.key;
  cached.tree.index = index;
  return &cached.tree;
}

SourceMap::Found SourceMap::find(std::string_view pointer) {
  if (pointer.empty()) return document();
  const auto split = pointer.find('/', 1);
  const std::string_view key = pointer.substr(1, split == std::string_view::npos ? split : split - 1);
  std::string_view rest = split == std::string_view::npos ? std::string_view() : pointer.substr(split);
  std::int64_t index = -1;
  if (key == list_key_ && !rest.empty()) {
    const auto end = rest.find('/', 1);
    const std::string_view token = rest.substr(1, end == std::string_view::npos ? end : end - 1);
    std::from_chars(token.data(), token.data() + token.size(), index);
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end);
  }
  const Tree* tree = piece(key, index);
  if (tree == nullptr) return document();
  std::string_view missing;
  Value value = follow(Value(*tree, 0), rest, &missing);
  bool stated = missing.empty();
  if (!stated && index >= 0) {
    const Value type = Value(*tree, 0).find("type");
    if (type && type.kind() == Kind::text) {
      const std::string in_type = "/" + pointer_token(type.text()) + std::string(rest);
      std::string_view missing_there;
      const Tree* types = piece("box_types", -1);
      if (types != nullptr) {
        const Value there = follow(Value(*types, 0), in_type, &missing_there);
        if (missing_there.size() < missing.size()) {
          value = there;
          stated = missing_there.empty();
        }
      }
    }
  }
  return at(pointer_of(value), value.offset(), stated);
}

SourceMap::Found SourceMap::document() {
  const std::size_t first = text_.find_first_of("{[");
  return at("", first == std::string_view::npos ? 0 : static_cast<std::uint32_t>(first), false);
}

SourceMap::Found SourceMap::at(std::string pointer, std::uint32_t offset, bool stated) {
  std::uint32_t end = 0;
  if (made_) {
    const MadeText::Piece piece = made_->piece(offset);
    offset = piece.source_at;
    std::string_view cell = made_->source.substr(offset, piece.source_end - offset);
    if (const auto line_end = cell.find('\n');
        line_end != std::string_view::npos) {  // in quotes it may hold any
      cell = cell.substr(0, line_end);
      if (cell.ends_with('\r')) cell.remove_suffix(1);
    }
    end = offset + static_cast<std::uint32_t>(cell.size());
  } else {
    end = first_line_end(text_, offset);
  }
  return {std::move(pointer), lines_.at(offset), lines_.at(end), stated};
}

}  // namespace boxproof::read
