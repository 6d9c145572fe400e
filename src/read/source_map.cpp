#include "src/read/source_map.hpp"

#include <algorithm>
#include <charconv>

namespace boxproof::read {
namespace {

// Where the JSON value that starts at `start` ends, or its first line, without the spaces at that line's end.
std::uint32_t first_line_end(std::string_view source, std::size_t start) {
  std::size_t depth = 0, at = start;
  bool in_text = false;
  for (; at < source.size(); ++at) {
    const char c = source[at];
    if (in_text) {
      if (c == '\\')
        ++at;
      else if (c == '"')
        in_text = false;
      if (!in_text && depth == 0) return static_cast<std::uint32_t>(at + 1);
    } else if (c == '"') {
      in_text = true;
    } else if (c == '{' || c == '[') {
      ++depth;
    } else if (c == '}' || c == ']') {
      if (depth <= 1) return static_cast<std::uint32_t>(depth == 1 ? at + 1 : at);
      --depth;
    } else if (c == '\n' || (depth == 0 && (c == ',' || c == ' ' || c == '\t' || c == '\r'))) {
      break;
    }
  }
  at = std::min(at, source.size());
  while (at > start + 1 && (source[at - 1] == ' ' || source[at - 1] == '\t' || source[at - 1] == '\r')) --at;
  return static_cast<std::uint32_t>(at);
}

}  // namespace

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
  if (pointer.empty()) return {"", {}};
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
  if (tree == nullptr) return {"", {}};
  std::string_view missing;
  Value value = follow(Value(*tree, 0), rest, &missing);
  if (!missing.empty() && index >= 0) {
    const Value type = Value(*tree, 0).find("type");
    if (type && type.kind() == Kind::text) {
      const std::string in_type = "/" + pointer_token(type.text()) + std::string(rest);
      std::string_view missing_there;
      const Tree* types = piece("box_types", -1);
      if (types != nullptr) {
        const Value there = follow(Value(*types, 0), in_type, &missing_there);
        if (missing_there.size() < missing.size()) value = there;
      }
    }
  }
  const std::uint32_t offset = made_ ? made_->piece(value.offset()).source_at : value.offset();
  const std::string_view source = made_ ? made_->source : text_;
  const std::uint32_t end = made_ ? offset : first_line_end(source, offset);
  return {pointer_of(value), lines_.at(offset), lines_.at(end)};
}

}  // namespace boxproof::read
