// The correction list.
#include "boxproof/report.hpp"

namespace boxproof {

void write_markdown(const ReportInput&, const Write&) {}

}  // namespace boxproof
