// The table of boxes: a row a box, its nearest limit and its verdict.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "boxproof/rule.hpp"
#include "src/report/html_parts.hpp"
#include "src/report/html_text.hpp"
#include "src/report/layout.hpp"

namespace boxproof::report {
namespace {

// Which of the columns that not every plan fills are there.
struct Columns {
  bool sheet = false, type = false, location = false;
};

Columns columns_of(const ReportInput& r) {
  Columns out;
  for (const BoxResult& b : r.judgement.boxes) {
    const Combiner& box = r.design.design.combiners[b.index];
    out.sheet = out.sheet || !box.sheet.empty();
    out.type = out.type || box.type != nullptr;
    out.location = out.location || !box.location.empty();
  }
  return out;
}

std::string head(const Columns& columns) {
  std::string out = "<thead>\n<tr>";
  const auto column = [&](std::string_view text, std::string_view kind = "") {
    out += fmt::format("<th scope=\"col\"{}>{}</th>", kind, text);
  };
  constexpr std::string_view number = " class=\"num\"";
  column("Box");
  column("Verdict");
  column("Findings", number);
  if (columns.sheet) column("Sheet");
  if (columns.type) column("Type");
  if (columns.location) column("Location", " class=\"long\"");
  column("Strings", number);
  column("Modules", number);
  column("Max V", number);
  column("Out A", number);
  column("Margin", number);
  column("Nearest limit");
  return out + "</tr>\n</thead>\n";
}

// The rules that have something to say of the box, for the filter.
std::string rules_of(std::span<const Finding> findings) {
  std::set<std::string_view> ids;
  for (const Finding& f : findings) ids.insert(f.rule->id);
  std::string out;
  for (std::string_view id : ids) (out += out.empty() ? "" : " ") += id;
  return out;
}

std::string row(const PageIndex& page, const BoxResult& b, const BoxFacts& f, const Columns& columns) {
  const Combiner& box = *f.box;
  const auto findings = page.findings_of(b.index);
  const auto margin = tightest_margin(page.r.design.design, f, page.r.edition);
  std::string out = fmt::format(
      "<tr data-box=\"{0}\" data-verdict=\"{1}\" data-rules=\"{2}\"><th scope=\"row\"><a "
      "href=\"#box-{3}\">{4}</a></th>",
      html(box.id), verdict_names[static_cast<std::size_t>(b.verdict)], rules_of(findings), b.index,
      name(box.id));
  const auto text = [&](const std::string& content) { out += fmt::format("<td>{}</td>", content); };
  const auto number = [&](const std::string& content) {
    out += fmt::format("<td class=\"num\">{}</td>", content);
  };
  text(tag(b.verdict));
  number(fmt::format("{}", findings.size()));
  if (columns.sheet) text(name(box.sheet));
  if (columns.type) text(box.type != nullptr ? name(box.type->id) : std::string());
  if (columns.location) text(name(box.location));
  number(fmt::format("{}", f.strings));
  number(fmt::format("{:.0f}", f.modules));
  number(f.max_voltage && f.every_voltage_known ? fmt::format("{:.1f}", f.max_voltage->value()) : "?");
  number(fmt::format("{:.1f}", f.output_max.value()));
  number(margin ? percent(margin->share()) : "?");
  text(margin ? std::string(margin->brief) : std::string());
  return out + "</tr>\n";
}

}  // namespace

void write_box_table(const PageIndex& page, const Write& write) {
  const ReportInput& r = page.r;
  const Columns columns = columns_of(r);
  write(fmt::format(
      "<section id=\"list\">\n<h2>Boxes</h2>\n<p>{}A margin is what is left of the limit that the box comes "
      "nearest to.</p>\n<div class=\"scroll\" role=\"region\" aria-label=\"Table of boxes\" tabindex=\"0\">\n<table "
      "id=\"boxes\">\n<caption class=\"unseen\">Boxes, their verdicts and nearest limits</caption>\n{}<tbody>\n",
      r.record != nullptr ? "As built where visited. " : "", head(columns)));
  BoxFacts facts;
  FoundBox own;
  for (const BoxResult& b : r.judgement.boxes) {
    facts_of(r.design, r.edition, r.record, b, own, facts);
    write(row(page, b, facts, columns));
  }
  write("</tbody>\n</table>\n</div>\n</section>\n");
}

}  // namespace boxproof::report
