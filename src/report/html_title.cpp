// The title block of the report page, as a drawing sheet has one.
#include <fmt/format.h>

#include "src/read/source_map.hpp"
#include "src/report/agreed.hpp"
#include "src/report/html_parts.hpp"
#include "src/report/html_text.hpp"
#include "src/report/known.hpp"
#include "src/report/phrases.hpp"

namespace boxproof::report {
namespace {

// `content` is HTML; a cell without any is left out.
std::string cell(std::string_view width, std::string_view label, const std::string& content) {
  if (content.empty()) return {};
  return fmt::format("<div class=\"cell {}\"><b>{}</b>{}</div>\n", width, label, content);
}

std::string verdict(Verdict v) {
  return fmt::format("<p class=\"stamp {0}\">{0}</p><p>{1}</p>", name_of(v), verdict_sentence(v));
}

std::string upper_first(std::string text) {
  if (!text.empty()) text.front() = upper(text.substr(0, 1)).front();
  return text;
}

std::string finding_counts(const Judgement& j) {
  const SeverityCounts fresh = fresh_counts(j);
  std::string out = "<ul class=\"counts\">";
  for (std::size_t i = 0; i < j.counts.size(); ++i) {
    const Severity severity = static_cast<Severity>(i);
    const std::string text =
        fmt::format("<strong>{}</strong> <span>{}</span>", j.counts[i], word_of(severity, j.counts[i]));
    if (j.counts[i] == 0)
      out += fmt::format("<li class=\"none\">{}</li>", text);
    else
      out += fmt::format("<li class=\"{}\"><a href=\"#{}\">{}</a></li>", name_of(severity),
                         fresh[i] > 0 ? name_of(severity) : "baseline", text);
  }
  out += "</ul>";
  if (const std::string words = fresh_words(j); !words.empty())
    out += fmt::format("<p>{}</p>", upper_first(words));
  if (j.exceptions_day) out += fmt::format("<p>{}</p>", html(exceptions_summary(j)));
  return out;
}

std::string box_counts(const Judgement& j) {
  std::string out = "<ul class=\"counts\">";
  for (const VerdictCount& c : boxes_by_verdict(j))
    out += fmt::format("<li class=\"{}\"><strong>{}</strong> {}</li>", name_of(c.verdict), c.boxes, c.words);
  for (const VerdictCount& c : strangers_by_verdict(j))
    out += fmt::format("<li class=\"{}\"><strong>{}</strong> not on the plan, {}</li>", name_of(c.verdict),
                       c.boxes, c.words);
  return out + "</ul>";
}

std::string files(const ReportInput& r) {
  const auto file = [](std::string_view path) {
    return fmt::format("<span class=\"file\">{}</span>", html(path));
  };
  const std::string design = file(r.design.places->file());
  if (r.record == nullptr) return design;
  return "<dl class=\"facts\">" + fact("Design", design) +
         fact("Field record", file(r.record->places->file())) + "</dl>";
}

std::string remark_list(const ReportInput& r) {
  std::string out;
  for (const std::string& text : remarks(r)) out += fmt::format("<li>{}</li>", html(text));
  return out.empty() ? out : "<ul>" + out + "</ul>";
}

}  // namespace

void write_title_block(const PageIndex& page, const Write& write) {
  const ReportInput& r = page.r;
  const Site& site = r.design.design.site;
  const bool field = r.record != nullptr;
  std::string out = "<header class=\"block\">\n";
  out += cell("wide", "Site", fmt::format("<h1><bdi>{}</bdi></h1>", html(site.name)));
  out += cell(
      "check", "Report",
      fmt::format("<p class=\"edition\">{}</p><p>boxproof {}</p>", upper_first(check_name(r)), version()));
  out += cell("verdict", "Verdict", verdict(r.judgement.verdict));
  out += cell("", "Findings", finding_counts(r.judgement));
  out += cell("", field ? "Boxes, as built where visited" : "Boxes", box_counts(r.judgement));
  out += cell(
      "full live", "Before anybody opens a box",
      "A box stays energised from the array with its switch open. This report is an aid to review and no "
      "approval.");
  out += cell("wide", "Conditions", html(upper_first(site_line(r))));
  out += cell("", "Totals", html(totals_line(r)));
  const std::string_view beside_permit = site.permit.number.empty() ? "full" : "wide";
  if (field) out += cell(beside_permit, "Visit", html(upper_first(visit_line(r.record->record))));
  if (!field) out += cell(beside_permit, "File", files(r));
  if (!site.permit.number.empty()) out += cell("", "Permit", name(site.permit.number));
  if (field) out += cell("full", "Files", files(r));
  out += cell("full remarks", "Remarks", remark_list(r));
  write(out + "</header>\n");
}

std::string page_margin_css(const ReportInput& r) {
  constexpr std::size_t room = 70;  // of a long name, what stands beside the page's number
  const std::string site = left(plain(r.design.design.site.name), room);
  const auto end = site.find_last_not_of(' ');
  return fmt::format(
      "@page {{ @bottom-left {{ content: {}; }} @bottom-right {{ content: \"Page \" counter(page) \" of \" "
      "counter(pages); }} }}\n",
      css_text(fmt::format("{}  |  {}", site.substr(0, end + 1), check_name(r))));
}

}  // namespace boxproof::report
