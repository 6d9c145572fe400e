#include "tests/support/command.hpp"

#include <stdlib.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

#include "src/cli/run.hpp"
#include "tests/support/catch.hpp"

namespace boxproof::test {

Called call(const std::vector<std::string>& arguments, const Surroundings& around) {
  std::istringstream in(around.in);
  std::ostringstream out, err;
  cli::Console console{in, out, err, around.terminal, [&](const char* name) -> std::optional<std::string> {
                         const auto found = around.environment.find(name);
                         if (found == around.environment.end()) return std::nullopt;
                         return found->second;
                       }};
  const std::filesystem::path before = std::filesystem::current_path();
  if (!around.folder.empty()) {
    std::filesystem::current_path(around.folder);
    console.working_folder = std::filesystem::current_path().string();
  }
  const int status = cli::run(arguments, console);
  std::filesystem::current_path(before);
  return {status, out.str(), err.str()};
}

Folder::Folder() {
  std::string name = (std::filesystem::temp_directory_path() / "boxproof-test-XXXXXX").string();
  REQUIRE(mkdtemp(name.data()) != nullptr);
  root_ = name;
}
Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(root_, ignored);
}

std::string Folder::put(const std::string& name, const std::string& text) const {
  std::filesystem::create_directories(std::filesystem::path(path(name)).parent_path());
  std::ofstream file(path(name), std::ios::binary);
  file << text;
  file.close();
  REQUIRE(file);
  return path(name);
}
std::string Folder::get(const std::string& name) const {
  std::ifstream file(path(name), std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}
std::vector<std::string> Folder::names() const {
  std::vector<std::string> out;
  for (const auto& entry : std::filesystem::directory_iterator(root_))
    out.push_back(entry.path().filename().string());
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace boxproof::test
