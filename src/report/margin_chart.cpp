#include "src/report/margin_chart.hpp"

namespace boxproof::report {

void write_margin_chart(const ReportInput&, const Write&) {}

}  // namespace boxproof::report
