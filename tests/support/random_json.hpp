// Random JSON texts: escapes, astral characters, odd spacing, CRLF, numbers in every notation. The same seed
// gives the same text on every machine.
#pragma once

#include <cstdint>
#include <random>
#include <string>

namespace boxproof::test {

class RandomJson {
 public:
  explicit RandomJson(std::uint32_t seed) : engine_(seed) {}

  std::size_t below(std::size_t end) { return engine_() % end; }
  std::string space();  // none, or some of the four kinds of white space
  std::string text();   // a string with its quotes
  std::string number();
  std::string value(int depth);  // at most so deep
  std::string object(int depth, std::size_t members);

 private:
  std::mt19937 engine_;
};

}  // namespace boxproof::test
