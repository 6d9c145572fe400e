#include "src/cli/inputs.hpp"

#include <fmt/format.h>
#include <glob.h>

#include <algorithm>
#include <filesystem>
#include <new>
#include <unordered_map>

#include "src/cli/case.hpp"
#include "src/read/peek.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::cli {
namespace {

namespace fs = std::filesystem;

bool is_json(const fs::path& path) {
  std::string ending = path.extension().string();
  for (char& c : ending) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  return ending == ".json";
}

InputError not_looked_through(const std::string& folder, const std::error_code& error) {
  return InputError(
      {{folder, 0, 0, "",
        fmt::format("cannot be looked through ({}); expected a folder that can; check its rights",
                    error.message())}},
      1);
}

// A file that is there, or a link to one that may be; a device or a pipe is no design.
bool may_be_design(const fs::path& path) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  return fs::is_regular_file(status) || !fs::exists(status);
}

// Every *.json under a folder, by path.
class Walk {
 public:
  explicit Walk(const std::string& folder) {
    to_do_.push_back({folder, real_path(folder)});
    while (!to_do_.empty()) {
      const Folder next = std::move(to_do_.back());
      to_do_.pop_back();
      look_into(next);
    }
    std::sort(found_.begin(), found_.end(),
              [](const DesignInput& a, const DesignInput& b) { return a.path < b.path; });
  }
  std::vector<DesignInput>& found() { return found_; }

 private:
  struct Folder {
    fs::path shown, real;
  };

  void look_into(const Folder& folder) {
    std::error_code error;
    for (fs::directory_iterator at(folder.shown, error); !error && at != fs::directory_iterator();
         at.increment(error))
      look_at(*at, folder);
    if (error)
      found_.push_back({folder.shown.string(),
                        true,
                        folder.real.string(),
                        {},
                        not_looked_through(folder.shown.string(), error)});
  }

  void look_at(const fs::directory_entry& entry, const Folder& folder) {
    const fs::path name = entry.path().filename();
    if (name.string().starts_with('.')) return;
    // "." names nothing that a message needs.
    const fs::path shown = folder.shown == "." || folder.shown == "./" ? name : folder.shown / name;
    std::error_code unknown;
    const bool link = entry.is_symlink(unknown);
    if (!link && entry.is_directory(unknown))
      to_do_.push_back({shown, folder.real / name});
    else if (is_json(name) && !fs::is_directory(shown, unknown) && may_be_design(shown))
      found_.push_back(
          {shown.string(), false, link ? real_path(shown.string()) : (folder.real / name).string()});
  }

  std::vector<Folder> to_do_;
  std::vector<DesignInput> found_;
};

bool is_pattern(const std::string& argument) {
  return argument.find_first_of("*?[") != std::string::npos;
}

// What a pattern matches, as in a shell.
std::vector<std::string> matching(const std::string& pattern) {
  glob_t found{};
  std::vector<std::string> out;
  const int status = glob(pattern.c_str(), GLOB_NOSORT, nullptr, &found);
  if (status == 0) out.assign(found.gl_pathv, found.gl_pathv + found.gl_pathc);
  globfree(&found);
  if (status == GLOB_NOSPACE) throw std::bad_alloc();
  std::sort(out.begin(), out.end());  // by bytes, whatever the language of the system
  if (out.empty())
    throw WrongUse(fmt::format("found no file that matches \"{}\", expected at least one", pattern));
  return out;
}

// The files that an argument leads to.
std::vector<DesignInput> files_of(const std::string& argument) {
  std::error_code ignored;
  if (argument == "-") return {{argument, true, argument}};
  if (fs::is_directory(argument, ignored)) return std::move(Walk(argument).found());
  if (fs::exists(fs::symlink_status(argument, ignored)) || !is_pattern(argument))
    return {{argument, true, real_path(argument)}};
  std::vector<DesignInput> out;
  for (const std::string& path : matching(argument)) {
    if (fs::is_directory(path, ignored)) {
      Walk walk(path);
      std::move(walk.found().begin(), walk.found().end(), std::back_inserter(out));
    } else if (may_be_design(path)) {
      out.push_back({path, false, real_path(path)});
    }
  }
  return out;
}

}  // namespace

std::string real_path(const std::string& path) {
  std::error_code error;
  const fs::path real = fs::weakly_canonical(fs::absolute(path, error), error);
  return error ? fs::path(path).lexically_normal().string() : real.string();
}

std::vector<DesignInput> find_designs(const std::vector<std::string>& arguments) {
  std::vector<DesignInput> out;
  std::unordered_map<std::string, std::size_t> places;  // by real path
  for (std::size_t i = 0; i < arguments.size(); ++i)
    for (DesignInput& input : files_of(arguments[i])) {
      const auto [known, fresh] = places.emplace(input.real, out.size());
      if (fresh) out.push_back(std::move(input));
      DesignInput& kept = out[known->second];
      kept.named = kept.named || input.named;
      if (kept.arguments.empty() || kept.arguments.back() != i) kept.arguments.push_back(i);
    }
  return out;
}

ArgumentsUsed::ArgumentsUsed(const std::vector<std::string>& arguments)
    : arguments_(arguments), uses_(arguments.size()) {}

void ArgumentsUsed::add_design(const DesignInput& input) {
  for (const std::size_t argument : input.arguments) uses_[argument].leads = true;
}

void ArgumentsUsed::add_skipped(const DesignInput& input) {
  for (const std::size_t argument : input.arguments) ++uses_[argument].skipped;
}

std::vector<std::pair<std::string, InputError>> ArgumentsUsed::without_design() const {
  std::vector<std::pair<std::string, InputError>> out;
  for (std::size_t i = 0; i < uses_.size(); ++i) {
    if (uses_[i].leads) continue;
    const std::string skipped = uses_[i].skipped == 0
                                    ? ""
                                    : fmt::format(" ({} skipped; --verbose says why)",
                                                  counted(uses_[i].skipped, "file was", "files were"));
    const std::string message = fmt::format(
        "found no design there{}, expected at least one JSON file that says boxproof-design/1", skipped);
    out.emplace_back(arguments_[i], InputError({{arguments_[i], 0, 0, "", message}}, 1));
  }
  return out;
}

std::string why_skipped(const Document& document) {
  return read::why_no_design(document.text);
}

}  // namespace boxproof::cli
