// Collects what is wrong with one input file.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/input_error.hpp"
#include "src/read/made_text.hpp"

namespace boxproof::read {

class Problems {
 public:
  Problems(std::string file, std::string_view source) : file_(std::move(file)), source_(source) {}
  // Of a text that was made out of the file: offsets are in that text, and are told as places of the file.
  Problems(std::string file, const MadeText& made)
      : file_(std::move(file)), source_(made.source), made_(&made) {}
  void add(std::uint32_t offset, std::string pointer, std::string message);
  // An empty collection for the same file, and the way back for what it collected.
  Problems like() const { return made_ != nullptr ? Problems(file_, *made_) : Problems(file_, source_); }
  void take(Problems&& other);
  // What a message calls the element of the list that starts at the offset.
  std::string name_of(std::uint32_t offset, std::string pointer) const;
  bool any() const { return total_ > 0; }
  // Throws them, sorted by place, if there are any.
  void raise();

  static constexpr std::size_t shown = 50;  // in full; the others are counted

 private:
  struct Item {
    std::uint32_t offset;
    std::string pointer, message;
  };
  void keep(Item item);
  void by_place();

  std::string file_;
  std::string_view source_;
  const MadeText* made_ = nullptr;
  std::vector<Item> items_;
  std::size_t total_ = 0;
};

}  // namespace boxproof::read
