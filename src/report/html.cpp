// The report as a page.
#include "boxproof/report.hpp"
#include "src/report/html_page.hpp"

namespace boxproof {

void write_html(const ReportInput& r, const Write& write) {
  report::write_page_head(r.design.design.site.name, {"page"}, write);
  report::write_page_end(write);
}

}  // namespace boxproof
