// A small JSON tree in which every value knows its place.
//
// The tree is flat (values in file order, children behind their parent), so that it can be filled and dropped
// for one combiner box at a time without an allocation a value. Offsets are bytes from the start of the
// source; line and column are counted only when something is said about a value.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "src/read/list_span.hpp"
#include "src/text/pointer.hpp"

namespace boxproof::read {

using text::pointer_token;

enum class Kind : std::uint8_t { null, boolean, number, text, array, object };

struct Node {
  std::uint32_t offset = 0;      // of the value's first byte
  std::uint32_t key_offset = 0;  // of the quote before the key
  std::uint32_t end = 0;         // index of the first node behind this value and all it holds
  std::uint32_t key_size = 0, key_at = 0;
  std::uint32_t text_size = 0, text_at = 0;
  Kind kind = Kind::null;
  bool key_decoded = false;   // the key had escapes: its text is in Tree::decoded, else in the source
  bool text_decoded = false;  // likewise the value's text
  bool flag = false;
  double number = 0;
};

struct Tree {
  std::string_view source;
  std::vector<Node> nodes;
  std::string decoded;
  // Where the tree hangs: "/combiners/12" is top_key "combiners" and index 12. An empty key: the whole
  // document.
  std::string top_key;
  std::int64_t index = -1;  // −1: not an element of a streamed array
  std::string prefix;       // in place of both, already escaped: where a piece deeper down hangs
};

// A value in a tree; empty where there is none.
class Value {
 public:
  Value() = default;
  Value(const Tree& tree, std::uint32_t index) : tree_(&tree), index_(index) {}

  explicit operator bool() const { return tree_ != nullptr; }
  const Tree* tree() const { return tree_; }
  std::uint32_t index() const { return index_; }
  Kind kind() const { return node().kind; }
  double number() const { return node().number; }
  bool boolean() const { return node().flag; }
  std::uint32_t offset() const { return node().offset; }
  std::uint32_t key_offset() const { return node().key_offset; }
  std::string_view text() const {
    const Node& n = node();
    return n.text_decoded ? std::string_view(tree_->decoded).substr(n.text_at, n.text_size)
                          : tree_->source.substr(n.text_at, n.text_size);
  }
  std::string_view key() const {
    const Node& n = node();
    return n.key_decoded ? std::string_view(tree_->decoded).substr(n.key_at, n.key_size)
                         : tree_->source.substr(n.key_at, n.key_size);
  }

  Value first() const;                           // first member or element
  Value next_within(const Value& parent) const;  // the one behind this one
  Value find(std::string_view key) const;        // member of an object
  std::size_t size() const;                      // members or elements

 private:
  const Node& node() const { return tree_->nodes[index_]; }
  const Tree* tree_ = nullptr;
  std::uint32_t index_ = 0;
};

inline Value Value::first() const {
  const Node& n = node();
  return n.end == index_ + 1 ? Value() : Value(*tree_, index_ + 1);
}
inline Value Value::next_within(const Value& parent) const {
  const std::uint32_t behind = node().end;
  return behind == parent.node().end ? Value() : Value(*tree_, behind);
}
inline Value Value::find(std::string_view key) const {
  if (kind() != Kind::object) return {};
  for (Value v = first(); v; v = v.next_within(*this))
    if (v.key() == key) return v;
  return {};
}
inline std::size_t Value::size() const {
  std::size_t n = 0;
  for (Value v = first(); v; v = v.next_within(*this)) ++n;
  return n;
}

// RFC 6901 pointer of a value from the top of its document.
std::string pointer_of(const Value& value);
// The value that a pointer names below `from`, or the nearest one above it that is there. `rest` is what was
// not found.
Value follow(Value from, std::string_view pointer, std::string_view* rest = nullptr);
// Where the JSON value that starts at `start` ends, or its first line, without the spaces at that line's end.
std::uint32_t first_line_end(std::string_view source, std::size_t start);
// Whether a character can be part of a JSON number.
inline bool is_number_char(char c) {
  return (c >= '0' && c <= '9') || c == '+' || c == '-' || c == '.' || c == 'e' || c == 'E';
}
// A text as a message shows it: in quotes, a long one cut short.
std::string in_quotes(std::string_view text);
// As a message shows it: `text "12"`, `40.5`, `null`, `a list`, `an object`.
std::string describe(const Value& value);
// The number that starts at the offset, as it is written there.
std::string describe_number(std::string_view source, std::uint32_t offset);

// What the parser hands over, in file order. The trees are valid only during the call.
class Sink {
 public:
  virtual ~Sink() = default;
  virtual void member(std::string_view /*key*/, const Tree&) {}  // a member of the top object
  virtual void element(std::uint32_t /*index*/, const Tree&) {}  // an element of the long list
  virtual void problem(std::uint32_t offset, std::string pointer, std::string message) = 0;
};

// Parses a document whose top is an object and hands over its members. The list at `span`, and that at
// `second`, if they were found, are handed over as empty ones: their elements are for parse_elements. False
// if the text is no such document; the sink has then been told why.
bool parse_members(std::string_view source, const ListSpan& span, Sink& sink, const ListSpan& second = {});

// Parses the elements from number `first` up to, not including, `last` of the list and hands them over.
bool parse_elements(std::string_view source, std::string_view key, const ListSpan& span, std::uint32_t first,
                    std::uint32_t last, Sink& sink);

// Parses a document that is kept as one tree; nothing if it is not JSON, the sink has then been told why.
std::optional<Tree> parse_whole(std::string_view source, Sink& sink);

// Parses the one value that starts at `offset` of a source that has been parsed before.
Tree parse_value(std::string_view source, std::uint32_t offset);

inline constexpr int max_depth = 64;

}  // namespace boxproof::read
