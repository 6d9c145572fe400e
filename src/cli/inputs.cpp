#include "src/cli/inputs.hpp"

#include <fmt/format.h>
#include <glob.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "src/cli/case.hpp"

namespace boxproof::cli {
namespace {

namespace fs = std::filesystem;

// Every *.json under a folder, by path.
void look_through(const std::string& folder, std::vector<DesignInput>& out) {
  std::vector<std::string> paths;
  std::error_code error;
  fs::recursive_directory_iterator at(folder, error);
  for (; !error && at != fs::recursive_directory_iterator(); at.increment(error)) {
    const fs::path& path = at->path();
    if (path.filename().string().starts_with('.'))
      at.disable_recursion_pending();
    else if (path.extension() == ".json" && at->is_regular_file())
      paths.push_back(path.string());
  }
  if (error)
    throw InputError(
        {{folder, 0, 0, "",
          fmt::format("cannot be looked through ({}); expected a folder that can; check its rights",
                      error.message())}},
        1);
  std::sort(paths.begin(), paths.end());
  for (std::string& path : paths) out.push_back({std::move(path), false});
}

bool is_pattern(const std::string& argument) {
  return argument.find_first_of("*?[") != std::string::npos;
}

// What a pattern matches, as in a shell.
std::vector<std::string> matching(const std::string& pattern) {
  glob_t found{};
  std::vector<std::string> out;
  if (glob(pattern.c_str(), 0, nullptr, &found) == 0)
    out.assign(found.gl_pathv, found.gl_pathv + found.gl_pathc);
  globfree(&found);
  return out;
}

}  // namespace

std::vector<DesignInput> find_designs(const std::vector<std::string>& arguments) {
  std::vector<DesignInput> all;
  for (const std::string& argument : arguments) {
    std::error_code ignored;
    const fs::file_status status = fs::status(argument, ignored);
    if (fs::is_directory(status)) {
      look_through(argument, all);
    } else if (fs::exists(status) || !is_pattern(argument)) {
      all.push_back({argument, true});
    } else {
      const std::vector<std::string> paths = matching(argument);
      if (paths.empty())
        throw WrongUse(fmt::format("found no file that matches \"{}\", expected at least one", argument));
      for (const std::string& path : paths) {
        if (fs::is_directory(path, ignored))
          look_through(path, all);
        else
          all.push_back({path, false});
      }
    }
  }
  std::vector<DesignInput> out;
  std::set<std::string> seen;
  for (DesignInput& input : all) {
    std::error_code error;
    const fs::path real = input.path == "-" ? fs::path("-") : fs::weakly_canonical(input.path, error);
    if (seen.insert(real.string()).second) out.push_back(std::move(input));
  }
  return out;
}

std::string why_skipped(const Document& document) {
  return document.text.find("boxproof-design/") == std::string::npos ? "no boxproof-design/1" : "";
}

}  // namespace boxproof::cli
