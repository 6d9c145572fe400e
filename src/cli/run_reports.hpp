// The reports of a run, by name of their format, and their way into files.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "boxproof/run_report.hpp"
#include "src/cli/options.hpp"
#include "src/cli/outputs.hpp"
#include "src/cli/run.hpp"

namespace boxproof::cli {

// The report of this format; null where it has none over many designs (html).
std::unique_ptr<RunReport> run_report(std::string_view format, const Options& o, bool colour);

// Writes the report of a run that is in memory.
void write_run(const Output& output, const Options& o, std::span<const RunDesign> designs,
               const RunTotals& totals, Console& console);

// Where the report of one design goes in a folder of reports: its own path, with the ending of the format.
// Makes the folders on the way.
std::string path_in(const Output& output, std::string_view design);

// Adds what a judgement found.
void add_to(RunTotals& totals, const Judgement& judgement);

// The findings that are news: what is not on the baseline.
std::array<std::size_t, severity_names.size()> fresh_counts(const RunTotals& totals);

}  // namespace boxproof::cli
