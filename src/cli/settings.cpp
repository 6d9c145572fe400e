#include "src/cli/settings.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "src/cli/files.hpp"
#include "src/report/layout.hpp"

namespace boxproof::cli {
namespace {

namespace fs = std::filesystem;

bool is_among(const std::vector<std::string>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

// Way from the working folder to that of the nearest settings file: "", "../", "../../"; nothing where there
// is none.
std::optional<std::string> way_to_settings(const std::string& working_folder) {
  std::string way;
  for (fs::path folder = working_folder; !folder.empty(); folder = folder.parent_path(), way += "../") {
    std::error_code unknown;
    // A link that leads nowhere is there: it must not be as if there were no settings.
    if (fs::exists(fs::symlink_status(folder / settings_name, unknown))) return way;
    if (folder == folder.root_path()) break;
  }
  return std::nullopt;
}

class Filling {
 public:
  Filling(Options& o, std::string way) : o_(o), way_(std::move(way)) {}

  // A value that the command has an option for, and that the command line leaves open.
  template <class T, class U>
  void fill(std::string_view key, const std::optional<T>& value, U& into) {
    std::string option(key);
    std::replace(option.begin(), option.end(), '_', '-');
    if (!value || !is_among(o_.known, option) || is_among(o_.given, option)) return;
    into = *value;
    used(key);
  }
  void fill_path(std::string_view key, const std::optional<std::string>& path, std::string& into) {
    fill(key, path ? std::optional(from_here(*path)) : path, into);
  }

  void designs(const std::vector<std::string>& paths) {
    const bool takes_many = o_.command == "check" || o_.command == "baseline";
    if (!takes_many || !o_.designs.empty() || paths.empty()) return;
    for (const std::string& path : paths) o_.designs.push_back(from_here(path));
    used("designs");
  }

  void formats(const Settings& s) {
    const std::vector<Settings::Report>& reports = s.formats;
    if (reports.empty() || !is_among(o_.known, "report")) return;
    for (const char* option : {"format", "output", "report"})
      if (is_among(o_.given, option)) return;
    for (const Settings::Report& report : reports) {
      const bool standard_output = report.path == "-";
      const std::string path = standard_output ? "" : from_here(report.path);
      if (&report == &reports.front()) {
        o_.format = report.format;
        o_.output = path;
      } else {
        o_.reports.push_back(report.format + "=" + (standard_output ? "-" : path));
      }
    }
    o_.formats = s.formats_place;
    used("formats");
  }

 private:
  // A path of the file, from the working folder. A dash is a name in a file.
  std::string from_here(const std::string& path) const {
    if (path.starts_with("/")) return path;
    return (way_.empty() && path == "-" ? "./" : way_) + path;
  }
  void used(std::string_view key) { o_.by_settings.emplace_back(key); }

  Options& o_;
  std::string way_;
};

}  // namespace

void apply_settings(Options& o, const Console& console) {
  constexpr std::string_view commands[] = {"check", "baseline", "box", "labels", "tally"};
  if (std::find(std::begin(commands), std::end(commands), o.command) == std::end(commands)) return;
  const std::optional<std::string> way = way_to_settings(console.working_folder);
  if (!way) return;
  o.settings = *way + std::string(settings_name);
  const Settings s = read_settings(read_file(o.settings, console.in));
  Filling f(o, *way);
  f.fill("edition", s.edition, o.edition);
  f.fill("low_c", s.low, o.low);
  f.fill("high_c", s.high, o.high);
  f.fill("fail_on", s.fail_on, o.fail_on);
  f.fill_path("exceptions", s.exceptions, o.exceptions);
  f.fill_path("amendments", s.amendments, o.amendments);
  f.fill_path("baseline", s.baseline, o.baseline);
  f.fill("show_work", s.show_work, o.show_work);
  f.designs(s.designs);
  f.formats(s);
  if (o.verbose)
    console.err << report::plain(fmt::format("boxproof: settings of {}: {}", o.settings,
                                             o.by_settings.empty()
                                                 ? "nothing of them is used here"
                                                 : fmt::format("{}", fmt::join(o.by_settings, ", "))))
                << "\n";
}

}  // namespace boxproof::cli
