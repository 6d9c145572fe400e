// The settings file, found and put in the place of what the command line leaves open.
#pragma once

#include "boxproof/settings.hpp"
#include "src/cli/options.hpp"
#include "src/cli/run.hpp"

namespace boxproof::cli {

// Fills in what the command line leaves open, from the nearest settings file in the working folder or above
// it. Paths in it are relative to it. Commands that judge nothing have no use for one. Throws InputError with
// every problem of the file.
void apply_settings(Options& options, const Console& console);

}  // namespace boxproof::cli
