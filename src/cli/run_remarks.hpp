// What a run of many designs has to say of the files beside them.
#pragma once

#include <string>
#include <vector>

#include "src/check/exceptions_run.hpp"
#include "src/cli/case.hpp"
#include "src/cli/inputs.hpp"

namespace boxproof::cli {

// A sentence each: exceptions that no design has a use for; where a folder was looked through, entries of the
// baseline whose design is there no more.
std::vector<std::string> run_remarks(const Options& options, const std::vector<DesignInput>& designs,
                                     const Others& others,
                                     const std::optional<ExceptionsOverRun>& exceptions);

}  // namespace boxproof::cli
