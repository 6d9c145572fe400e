// The settings of a folder and what is under it (.boxproof.json, boxproof-settings/1): what the command line
// would say each time. The command line wins.
#pragma once

#include "src/cli/options.hpp"
#include "src/cli/run.hpp"

namespace boxproof::cli {

inline constexpr std::string_view settings_name = ".boxproof.json";

// Fills in what the command line leaves open, from the nearest settings file in the working folder or above
// it. Paths in it are relative to it. Throws InputError with every problem of the file.
void apply_settings(Options& options, const Console& console);

}  // namespace boxproof::cli
