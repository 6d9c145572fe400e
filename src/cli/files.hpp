// Files, as the command line needs them.
#pragma once

#include <iosfwd>
#include <stdexcept>
#include <string>
#include <string_view>

#include "boxproof/read.hpp"

namespace boxproof::cli {

// A path as messages show it: "-" is <stdin>.
inline std::string_view shown_path(std::string_view path) {
  return path == "-" ? "<stdin>" : path;
}

// The text of a file, or of standard input for "-". Throws InputError where it cannot be read.
Document read_file(const std::string& path, std::istream& in);

// Whether both paths lead to one and the same regular file.
bool same_file(const std::string& one, const std::string& other);

struct CannotWrite : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// Where a report goes: standard output, or a file that appears whole or not at all.
class Target {
 public:
  // An empty path: standard output. Throws CannotWrite.
  Target(const std::string& path, std::ostream& out);
  ~Target();
  Target(const Target&) = delete;
  Target& operator=(const Target&) = delete;

  void write(std::string_view text);
  // Puts the file in its place. Throws CannotWrite where anything was lost on the way.
  void finish();

 private:
  void fail(const std::string& what) const;
  std::ostream& out_;
  std::string path_, temporary_;
  int file_ = -1;
};

}  // namespace boxproof::cli
