// The reports of a run, by name of their format, and their way into files.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "boxproof/run_report.hpp"
#include "src/cli/options.hpp"
#include "src/cli/outputs.hpp"
#include "src/cli/run.hpp"

namespace boxproof::cli {

// The report of this format; null where it has none over many designs (html).
std::unique_ptr<RunReport> run_report(std::string_view format, const Options& o, bool colour);

// Writes what a run of this design alone gives in this format: to the output, or into its folder, which is
// made where it is not there. Nothing of a design that was not read, where the format tells of judged ones
// only. May run on several threads at once, for different files.
void write_alone(const Output& output, const Options& o, const RunDesign& design, Console& console,
                 const ProgressHook& progress = {});

// Adds what a judgement found, or what another part of the run came to.
void add_to(RunTotals& totals, const Judgement& judgement);
void add_to(RunTotals& totals, const RunTotals& part);

// The findings that are news: what is not on the baseline.
std::array<std::size_t, severity_names.size()> fresh_counts(const RunTotals& totals);

}  // namespace boxproof::cli
