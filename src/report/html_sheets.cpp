// A sheet a box: its drawing, what to count, its margins, its findings.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/rule.hpp"
#include "src/report/box_words.hpp"
#include "src/report/html_counts.hpp"
#include "src/report/html_parts.hpp"
#include "src/report/html_text.hpp"
#include "src/report/phrases.hpp"
#include "src/report/schematic.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

struct BoxSheet {
  const PageIndex& page;
  const BoxResult& result;
  const BoxFacts& facts;
  std::span<const Finding> findings;
};

std::string heading(const BoxSheet& s) {
  const Combiner& box = *s.facts.box;
  std::string out = fmt::format("<div class=\"plate\"><div>\n<h3>{}</h3>\n<dl>", name(box.id));
  const auto item = [&](std::string_view label, std::string_view text) {
    if (!text.empty()) out += fmt::format("<div><dt>{}</dt><dd>{}</dd></div>", label, name(text));
  };
  item("Sheet", box.sheet);
  item("Type", box.type != nullptr ? box.type->id : std::string());
  item("Feeds", box.inverter->id);
  item("Location", box.location);
  out += "</dl>\n<p>";
  if (s.page.r.record != nullptr && !s.result.visited && s.result.verdict != Verdict::not_visited)
    out += "not visited ";
  if (s.result.disposition) out += tag(*s.result.disposition) + " ";
  return out + tag(s.result.verdict) + "</p>\n</div></div>\n";
}

std::string drawing(const BoxSheet& s) {
  std::vector<Mark> marks;
  for (const Finding& f : s.findings) {
    const std::size_t n = s.page.entry_of(f);
    marks.push_back({&f, n, fmt::format("#finding-{}", n)});
  }
  const std::string svg = schematic(s.page.r, s.result, s.facts, marks);
  return svg.empty() ? svg : "<figure class=\"schematic\">\n" + svg + "\n</figure>\n";
}

std::string margin_table(const BoxSheet& s) {
  const std::vector<Margin> rows = nearest_margins(s.page.r, s.facts);
  if (rows.empty()) return "<p>No margin can be computed.</p>\n";
  std::string out =
      "<table class=\"limits\">\n<caption>Margins</caption>\n<thead><tr><th scope=\"col\">Limit</th><th "
      "scope=\"col\" class=\"num\">Value</th><th scope=\"col\" class=\"num\">Of</th><th scope=\"col\" "
      "class=\"num\">Left</th></tr></thead>\n<tbody>\n";
  for (const Margin& m : rows) {
    const bool over = exceeds(m.value, m.limit);
    out += fmt::format(
        "<tr{}><th scope=\"row\">{}</th><td class=\"num\">{}</td><td class=\"num\">{} {}</td><td "
        "class=\"num\">{}{}</td></tr>\n",
        over ? " class=\"over\"" : "", html(what_of(m)), boxproof::shown(m.value, m.limit),
        boxproof::shown(m.limit, m.value), m.unit, percent(m.share()), over ? " over" : "");
  }
  return out + "</tbody>\n</table>\n";
}

std::string list_item(std::string_view href, std::size_t n, const Finding& f, std::string_view title) {
  return fmt::format("<li>{} {}{} <a href=\"#{}-{}\">{}</a><p>{}</p></li>\n", number(n), tag(f.severity),
                     f.known ? " on the baseline:" : "", href, n, html(title), html(f.message));
}

std::string finding_list(const BoxSheet& s) {
  std::string out;
  for (const Finding& f : s.findings)
    out += list_item("finding", s.page.entry_of(f), f, title_of(f, s.page.r));
  return out.empty() ? "<p class=\"nothing\">No findings.</p>\n" : "<ul class=\"found\">\n" + out + "</ul>\n";
}

std::string agreed_list(const BoxSheet& s) {
  const PageIndex& page = s.page;
  std::string out;
  for (std::size_t i = 0; i < page.agreed.size(); ++i)
    for (const Finding* f : page.agreed[i].group.findings)
      if (f->box == s.result.index) out += list_item("agreed", i + 1, *f, title_of(*f, page.r));
  return out.empty() ? out : "<p>Set aside by agreement:</p>\n<ul class=\"found aside\">\n" + out + "</ul>\n";
}

std::string label(const BoxSheet& s) {
  const bool visited = s.page.r.record != nullptr && s.result.visited;
  return fmt::format("<p><b class=\"label\">The label should say{}</b> {}</p>\n", visited ? ", as found" : "",
                     html(label_should_say(s.facts)));
}

// What was found and what to count, with the drawing beside them; the margins where there is room.
std::string full(const BoxSheet& s) {
  constexpr std::size_t many = 5;  // findings that make the text longer than the drawing
  const std::string margins = "<div>\n" + margin_table(s) + "</div>\n";
  const bool below_drawing = s.findings.size() >= many;
  return "<div class=\"open\">\n<div class=\"told\">\n" + finding_list(s) + agreed_list(s) +
         "<div class=\"numbers\">\n<div>\n" + count_table(s.page.r, s.result, s.facts) + "</div>\n<div>\n" +
         label(s) + "</div>\n" + (below_drawing ? "" : margins) + "</div>\n</div>\n<div class=\"drawn\">\n" +
         drawing(s) + (below_drawing ? margins : "") + "</div>\n</div>\n";
}

// Nothing was found that an approval hangs on, or a question or two, which words tell better than a drawing.
bool is_compact(std::span<const Finding> findings) {
  constexpr std::ptrdiff_t few = 2;
  const auto of = [&](Severity severity) {
    return std::count_if(findings.begin(), findings.end(),
                         [&](const Finding& f) { return f.severity == severity; });
  };
  return of(Severity::hazard) == 0 && of(Severity::correction) == 0 && of(Severity::query) <= few;
}

// What to count, and the rest for those who ask. Where something is asked the drawing is in sight on the
// screen; paper is saved.
std::string compact(const BoxSheet& s) {
  const bool asked = std::any_of(s.findings.begin(), s.findings.end(),
                                 [](const Finding& f) { return f.severity == Severity::query; });
  const auto nearest = tightest_margin(s.page.r.design.design, s.facts, s.page.r.edition);
  return "<div class=\"numbers\">\n<div>\n" + count_table(s.page.r, s.result, s.facts) + "</div>\n<div>\n" +
         finding_list(s) + agreed_list(s) + label(s) + "</div>\n</div>\n" +
         fmt::format("<details class=\"more{}\"{}>\n<summary>Drawing and margins{}</summary>\n<div>\n",
                     asked && !s.page.r.show_work ? " screen" : "",
                     asked || s.page.r.show_work ? " open" : "",
                     nearest ? fmt::format("; nearest: {}, {}", nearest->brief, percent(nearest->share()))
                             : std::string()) +
         drawing(s) + "<div>\n" + margin_table(s) + "</div>\n</div>\n</details>\n";
}

std::string sheet(const BoxSheet& s) {
  const bool short_one = is_compact(s.findings);
  return fmt::format("<section class=\"box{}\" id=\"box-{}\">\n", short_one ? " compact" : "",
                     s.result.index) +
         heading(s) + (short_one ? compact(s) : full(s)) + "</section>\n";
}

}  // namespace

void write_box_sheets(const PageIndex& page, const Write& write) {
  const ReportInput& r = page.r;
  write("<section id=\"sheets\">\n<h2>Box sheets</h2>\n" + schematic_key());
  BoxFacts facts;
  FoundBox own;
  constexpr std::size_t now_and_then = 64;  // boxes
  for (const BoxResult& b : r.judgement.boxes) {
    facts_of(r.design, r.edition, r.record, b, own, facts);
    write(sheet({page, b, facts, page.findings_of(b.index)}));
    const auto come = static_cast<std::size_t>(&b - r.judgement.boxes.data()) + 1;
    if (r.progress && come % now_and_then == 0) r.progress(come, r.judgement.boxes.size());
  }
  write("</section>\n");
}

}  // namespace boxproof::report
