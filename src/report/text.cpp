// The report for people. The verdict stands first; one row a box; then what was found, worst first, the same
// finding on many boxes as one entry; the caution last.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/report.hpp"
#include "src/report/agreed.hpp"
#include "src/report/dispositions.hpp"
#include "src/report/entry.hpp"
#include "src/report/layout.hpp"
#include "src/rules/notes.hpp"

namespace boxproof {
namespace report {
namespace {

std::string_view verdict_sentence(Verdict verdict) {
  switch (verdict) {
    case Verdict::stop: return "unsafe as it stands";
    case Verdict::correct: return "does not meet the adopted code or the approved plan";
    case Verdict::not_visited: return "not every box was visited";
    case Verdict::clarify: return "cannot be judged without more information";
    case Verdict::accept: return "nothing found above advice";
  }
  return {};
}

std::string_view use_words(Use use) {
  switch (use) {
    case Use::dwelling: return "one- or two-family dwelling";
    case Use::building: return "building";
    case Use::ground: return "not on a building";
  }
  return {};
}

std::string degrees(const std::optional<Celsius>& t) {
  return t ? shown(*t) + " °C" : std::string("not stated");
}

// A local amendment may set a colder design temperature than the plan's.
std::string judged_colder(const ReportInput& r) {
  const auto stated = r.design.design.site.low, judged = design_low(stated, r.edition);
  return stated != judged ? fmt::format(" (judged at {} °C)", shown(*judged)) : std::string();
}

void write_head(const ReportInput& r, const Write& write) {
  const Design& d = r.design.design;
  const Judgement& j = r.judgement;
  const std::string left_side = fmt::format("boxproof {}", version());
  const std::string right_side =
      fmt::format("{}, NEC {}", r.record != nullptr ? "field check" : "plan check", r.edition.name);
  write(left_side + right(right_side, page_width - width_of(left_side)) + "\n");
  std::string name = wrap(plain(d.site.name), 0);
  name.pop_back();  // the line end stays outside the colour
  write(inked(name, Ink::strong, r.colour) + "\n");
  write(wrap(
      fmt::format("{}; low {}{}, high {} ({})", use_words(d.site.use), degrees(d.site.low), judged_colder(r),
                  degrees(d.site.high),
                  d.site.temperature_source.empty() ? "no source stated" : plain(d.site.temperature_source)),
      2, "  "));
  std::string totals = fmt::format("{}, {} strings, {} modules", counted(j.totals.combiners, "box", "boxes"),
                                   grouped(j.totals.strings), grouped(j.totals.modules));
  if (j.totals.dc_kilowatts) totals += fmt::format(", {:.1f} kW DC", *j.totals.dc_kilowatts);
  if (r.record != nullptr) totals += ", as built";
  write(wrap(totals, 2, "  "));
  if (r.record != nullptr) {
    const FieldRecord& v = r.record->record;
    std::string visit = fmt::format("visited {}", v.date.empty() ? "on a date not stated" : plain(v.date));
    if (!v.by.empty()) visit += " by " + plain(v.by);
    if (v.kind) visit += *v.kind == VisitKind::first ? ", first visit" : ", visited again";
    if (!v.weather.empty()) visit += "; " + plain(v.weather);
    write(wrap(visit, 2, "  "));
  }
  write_changes(r.overrides, r.edition, write);
  if (j.exceptions_day) write(wrap(exceptions_day_line(j), 4, "  "));
  if (j.selected)
    write(wrap(fmt::format("Only {} of {} boxes are shown; the site's own findings are left out.",
                           j.boxes.size(), d.combiners.size()),
               4, "  "));
}

void write_verdict(const ReportInput& r, const Write& write) {
  const Judgement& j = r.judgement;
  write("\n");
  const std::string word = upper(verdict_names[static_cast<std::size_t>(j.verdict)]);
  write(fmt::format("VERDICT  {}  {}\n", inked(word, ink_of(j.verdict), r.colour),
                    verdict_sentence(j.verdict)));
  std::array<std::size_t, verdict_names.size()> boxes{};
  for (const BoxResult& b : j.boxes) ++boxes[static_cast<std::size_t>(b.verdict)];
  std::string line;
  const auto add = [&](Verdict v, std::string_view what) {
    const std::size_t n = boxes[static_cast<std::size_t>(v)];
    if (n > 0) line += fmt::format("{}{} {}", line.empty() ? "" : ", ", n, what);
  };
  add(Verdict::stop, "to stop");
  add(Verdict::correct, "to correct");
  add(Verdict::not_visited, "not visited");
  add(Verdict::clarify, "to clarify");
  add(Verdict::accept, "to accept");
  write(wrap("Boxes: " + line, 9, "         "));
  write(wrap(
      fmt::format("Findings: {}, {}, {}, {}", counted(j.counts[0], "hazard", "hazards"),
                  counted(j.counts[1], "correction", "corrections"), counted(j.counts[2], "query", "queries"),
                  counted(j.counts[3], "piece of advice", "pieces of advice")),
      9, "         "));
  if (j.exceptions_day) write(wrap(exceptions_summary(j), 9, "         "));
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
    const std::string_view verdict = verdict_names[static_cast<std::size_t>(b.verdict)];
    lines +=
        row(plain(facts.box->id), plain(facts.box->sheet), fmt::format("{}", facts.strings),
            fmt::format("{:.0f}", facts.modules),
            facts.max_voltage && facts.every_voltage_known ? fmt::format("{:.1f}", facts.max_voltage->value())
                                                           : "?",
            fmt::format("{:.1f}", facts.output_max.value()), margin ? percent(margin->share()) : "?",
            margin ? margin->brief : "");
    lines += inked(verdict, ink_of(b.verdict), r.colour) + "\n";
    constexpr std::size_t enough = 1U << 16;  // bytes
    if (lines.size() > enough) {
      write(lines);
      lines.clear();
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
