// What is on a baseline, in a line an entry, and the entries that cover nothing any more.
#include <fmt/format.h>

#include "boxproof/rule.hpp"
#include "src/report/html_parts.hpp"
#include "src/report/html_text.hpp"
#include "src/report/known.hpp"
#include "src/report/phrases.hpp"

namespace boxproof::report {
namespace {

std::string entry(const PageIndex& page, std::size_t i) {
  const Group& g = page.groups[i];
  const Finding& f = g.first();
  const std::string parts = parts_of(g);
  return fmt::format("<li id=\"finding-{}\">{} {} {} <span class=\"file\">{}</span> <span>{}{}</span></li>\n",
                     i + 1, number(i + 1), tag(f.severity), html(title_of(f, page.r)), f.rule->id,
                     f.box_id.empty() ? "the site" : box_links(page, g),
                     parts.empty() ? "" : ", " + html(parts));
}

std::string list(std::string_view lead, const std::vector<BaselineEntry>& entries) {
  if (entries.empty()) return {};
  std::string out = fmt::format("<p>{}:</p>\n<ul>\n", lead);
  for (const std::string& line : entry_lines(entries)) out += fmt::format("<li>{}</li>\n", html(line));
  return out + "</ul>\n";
}

}  // namespace

void write_known_section(const PageIndex& page, const Write& write) {
  const Judgement& j = page.r.judgement;
  if (!j.baseline) return;
  write(fmt::format("<section id=\"baseline\">\n<h2>{}</h2>\n<p>{}</p>\n", html(baseline_heading(j)),
                    baseline_caution()));
  if (page.fresh < page.groups.size()) {
    write("<ul class=\"found known\">\n");
    for (std::size_t i = page.fresh; i < page.groups.size(); ++i) write(entry(page, i));
    write("</ul>\n");
  } else {
    write("<p>Nothing that is on it was found.</p>\n");
  }
  write(list(graver_words, j.baseline->graver) + list(stale_words, j.baseline->stale) + "</section>\n");
}

}  // namespace boxproof::report
