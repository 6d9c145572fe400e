#include "src/cli/run_remarks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>

#include "src/cli/design_path.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::cli {
namespace {

// What is on disk is there: it was not asked for, or it is no design any more, which the run tells.
void about_baseline(const Options& o, const std::vector<DesignInput>& designs, const Baseline& baseline,
                    std::vector<std::string>& out) {
  std::set<std::string> judged;
  for (const DesignInput& input : designs) judged.insert(path_from(o.baseline, input.path));
  std::map<std::string_view, std::size_t> entries;
  for (const BaselineEntry& e : baseline.entries) ++entries[e.design];
  for (const auto& [design, n] : entries) {
    const std::string path(design);
    std::error_code error;
    if (judged.contains(path) || std::filesystem::exists(path_to(o.baseline, path), error)) continue;
    out.push_back(
        fmt::format("{}: found {} of {}, which is not there any more; remove {}, or write the baseline anew",
                    baseline.name, counted(n, "entry", "entries"), path, n == 1 ? "it" : "them"));
  }
}

}  // namespace

std::vector<std::string> run_remarks(const Options& o, const std::vector<DesignInput>& designs,
                                     const Others& others,
                                     const std::optional<ExceptionsOverRun>& exceptions) {
  std::vector<std::string> out;
  if (exceptions) out = exceptions->remarks();
  const bool looked_through =
      std::any_of(designs.begin(), designs.end(), [](const DesignInput& input) { return !input.named; });
  if (others.baseline && looked_through) about_baseline(o, designs, *others.baseline, out);
  return out;
}

}  // namespace boxproof::cli
