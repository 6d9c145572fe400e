#include "src/read/peek.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/read/tree.hpp"
#include "src/text/nearest.hpp"

namespace boxproof::read {
namespace {

constexpr std::string_view design_format_name = "boxproof-design/1", any_design_format = "boxproof-design";

struct Nobody : Sink {
  void problem(std::uint32_t, std::string, std::string) override {}
};

bool mentions(std::string_view text, std::string_view words) {
  return text.find(words) != std::string_view::npos;
}

// A version that we do not know is a design all the same, and so is a slip of the pen.
bool means_design(std::string_view format) {
  constexpr std::size_t slips = 2;  // no format of ours is as near
  return format.starts_with(any_design_format) || text::edit_distance(format, design_format_name) <= slips;
}

// As some editors save: every character in two bytes, one of which is zero.
bool is_utf_16_design(std::string_view source) {
  constexpr std::size_t enough = 1U << 16;
  std::string text(source.substr(0, enough));
  if (!mentions(text.substr(0, 4), std::string_view("\0", 1))) return false;
  std::erase(text, '\0');
  return mentions(text, any_design_format);
}

}  // namespace

std::string why_no_design(std::string_view source) {
  std::string other;  // the first format that it says
  bool is_text = false;
  const bool says_so = any_member(source, "format", [&](std::uint32_t at) {
    const Tree tree = parse_value(source, at);
    const Value value = tree.nodes.empty() ? Value() : Value(tree, 0);
    if (value && value.kind() == Kind::text && means_design(value.text())) return true;
    if (!other.empty()) return false;
    is_text = value && value.kind() == Kind::text;
    other = is_text ? in_quotes(value.text()) : value ? describe(value) : "no value";
    return false;
  });
  if (says_so) return {};
  const bool has_boxes = any_member(source, "combiners", [](std::uint32_t) { return true; });
  if (has_boxes && !is_text) return {};
  if (!other.empty()) return fmt::format("its format is {}, not \"{}\"", other, design_format_name);

  if (is_utf_16_design(source)) return {};
  if (mentions(source, any_design_format) || mentions(source, "\"combiners\"")) {
    Nobody nobody;
    if (!parse_whole(source, nobody)) return {};
  }
  const auto first = source.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  if (first == std::string_view::npos) return "it is empty";
  return source[first] == '{' ? "it states no format and no combiners" : "it is no JSON object";
}

}  // namespace boxproof::read
