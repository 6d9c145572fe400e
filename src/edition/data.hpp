// Our own data files, parsed.
#pragma once

#include <string>
#include <string_view>

#include "src/read/object.hpp"

namespace boxproof {

// A file by its path below data/. Throws std::logic_error where it is not there or no JSON.
read::Tree parsed_data(const std::string& path);

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
