// The field sheet as a page.
#include "src/report/tally.hpp"

namespace boxproof::report {

void write_tally_html(const TallySheet&, const Write&) {}

}  // namespace boxproof::report
