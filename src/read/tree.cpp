#include "src/read/tree.hpp"

#include <algorithm>
#include <charconv>

namespace boxproof::read {

std::string pointer_of(const Value& value) {
  const Tree& tree = *value.tree();
  std::string out = tree.prefix;
  if (!tree.top_key.empty()) out += "/" + pointer_token(tree.top_key);
  if (tree.index >= 0) out += "/" + std::to_string(tree.index);
  Value at(tree, 0);
  while (at.index() != value.index()) {  // the child that spans the value, level by level
    std::size_t position = 0;
    const bool array = at.kind() == Kind::array;
    Value child = at.first();
    // A node without an end is still being read, so it spans all that has been read behind its start.
    while (tree.nodes[child.index()].end != 0 && tree.nodes[child.index()].end <= value.index()) {
      child = child.next_within(at);
      ++position;
    }
    out += "/" + (array ? std::to_string(position) : pointer_token(child.key()));
    at = child;
  }
  return out;
}

Value follow(Value from, std::string_view pointer, std::string_view* rest) {
  while (!pointer.empty()) {
    const auto end = pointer.find('/', 1);
    const std::string_view token = pointer.substr(1, end == std::string_view::npos ? end : end - 1);
    Value child;
    if (from.kind() == Kind::array) {
      std::size_t wanted = 0;
      const auto parsed = std::from_chars(token.data(), token.data() + token.size(), wanted);
      if (parsed.ec == std::errc()) {
        child = from.first();
        for (; child && wanted > 0; --wanted) child = child.next_within(from);
      }
    } else if (from.kind() == Kind::object) {
      for (Value v = from.first(); v && !child; v = v.next_within(from))
        if (pointer_token(v.key()) == token) child = v;
    }
    if (!child) break;
    from = child;
    pointer = end == std::string_view::npos ? std::string_view() : pointer.substr(end);
  }
  if (rest != nullptr) *rest = pointer;
  return from;
}

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

std::string describe_number(std::string_view source, std::uint32_t offset) {
  std::size_t end = offset;
  while (end < source.size() && is_number_char(source[end])) ++end;
  return std::string(source.substr(offset, end - offset));
}

std::string in_quotes(std::string_view text) {
  constexpr std::size_t shown = 60;  // bytes
  std::size_t end = std::min(shown, text.size());
  while (end < text.size() && (text[end] & 0xC0) == 0x80) --end;  // whole code points only
  return "\"" + std::string(text.substr(0, end)) + (text.size() > end ? "…\"" : "\"");
}

std::string describe(const Value& value) {
  switch (value.kind()) {
    case Kind::null: return "null";
    case Kind::boolean: return value.boolean() ? "true" : "false";
    case Kind::number: return describe_number(value.tree()->source, value.offset());
    case Kind::text: return "text " + in_quotes(value.text());
    case Kind::array: return "a list";
    case Kind::object: return "an object";
  }
  return {};
}

}  // namespace boxproof::read
