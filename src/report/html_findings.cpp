// What was found, as entries: worst first, the same finding on many boxes once.
#include <fmt/format.h>

#include "boxproof/rule.hpp"
#include "src/report/agreed.hpp"
#include "src/report/dispositions.hpp"
#include "src/report/entry.hpp"
#include "src/report/html_parts.hpp"
#include "src/report/html_text.hpp"
#include "src/report/phrases.hpp"

namespace boxproof::report {
namespace {

struct EntryKind {
  std::string_view id;  // of the element, its number behind it
  int level;            // of its heading
  bool stands;          // it needs something done, and has its working
};
constexpr EntryKind standing{"finding", 4, true}, set_aside{"agreed", 4, false}, gone{"gone", 3, false};

std::string amount(const Group& g, Amount Finding::*value, std::string_view label) {
  const std::string text = html(range_of(g, value));
  if (text.empty()) return {};
  return fmt::format("<div><dt>{}</dt><dd class=\"amount\">{}</dd></div>\n", label, text);
}

std::string row(std::string_view label, const std::string& value) {
  return value.empty() ? value : fmt::format("<div>{}</div>\n", fact(label, value));
}

std::string facts(const PageIndex& page, const Group& g) {
  const Finding& f = g.first();
  std::string out = "<dl>\n";
  if (!f.box_id.empty()) out += row(box_count(g) == 1 ? "Box" : "Boxes", box_links(page, g));
  out += row("Part", html(parts_of(g)));
  out += amount(g, &Finding::found, "Found");
  out += amount(g, &Finding::required, "Required");
  out += row("Section", html(f.section));
  return out + "</dl>\n";
}

std::string entry(const PageIndex& page, const Group& g, std::size_t n, const EntryKind& kind) {
  const Finding& f = g.first();
  std::string out =
      fmt::format("<article class=\"finding {}\" id=\"{}-{}\">\n", name_of(f.severity), kind.id, n);
  out += fmt::format("<h{0}>{1} {2}</h{0}>\n<p class=\"kind\">{3} <span class=\"file\">{4}</span></p>\n",
                     kind.level, number(n),
                     html(kind.level == 3 ? std::string(f.rule->title) : title_of(f, page.r)),
                     tag(f.severity), f.rule->id);
  out += facts(page, g);
  out += "<div class=\"said\">\n";
  if (g.findings.size() > 1) out += "<b class=\"label\">Example</b>\n";
  out += fmt::format("<p class=\"message\">{}</p>\n", html(f.message));
  if (kind.stands) out += fmt::format("<p class=\"do\"><b>Do</b> {}</p>\n", html(to_do(f)));
  out +=
      fmt::format("<p class=\"place\"><b>Place</b> <span class=\"file\">{}</span></p>\n", html(place_of(g)));
  out += "</div>\n";
  if (&kind != &gone) out += working(page.r, f);
  return out + "</article>\n";
}

}  // namespace

void write_finding_section(const PageIndex& page, const Write& write) {
  write("<section id=\"findings\">\n<h2>Findings</h2>\n");
  if (page.fresh == 0) write(page.groups.empty() ? "<p>None.</p>\n" : "<p>None that are new.</p>\n");
  const Finding* last = nullptr;
  for (std::size_t i = 0; i < page.fresh; ++i) {
    const Finding& f = page.groups[i].first();
    if (last == nullptr || last->severity != f.severity)
      write(fmt::format("<h3 class=\"severity\" id=\"{0}\">{1}</h3>\n", name_of(f.severity),
                        severity_heading(f.severity)));
    last = &f;
    write(entry(page, page.groups[i], i + 1, standing));
  }
  write("</section>\n");
}

void write_disposition_section(const PageIndex& page, const Write& write) {
  const std::vector<BoxDisposition> boxes = dispositions(page.r);
  if (boxes.empty()) return;
  write(
      "<section id=\"dispositions\">\n<h2>Dispositions</h2>\n<div class=\"scroll\">\n<table>\n"
      "<caption>What becomes of the boxes, by what was seen in them</caption>\n<thead><tr><th scope=\"col\">Box</th>"
      "<th scope=\"col\">Disposition</th><th scope=\"col\">Seen</th></tr></thead>\n<tbody>\n");
  for (const BoxDisposition& b : boxes) {
    const std::string id = b.box ? fmt::format("<a href=\"#box-{}\">{}</a>", *b.box, name(b.id)) : name(b.id);
    write(fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td></tr>\n", id, tag(b.disposition),
                      html(b.seen)));
  }
  write("</tbody>\n</table>\n</div>\n</section>\n");
}

void write_gone_section(const PageIndex& page, const Write& write) {
  if (page.r.judgement.gone.empty()) return;
  write(
      "<section id=\"gone\">\n<h2>Gone</h2>\n<p>Of the plan, and not so on the box as found; not "
      "counted.</p>\n");
  std::size_t n = 0;
  for (const Group& g : group(page.r.judgement.gone)) write(entry(page, g, ++n, gone));
  write("</section>\n");
}

void write_agreed_section(const PageIndex& page, const Write& write) {
  const Judgement& j = page.r.judgement;
  if (!has_agreed_section(j)) return;
  write(fmt::format(
      "<section id=\"agreed\">\n<h2>Agreed exceptions</h2>\n<p>No verdict hangs on what is set aside here. {}</p>\n",
      html(agreed_caution(j))));
  if (j.exceptions.empty()) write(fmt::format("<p>{}</p>\n", no_entries_words(j)));
  std::size_t n = 0;
  for (std::size_t i = 0; i < j.exceptions.size(); ++i) {
    const Rule& rule = *j.exceptions[i].entry.rule;
    std::string out = fmt::format(
        "<section class=\"exception\">\n<h3>Exception {}: {} <span class=\"file\">{}</span></h3>\n<dl "
        "class=\"facts\">\n",
        j.exceptions[i].index + 1, html(rule.title), rule.id);
    for (const auto& [label, text] : exception_rows(j.exceptions[i], j))
      out += label.empty() ? fmt::format("<dd>{}</dd>\n", html(text)) : fact(label, html(text));
    write(out + "</dl>\n");
    for (; n < page.agreed.size() && page.agreed[n].exception == i; ++n)
      write(entry(page, page.agreed[n].group, n + 1, set_aside));
    write("</section>\n");
  }
  write("</section>\n");
}

}  // namespace boxproof::report
