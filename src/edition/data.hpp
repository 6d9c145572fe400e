// An edition's own data files, parsed.
#pragma once

#include <string_view>

#include "src/read/object.hpp"

namespace boxproof {

// The base and the patch of one edition; the merged view lasts as long as this object stays where it is.
class EditionData {
 public:
  // Throws std::out_of_range where there is no such edition.
  explicit EditionData(std::string_view name);
  EditionData(const EditionData&) = delete;
  EditionData& operator=(const EditionData&) = delete;

  read::Field merged() const { return {read::Value(patch_, 0), read::Field(read::Value(base_, 0))}; }

 private:
  read::Tree base_, patch_;
};

}  // namespace boxproof
