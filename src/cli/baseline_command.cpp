// baseline: today's findings written down.
#include "src/cli/case.hpp"
#include "src/cli/commands.hpp"

namespace boxproof::cli {

int baseline_command(const Options&, Console&) {
  throw WrongUse("baseline is not there yet");
}

}  // namespace boxproof::cli
