// Collects what is wrong with one input file.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/input_error.hpp"

namespace boxproof::read {

class Problems {
 public:
  Problems(std::string file, std::string_view source) : file_(std::move(file)), source_(source) {}
  void add(std::uint32_t offset, std::string pointer, std::string message);
  // An empty collection for the same file, and the way back for what it collected.
  Problems like() const { return {file_, source_}; }
  void take(Problems&& other);
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
  std::vector<Item> items_;
  std::size_t total_ = 0;
};

}  // namespace boxproof::read
