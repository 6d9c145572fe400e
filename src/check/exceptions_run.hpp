// Agreed exceptions over a run of many designs: an entry without findings of a design is no news there, and
// is told once where it has none in any design.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "boxproof/check.hpp"

namespace boxproof {

// What a design says of an entry that is for it.
struct EntryUse {
  std::size_t index = 0;  // in the file
  bool matched = false;   // it names findings of the design
  ExceptionState state = ExceptionState::matches_nothing;
  std::vector<std::string> unknown;  // boxes that it names and the design has not
};

// What the judgement's entries say, before and without those that have no finding in it, which are taken out,
// as are the boxes that the others name in vain.
std::vector<EntryUse> take_out_idle(Judgement& judgement);

class ExceptionsOverRun {
 public:
  explicit ExceptionsOverRun(const ExceptionsFile& file) : file_(file), entries_(file.entries.size()) {}
  void add(const std::vector<EntryUse>& design);
  // What no design of the run has a use for, a sentence each, with its place.
  std::vector<std::string> remarks() const;

 private:
  struct Entry {
    std::size_t designs = 0;  // that it is for
    bool matched = false;
    ExceptionState state = ExceptionState::matches_nothing;
    std::vector<std::string> unknown;  // to all designs that it is for
  };
  const ExceptionsFile& file_;
  std::vector<Entry> entries_;
};

}  // namespace boxproof
