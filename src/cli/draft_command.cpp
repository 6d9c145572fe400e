// draft and schedule: a design out of a combiner schedule, and back.
#include "src/cli/case.hpp"
#include "src/cli/commands.hpp"

namespace boxproof::cli {

int draft_command(const Options&, Console&) {
  throw WrongUse("draft is not there yet");
}
int schedule_command(const Options&, Console&) {
  throw WrongUse("schedule is not there yet");
}

}  // namespace boxproof::cli
