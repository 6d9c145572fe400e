// compare: two reports of one site.
#include "boxproof/compare.hpp"
#include "src/cli/case.hpp"
#include "src/cli/commands.hpp"
#include "src/cli/files.hpp"
#include "src/report/compare.hpp"

namespace boxproof::cli {
namespace {

// The text of a report is not needed any more when it has been read.
ReportFile read(const std::string& path, Console& console) {
  return read_report(read_file(path, console.in));
}

}  // namespace

int compare_command(const Options& o, Console& console) {
  if (o.before == "-" && o.after == "-")
    throw WrongUse("found - for both reports, expected it once: there is one standard input");
  const ReportFile before = read(o.before, console);
  const ReportFile after = read(o.after, console);
  const Comparison comparison = compare(before, after);
  Target target(o.output, console.out);
  const Write write = [&target](std::string_view text) { target.write(text); };
  if (o.format == "json")
    report::write_comparison_json(comparison, write);
  else if (o.format == "markdown")
    report::write_comparison_markdown(comparison, write);
  else
    report::write_comparison_text(comparison, wants_colour(o, console, o.output), write);
  target.finish();
  return status_of(comparison.open_counts(), o.fail_on);
}

}  // namespace boxproof::cli
