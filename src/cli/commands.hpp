// The commands that stand in files of their own. Each returns the exit status.
#pragma once

#include "boxproof/input_error.hpp"
#include "src/cli/options.hpp"
#include "src/cli/run.hpp"

namespace boxproof::cli {

int check_command(const Options& options, Console& console);
int box_command(const Options& options, Console& console);
int labels_command(const Options& options, Console& console);
int tally_command(const Options& options, Console& console);
int compare_command(const Options& options, Console& console);
int baseline_command(const Options& options, Console& console);
int draft_command(const Options& options, Console& console);
int schedule_command(const Options& options, Console& console);
int schema_command(const Options& options, Console& console);
int completion_command(const Options& options, Console& console);
int man_command(const Options& options, Console& console);

// Whether text that goes to `output`, or to standard output where that is empty, goes out in colour.
bool wants_colour(const Options& options, const Console& console, const std::string& output);

// A line on standard error; what a file or its name brings does no harm there.
void say(std::string_view text, Console& console);

// Tells what is wrong with an input, a line a problem.
void tell(const InputError& error, Console& console);

// The status for so many findings of each severity.
int status_of(const std::array<std::size_t, severity_names.size()>& counts, std::string_view fail_on);

}  // namespace boxproof::cli
