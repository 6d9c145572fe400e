// The report for people. The verdict stands first; one row a box; then what was found, worst first, the same
// finding on many boxes as one entry; the caution last.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/report.hpp"
#include "src/report/agreed.hpp"
#include "src/report/dispositions.hpp"
#include "src/report/entry.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "src/report/text.hpp"

namespace boxproof {
namespace report {

void write_site(const ReportInput& r, const Write& write) {
  std::string name = wrap(plain(r.design.design.site.name), 0);
  name.pop_back();  // the line end stays outside the colour
  write(inked(name, Ink::strong, r.colour) + "\n");
  write(wrap(site_line(r), 2, "  "));
  write(wrap(totals_line(r), 2, "  "));
  if (r.record != nullptr) write(wrap(visit_line(r.record->record), 2, "  "));
  for (const std::string& text : remarks(r)) write(wrap(text, 4, "  "));
}

void write_verdict(const ReportInput& r, const Write& write) {
  const Judgement& j = r.judgement;
  const std::string word = upper(name_of(j.verdict));
  write(fmt::format("VERDICT  {}  {}\n", inked(word, ink_of(j.verdict), r.colour),
                    verdict_sentence(j.verdict)));
  write(wrap("Boxes: " + verdicts_line(j), 9, "         "));
  write(wrap("Findings: " + counts_line(j), 9, "         "));
  if (j.exceptions_day) write(wrap(exceptions_summary(j), 9, "         "));
}

namespace {

void write_head(const ReportInput& r, const Write& write) {
  const std::string left_side = fmt::format("boxproof {}", version());
  write(left_side + right(check_name(r), page_width - width_of(left_side)) + "\n");
  write_site(r, write);
  write("\n");
}

void write_boxes(const ReportInput& r, const Write& write) {
  const auto& boxes = r.judgement.boxes;
  const Design& d = r.design.design;
  std::size_t id_width = 3, sheet_width = 5;
  constexpr std::size_t widest_id = 12, widest_sheet = 8;
  for (const BoxResult& b : boxes) {
    id_width = std::min(widest_id, std::max(id_width, width_of(d.combiners[b.index].id)));
    sheet_width = std::min(widest_sheet, std::max(sheet_width, width_of(d.combiners[b.index].sheet)));
  }
  const auto row = [&](std::string_view id, std::string_view sheet, std::string_view strings,
                       std::string_view modules, std::string_view volts, std::string_view amps,
                       std::string_view margin, std::string_view what) {
    return fmt::format("  {} {} {} {} {} {}  {} {} ", left(id, id_width), left(sheet, sheet_width),
                       right(strings, 4), right(modules, 5), right(volts, 7), right(amps, 6),
                       right(margin, 7), left(what, page_width - 40 - id_width - sheet_width - 13));
  };
  write("\nBOXES" + std::string(r.record != nullptr ? ", as built where visited" : "") + "\n");
  write(row("box", "sheet", "str.", "mod.", "max V", "out A", "margin", "nearest limit") + "verdict\n");
  std::string lines;
  BoxFacts facts;
  FoundBox own;
  for (const BoxResult& b : boxes) {
    facts_of(r.design, r.edition, r.record, b, own, facts);
    const auto margin = tightest_margin(d, facts, r.edition);
    lines +=
        row(plain(facts.box->id), plain(facts.box->sheet), fmt::format("{}", facts.strings),
            fmt::format("{:.0f}", facts.modules),
            facts.max_voltage && facts.every_voltage_known ? fmt::format("{:.1f}", facts.max_voltage->value())
                                                           : "?",
            fmt::format("{:.1f}", facts.output_max.value()), margin ? percent(margin->share()) : "?",
            margin ? margin->brief : "");
    lines += inked(name_of(b.verdict), ink_of(b.verdict), r.colour) + "\n";
    constexpr std::size_t enough = 1U << 16;  // bytes
    if (lines.size() > enough) {
      write(lines);
      lines.clear();
      if (r.progress) r.progress(static_cast<std::size_t>(&b - boxes.data()) + 1, boxes.size());
    }
  }
  write(lines);
}

}  // namespace
}  // namespace report

void write_text(const ReportInput& r, const Write& write) {
  report::write_head(r, write);
  report::write_verdict(r, write);
  report::write_boxes(r, write);
  report::write_dispositions(r, write);
  write("\n");
  report::write_entries(r, r.judgement.findings, write);
  report::write_gone(r, r.judgement.gone, write);
  report::write_agreed(r, write);
  write(report::wrap(caution(), 0));
}

}  // namespace boxproof
