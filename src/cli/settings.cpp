#include "src/cli/settings.hpp"

namespace boxproof::cli {

void apply_settings(Options&, const Console&) {}

}  // namespace boxproof::cli
