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

using Writer = void (*)(const ReportInput&, const Write&);

// The formats that have a report of one design, written as it is made.
Writer writer(std::string_view format) {
  if (format == "json") return write_json;
  if (format == "html") return write_html;
  if (format == "markdown") return write_markdown;
  return format == "text" ? write_text : nullptr;
}

void make_folder_of(const std::string& path) {
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error)
    throw CannotWrite("cannot make the folder " + folder.string() + ": " + error.message() +
                      "; nothing was kept");
}

template <class Counts>
void add(Counts& to, const Counts& more) {
  for (std::size_t i = 0; i < to.size(); ++i) to[i] += more[i];
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

void write_alone(const Output& output, const Options& o, const RunDesign& design, Console& console,
                 const ProgressHook& progress) {
  const Writer of_one = writer(output.format);
  if (of_one != nullptr && design.judged == nullptr) return;
  const bool colour = wants_colour(o, console, output.path);
  const std::string path = output.is_folder() ? path_in(output, design.path) : output.path;
  if (output.is_folder()) make_folder_of(path);
  Target target(path, console.out);
  const Write write = [&target](std::string_view text) { target.write(text); };
  if (of_one != nullptr) {
    ReportInput report = *design.judged;
    report.colour = colour;
    report.progress = progress;
    of_one(report, write);
  } else {
    const std::unique_ptr<RunReport> report = run_report(output.format, o, colour);
    RunTotals totals;
    if (design.judged != nullptr)
      add_to(totals, design.judged->judgement);
    else
      totals.unread = 1;
    report->take(report->piece(design), write);
    report->finish(totals, write);
  }
  target.finish();
}

void add_to(RunTotals& totals, const Judgement& judgement) {
  ++totals.designs;
  ++totals.verdicts[static_cast<std::size_t>(judgement.verdict)];
  add(totals.counts, judgement.counts);
  for (const Finding& f : judgement.findings)
    if (f.known) ++totals.known[static_cast<std::size_t>(f.severity)];
}

void add_to(RunTotals& totals, const RunTotals& part) {
  totals.designs += part.designs;
  totals.unread += part.unread;
  totals.skipped += part.skipped;
  add(totals.counts, part.counts);
  add(totals.known, part.known);
  add(totals.verdicts, part.verdicts);
}

std::array<std::size_t, severity_names.size()> fresh_counts(const RunTotals& totals) {
  std::array<std::size_t, severity_names.size()> out = totals.counts;
  for (std::size_t i = 0; i < out.size(); ++i) out[i] -= totals.known[i];
  return out;
}

}  // namespace boxproof::cli
