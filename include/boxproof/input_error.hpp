// What is wrong with an input file, all at once. The one exception that crosses layers.
#pragma once

#include <cstdint>
#include <exception>
#include <string>
#include <vector>

namespace boxproof {

struct Problem {
  std::string file;
  std::uint32_t line = 0,
                column = 0;  // from 1, columns in code points; 0: the problem is with the file itself
  std::string pointer;       // RFC 6901; empty: the document itself
  std::string message;       // what was found, what was expected, what to do
};

// One line: file:line:column: pointer: message.
std::string to_text(const Problem& problem);

class InputError : public std::exception {
 public:
  InputError(std::vector<Problem> problems, std::size_t total)
      : problems_(std::move(problems)),
        total_(total),
        text_(problems_.empty() ? "" : to_text(problems_.front())) {}
  const std::vector<Problem>& problems() const { return problems_; }  // the first of them in file order
  std::size_t total() const { return total_; }                        // how many there are in all
  const char* what() const noexcept override { return text_.c_str(); }

 private:
  std::vector<Problem> problems_;
  std::size_t total_;
  std::string text_;
};

}  // namespace boxproof
