// What a key of an input file means, in the words of the file's schema.
#pragma once

#include <string>
#include <string_view>

#include "src/read/tree.hpp"

namespace boxproof::report {

class KeyWords {
 public:
  // Of the design, or of the field record.
  explicit KeyWords(bool of_record);

  // "rated current, A": of a value as a query names it ("fuse/a", "modules/M/vmp_v", "circuits near/run").
  // Empty where the schema has no such key.
  std::string of(std::string_view key) const;
  // The sentence that this is the beginning of, with what limits the value: "Conductors in parallel per
  // polarity; 1 when absent".
  std::string sentence(std::string_view key) const;

 private:
  std::string_view description(std::string_view key) const;
  read::Value resolved(read::Value schema) const;
  read::Value step(const read::Value& schema, std::string_view token) const;
  read::Value walk(read::Value schema, std::string_view path) const;
  read::Value definition(std::string_view name) const;
  bool of_record_;
  read::Tree tree_;
};

}  // namespace boxproof::report
