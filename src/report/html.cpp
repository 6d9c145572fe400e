// The report as a page: a title block with the verdict, the chart of near misses, what was found, a row a
// box, a sheet a box, the caution.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/report.hpp"
#include "src/report/agreed.hpp"
#include "src/report/html_page.hpp"
#include "src/report/html_sections.hpp"
#include "src/report/html_text.hpp"
#include "src/report/known.hpp"
#include "src/report/margin_chart.hpp"
#include "src/report/phrases.hpp"

namespace boxproof {
namespace report {
namespace {

// Site's findings before those of boxes, strangers to the plan last: as the judgement has them.
std::uint64_t place_in_order(const Finding& f) {
  if (f.box) return std::uint64_t{*f.box} + 1;
  return f.box_id.empty() ? 0 : UINT64_MAX;
}

void write_chart(const PageIndex& page, const Write& write) {
  write("<section id=\"margins\">\n<h2>Near misses</h2>\n");
  write_margin_chart(page, write);
  write("</section>\n");
}

void write_navigation(const PageIndex& page, const Write& write) {
  const Judgement& j = page.r.judgement;
  std::string out = "<nav class=\"screen\" aria-label=\"Parts of the report\">\n<ul>\n";
  const auto item = [&](std::string_view id, std::string_view text) {
    out += fmt::format("<li><a href=\"#{}\">{}</a></li>\n", id, text);
  };
  item("margins", "Near misses");
  item("findings", "Findings");
  if (j.baseline) item("baseline", "Baseline");
  const bool any_disposition =
      std::any_of(j.boxes.begin(), j.boxes.end(), [](const BoxResult& b) { return b.disposition; });
  if (any_disposition) item("dispositions", "Dispositions");
  if (!j.gone.empty()) item("gone", "Gone");
  if (has_agreed_section(j)) item("agreed", "Agreed exceptions");
  item("list", "Boxes");
  item("sheets", "Box sheets");
  write(out + "</ul>\n</nav>\n");
}

}  // namespace

PageIndex::PageIndex(const ReportInput& report)
    : r(report),
      groups(fresh_groups(report.judgement.findings)),
      fresh(groups.size()),
      sheets(report.design.design.combiners.size()) {
  const Judgement& j = r.judgement;
  for (Group& g : known_groups(j.findings)) groups.push_back(std::move(g));
  entries.resize(j.findings.size());
  for (std::size_t i = 0; i < groups.size(); ++i)
    for (const Finding* f : groups[i].findings)
      entries[static_cast<std::size_t>(f - j.findings.data())] = i + 1;
  for (const BoxResult& b : j.boxes) sheets[b.index] = true;
  const auto under = agreed_by_exception(j);
  for (std::size_t i = 0; i < under.size(); ++i)
    for (Group& g : group(under[i])) agreed.push_back({i, std::move(g)});
}

std::size_t PageIndex::entry_of(const Finding& f) const {
  return entries[static_cast<std::size_t>(&f - r.judgement.findings.data())];
}

std::span<const Finding> PageIndex::findings_of(std::uint32_t box) const {
  const std::vector<Finding>& all = r.judgement.findings;
  const std::uint64_t place = std::uint64_t{box} + 1;
  const auto first = std::partition_point(all.begin(), all.end(),
                                          [&](const Finding& f) { return place_in_order(f) < place; });
  const auto last =
      std::partition_point(first, all.end(), [&](const Finding& f) { return place_in_order(f) == place; });
  return {first, last};
}

}  // namespace report

void write_html(const ReportInput& r, const Write& write) {
  using namespace report;
  const PageIndex page(r);
  const std::string title =
      fmt::format("{}: {}, {}", r.design.design.site.name, check_name(r), name_of(r.judgement.verdict));
  write_page_head(title, {"page", "drawing", "report"}, write, page_margin_css(r));
  write("<a class=\"skip\" href=\"#findings\">Skip to the findings</a>\n");
  write_title_block(page, write);
  write_navigation(page, write);
  write("<main>\n");
  write_chart(page, write);
  write_finding_section(page, write);
  write_known_section(page, write);
  write_disposition_section(page, write);
  write_gone_section(page, write);
  write_agreed_section(page, write);
  write_box_table(page, write);
  write_box_sheets(page, write);
  write("</main>\n");
  write(fmt::format("<footer class=\"caution\">\n<p><strong>Caution.</strong> {}</p>\n</footer>\n",
                    html(caution())));
  write_page_script("report", write);
  write_page_end(write);
}

}  // namespace boxproof
