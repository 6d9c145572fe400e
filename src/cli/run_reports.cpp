#include "src/cli/run_reports.hpp"

#include <algorithm>
#include <filesystem>

#include "boxproof/check.hpp"
#include "src/cli/commands.hpp"
#include "src/cli/files.hpp"

namespace boxproof::cli {
namespace {

Severity severity_named(std::string_view name) {
  const auto at = std::find(severity_names.begin(), severity_names.end(), name);
  return static_cast<Severity>(at - severity_names.begin());
}

}  // namespace

std::unique_ptr<RunReport> run_report(std::string_view format, const Options& o, bool colour) {
  if (format == "text") return text_report(colour);
  if (format == "markdown") return markdown_report();
  if (format == "json") return json_report();
  if (format == "sarif") return sarif_report();
  if (format == "junit") return junit_report(severity_named(o.fail_on));
  if (format == "annotations") return annotations_report();
  return nullptr;
}

void write_run(const Output& output, const Options& o, std::span<const RunDesign> designs,
               const RunTotals& totals, Console& console) {
  const std::unique_ptr<RunReport> report = run_report(output.format, o, wants_colour(o, console));
  const std::string path = output.is_folder() ? path_in(output, designs.front().path) : output.path;
  Target target(path, console.out);
  const Write write = [&target](std::string_view text) { target.write(text); };
  for (const RunDesign& design : designs) report->take(report->piece(design), write);
  report->finish(totals, write);
  target.finish();
}

std::string path_in(const Output& output, std::string_view design) {
  namespace fs = std::filesystem;
  fs::path inside;
  for (const fs::path& part : fs::path(design).lexically_normal())
    if (part != ".." && part != "/" && part != ".") inside /= part;
  inside.replace_extension(output.format == "markdown" ? "md" : output.format);
  const fs::path path = fs::path(output.path) / inside;
  std::error_code error;
  fs::create_directories(path.parent_path(), error);
  if (error)
    throw CannotWrite("cannot make the folder " + path.parent_path().string() + ": " + error.message());
  return path.string();
}

void add_to(RunTotals& totals, const Judgement& judgement) {
  ++totals.designs;
  for (std::size_t i = 0; i < totals.counts.size(); ++i) totals.counts[i] += judgement.counts[i];
  for (const Finding& f : judgement.findings)
    if (f.known) ++totals.known[static_cast<std::size_t>(f.severity)];
}

std::array<std::size_t, severity_names.size()> fresh_counts(const RunTotals& totals) {
  std::array<std::size_t, severity_names.size()> out = totals.counts;
  for (std::size_t i = 0; i < out.size(); ++i) out[i] -= totals.known[i];
  return out;
}

}  // namespace boxproof::cli
