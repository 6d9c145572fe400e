#include "src/cli/design_path.hpp"

#include <filesystem>

namespace boxproof::cli {
namespace {

namespace fs = std::filesystem;

bool is_stream(const std::string& path) {
  return path.empty() || path == "-" || path == "<stdin>";
}

// The real folder in which a file stands.
fs::path folder_of(const std::string& file) {
  std::error_code error;
  const fs::path whole = fs::absolute(is_stream(file) ? "x" : file, error);
  const fs::path folder = fs::weakly_canonical(whole.parent_path(), error);
  return error ? whole.parent_path().lexically_normal() : folder;
}

}  // namespace

std::string path_from(const std::string& file, const std::string& design) {
  if (is_stream(design)) return design;
  const fs::path path = folder_of(design) / fs::path(design).filename();
  return path.lexically_relative(folder_of(file)).generic_string();
}

std::string path_to(const std::string& file, const std::string& design) {
  return (folder_of(file) / design).string();
}

}  // namespace boxproof::cli
