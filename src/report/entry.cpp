#include "src/report/entry.hpp"

#include <fmt/format.h>

#include "boxproof/rule.hpp"
#include "src/report/known.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"

namespace boxproof::report {
namespace {

void write_working(std::string& out, const Finding& f) {
  if (f.working.empty()) return;
  line(out, "working", f.box_id.empty() ? "for the site" : fmt::format("for {}", plain(f.box_id)));
  for (const Step& s : f.working) {
    const std::string value = value_of(s);
    const std::string section = s.section.empty() ? "" : fmt::format("   [{}]", s.section);
    if (s.numbers == s.formula) {
      out += wrap(fmt::format("{} = {}   from {}", s.symbol, value, s.formula), value_column + 2,
                  std::string(value_column - 2, ' '));
    } else {
      out += wrap(fmt::format("{} = {}", s.symbol, s.formula), value_column + 2,
                  std::string(value_column - 2, ' '));
      out += wrap(fmt::format("= {} = {}{}", s.numbers, value, section), value_column + 4,
                  std::string(value_column, ' '));
    }
  }
}

}  // namespace

std::string place_of(const Group& g) {
  const FilePlace& place = g.first().place;
  return fmt::format("{}:{}:{}{}", plain(place.file), place.line, place.column,
                     g.findings.size() > 1 ? fmt::format(" (the first of {})", g.findings.size()) : "");
}

std::string value_of(const Step& s) {
  return fmt::format("{}{}{}", boxproof::exact(s.value), s.unit.empty() ? "" : " ", s.unit);
}

void line(std::string& out, std::string_view label, std::string_view text) {
  if (!text.empty()) out += wrap(text, value_column, left(fmt::format("    {}", label), value_column));
}

std::string entry_text(const Group& g, std::string_view lead, const ReportInput& r, bool agreed) {
  const Finding& f = g.first();
  std::string out;
  out += wrap(fmt::format("{}  [{}]", title_of(f, r), f.rule->id), text_column, lead);
  const std::size_t boxes = box_count(g);
  if (!f.box_id.empty()) {
    line(out, boxes == 1 ? "box" : "boxes",
         boxes == 1 ? boxes_of(g) : fmt::format("{}  ({} boxes)", boxes_of(g), boxes));
  }
  line(out, "part", parts_of(g));
  line(out, "found", range_of(g, &Finding::found));
  line(out, "required", range_of(g, &Finding::required));
  line(out, "section", f.section);
  line(out, g.findings.size() == 1 ? "finding" : "example", plain(f.message));
  if (!agreed) line(out, "do", to_do(f));
  line(out, "place", place_of(g));
  if (r.show_work) write_working(out, f);
  return out;
}

void write_entries(const ReportInput& r, const std::vector<Finding>& findings, const Write& write) {
  const std::vector<Group> fresh = fresh_groups(findings);
  if (fresh.empty()) write(findings.empty() ? "FINDINGS: none\n\n" : "FINDINGS: none that are new\n\n");
  std::size_t number = 0;
  const Finding* last = nullptr;
  for (const Group& g : fresh) {
    if (last == nullptr || last->severity != g.first().severity)
      write(inked(severity_heading(g.first().severity), ink_of(g.first().severity), r.colour) + "\n\n");
    last = &g.first();
    write(entry_text(g, fmt::format("{:>3} ", ++number), r) + "\n");
  }
  write_known(r, number, write);
}

void write_gone(const ReportInput& r, const std::vector<Finding>& gone, const Write& write) {
  if (gone.empty()) return;
  write(inked("GONE: of the plan, and not so on the box as found; not counted", Ink::strong, r.colour) +
        "\n\n");
  std::size_t number = 0;
  for (const Group& g : group(gone)) {
    std::string out = wrap(
        fmt::format("{} ({})  [{}]", g.first().rule->title, name_of(g.first().severity), g.first().rule->id),
        text_column, fmt::format("{:>3} ", ++number));
    if (!g.first().box_id.empty()) line(out, box_count(g) == 1 ? "box" : "boxes", boxes_of(g));
    line(out, "part", parts_of(g));
    line(out, g.findings.size() == 1 ? "plan" : "example", plain(g.first().message));
    write(out + "\n");
  }
}

}  // namespace boxproof::report
