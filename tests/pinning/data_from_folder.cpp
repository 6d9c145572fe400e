// The data files out of a folder instead of the program, so that the same tests can be run on changed data:
// the folder is named by the environment variable BOXPROOF_TEST_DATA. See pin.py.
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <map>
#include <mutex>
#include <stdexcept>
#include <string>

#include "src/edition/embedded.hpp"

namespace boxproof {
namespace {

std::string contents(std::string_view path) {
  const char* folder = std::getenv("BOXPROOF_TEST_DATA");
  if (folder == nullptr) throw std::logic_error("BOXPROOF_TEST_DATA names no folder of data files");
  const std::string full = std::string(folder) + "/" + std::string(path);
  std::ifstream file(full, std::ios::binary);
  if (!file) throw std::logic_error("no data file " + full);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace

std::string_view embedded(std::string_view path) {
  // Kept to the end of the program: callers hold views, as of data that is compiled in.
  static std::mutex guard;
  static std::map<std::string, std::string, std::less<>> files;
  const std::lock_guard lock(guard);
  if (const auto found = files.find(path); found != files.end()) return found->second;
  return files.emplace(std::string(path), contents(path)).first->second;
}

}  // namespace boxproof
