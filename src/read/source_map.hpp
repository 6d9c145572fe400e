// Where things stand in an input file that has been read: from a JSON Pointer back to line and column.
//
// Only the start of each top-level member and of each element of the long list is kept; the rest is found by
// parsing that one piece again, which costs microseconds and is done for findings only.
#pragma once

#include <cstdint>
#include <list>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "src/read/made_text.hpp"
#include "src/read/tree.hpp"
#include "src/text/place.hpp"

namespace boxproof::read {

class SourceMap {
 public:
  SourceMap() : lines_({}) {}
  SourceMap(std::string file, std::string_view text, std::string list_key)
      : file_(std::move(file)), text_(text), list_key_(std::move(list_key)), lines_(text) {}
  // Of a text that was made out of the file; the places are the file's.
  SourceMap(std::string file, std::shared_ptr<const MadeText> made, std::string list_key)
      : file_(std::move(file)),
        text_(made->text),
        list_key_(std::move(list_key)),
        lines_(made->source),
        made_(std::move(made)) {}

  void add_member(std::string_view key, std::uint32_t offset) { members_.emplace_back(key, offset); }
  void add_element(std::uint32_t offset) { elements_.push_back(offset); }

  const std::string& file() const { return file_; }
  std::string_view text() const { return text_; }

  struct Found {
    std::string pointer;
    text::LineColumn at;
    text::LineColumn end = {};  // behind its last byte, or behind its first line where it has more than one
    bool stated = false;        // it is what the pointer names, and not a value around that
  };
  // The value that the pointer names; where a box does not state it, the same value of its box type; where
  // neither does, the nearest value around it that is there.
  Found find(std::string_view pointer);

 private:
  const Tree* piece(std::string_view key, std::int64_t index);
  Found document();  // the document itself
  Found at(std::string pointer, std::uint32_t offset, bool stated);

  std::string file_;
  std::string_view text_;
  std::string list_key_;
  std::vector<std::pair<std::string, std::uint32_t>> members_;
  std::vector<std::uint32_t> elements_;
  text::LineIndex lines_;
  std::shared_ptr<const MadeText> made_;
  struct Cached {
    std::string key;
    std::int64_t index = -2;
    Tree tree;
  };
  std::list<Cached> cache_;  // the element last asked for, and the members; trees stay where they are
};

}  // namespace boxproof::read
