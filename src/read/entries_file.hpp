// A file of entries, read as one tree: agreed exceptions, a baseline.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "boxproof/finding.hpp"
#include "boxproof/read.hpp"
#include "src/read/entry_values.hpp"
#include "src/read/tree.hpp"
#include "src/text/place.hpp"

namespace boxproof::read {

class EntriesReader : public Sink {
 public:
  explicit EntriesReader(const Document& document)
      : document_(document),
        problems_(document.name, document.text),
        reading_{problems_, nullptr, nullptr},
        lines_(document.text) {}

  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    problems_.add(offset, std::move(pointer), std::move(message));
  }

 protected:
  virtual void top(const Value& value) = 0;
  virtual void entry(const Value& value) = 0;

  // Throws InputError with all that is wrong.
  void read_document() {
    if (const std::optional<Tree> tree = parse_whole(document_.text, *this)) top(Value(*tree, 0));
    problems_.raise();
  }
  void each_entry(const Field& list) {
    if (!list || !expect(list.top(), Kind::array, reading_)) return;
    for (Value v = list.top().first(); v; v = v.next_within(list.top())) entry(v);
  }
  FilePlace place_of(const Value& value) {
    const text::LineColumn at = lines_.at(value.offset());
    const text::LineColumn end = lines_.at(first_line_end(document_.text, value.offset()));
    return {document_.name, pointer_of(value), at.line, at.column, end.line, end.column};
  }

  const Document& document_;
  Problems problems_;
  Reading reading_;
  text::LineIndex lines_;
};

}  // namespace boxproof::read
