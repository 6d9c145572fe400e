// completion: what completes the command line in a shell.
#include "src/cli/case.hpp"
#include "src/cli/commands.hpp"

namespace boxproof::cli {

int completion_command(const Options&, Console&) {
  throw WrongUse("completion is not there yet");
}

}  // namespace boxproof::cli
