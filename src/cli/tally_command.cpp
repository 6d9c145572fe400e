#include "src/cli/commands.hpp"

namespace boxproof::cli {

int tally_command(const Options&, Console&) {
  return wrong_use;
}

}  // namespace boxproof::cli
