// Paths in files and as keys: told apart by their letters, without a look at the disk.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace boxproof::text {

// "./north//a.json" as "north/a.json", with forward slashes.
inline std::string normal_path(std::string_view path) {
  return std::filesystem::path(path).lexically_normal().generic_string();
}

}  // namespace boxproof::text
