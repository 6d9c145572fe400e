// A table with a bar in each cell, and the verdict before them, with what no bar tells. The bar runs to 110 %
// of the limit and no farther, so that one box that is far over does not squeeze the others together; the
// number beside it says how far.
#include "src/report/margin_chart.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/report/html_parts.hpp"
#include "src/report/html_text.hpp"
#include "src/report/layout.hpp"
#include "src/report/margin_rows.hpp"
#include "src/report/phrases.hpp"
#include "src/rules/notes.hpp"
#include "src/text/id_runs.hpp"

namespace boxproof::report {
namespace {

constexpr std::size_t most_rows = 40;
constexpr std::int32_t axis_tenths = 1100;

struct BoxRow {
  const BoxShares* first = nullptr;
  std::size_t boxes = 0;
};

std::vector<BoxRow> rows_of(const std::vector<BoxShares>& boxes) {
  std::vector<BoxRow> out;
  for (const BoxShares& box : boxes) {
    if (out.empty() || !out.back().first->reads_as(box)) out.push_back({&box, 0});
    ++out.back().boxes;
  }
  return out;
}

// In tenths of a percent across: 0 to 110 and a point beyond for what is farther.
std::string bar(const UsedShare& s) {
  const std::int32_t end = std::min(s.tenths, axis_tenths);
  std::string out = "<svg viewBox=\"0 0 1120 14\" preserveAspectRatio=\"none\" aria-hidden=\"true\">";
  if (s.tenths < 0 || (s.incomplete && s.tenths < limit_tenths))
    out += fmt::format("<path class=\"unk\" d=\"M{} 4H1000V10H{}\"/>", std::max(0, s.tenths),
                       std::max(0, s.tenths));
  if (s.tenths >= 0 && !s.over) out += fmt::format("<path class=\"used\" d=\"M0 4H{}V10H0z\"/>", end);
  if (s.over && s.tenths <= axis_tenths)
    out += fmt::format("<path class=\"over\" d=\"M0 2H{}V12H0z\"/>", end);
  if (s.over && s.tenths > axis_tenths) out += "<path class=\"over\" d=\"M0 2H1070L1120 7 1070 12H0z\"/>";
  out += "<path class=\"limit\" d=\"M1000 0V14\"/>";
  if (s.over) out += "<path class=\"limit within\" d=\"M1000 2V12\"/>";
  return out + "</svg>";
}

std::string cell(LimitKind kind, const UsedShare& s) {
  std::string words = s.words();
  if (s.over)
    words = fmt::format("<b>{}, over{}</b>", words, s.tenths > axis_tenths ? " (off the scale)" : "");
  if (s.incomplete && s.tenths >= 0) words += " ?";
  return fmt::format("<td role=\"cell\"><span class=\"kind\">{}</span>{}<span>{}{}</span></td>",
                     limit_kind_names[static_cast<std::size_t>(kind)], bar(s), words,
                     s.limit.empty() ? "" : fmt::format(" <i>{}</i>", s.limit));
}

// A hostile id of any length, and a row of any number of boxes, take no more than a few lines.
std::string row_words(const Design& design, const BoxRow& row) {
  constexpr std::size_t most_ids = 2000, most_runs = 6, longest_id = 40;
  std::vector<std::string_view> ids;
  for (std::size_t i = 0; i < std::min(row.boxes, most_ids); ++i)
    ids.push_back(design.combiners[row.first[i].box].id);
  const auto cut = [](std::string_view id) {
    const std::string whole = plain(id);
    return width_of(whole) > longest_id ? left(whole, longest_id) : whole;
  };
  std::string out;
  std::size_t told = 0, runs = 0;
  for (const text::IdRun& run : text::id_runs(ids)) {
    if (++runs > most_runs) break;
    out += (out.empty() ? "" : ", ") + run_name(cut(ids[run.first]), cut(ids[run.last]), run.size());
    told += run.size();
  }
  out = fmt::format("<a href=\"#box-{}\">{}</a>", row.first->box, out);
  if (told < row.boxes) out += fmt::format(" and {} more", row.boxes - told);
  return row.boxes > 1 ? fmt::format("{} <i>{} boxes</i>", out, row.boxes) : out;
}

// The verdict, and by their numbers the findings that no bar tells.
std::string verdict_cell(const PageIndex& page, const BoxShares& box) {
  constexpr std::size_t most_told = 3, longest = 80;
  std::string out = tag(box.verdict), last;
  for (std::size_t i = 0; i < std::min(most_told, box.besides.size()); ++i) {
    const std::size_t n = box.besides[i];
    const std::string words = plain(in_short(page.groups[n - 1].first()));
    const std::string said = html(width_of(words) > longest ? left(words, longest) : words);
    out += fmt::format(" <a href=\"#finding-{}\">{}{}</a>", n, number(n), said == last ? "" : " " + said);
    last = said;
  }
  if (box.besides.size() > most_told)
    out += fmt::format(" <i>and {}</i>",
                       counted(box.besides.size() - most_told, "finding more", "findings more"));
  return fmt::format(
      "<td role=\"cell\" class=\"judged\"><span class=\"kind\">verdict</span><span>{}</span></td>", out);
}

// "2 stop, 31 accept"
std::string verdicts_of(const std::vector<BoxRow>& rows) {
  std::array<std::size_t, verdict_names.size()> boxes{};
  for (std::size_t i = most_rows; i < rows.size(); ++i)
    boxes[static_cast<std::size_t>(rows[i].first->verdict)] += rows[i].boxes;
  std::string out;
  for (std::size_t v = boxes.size(); v-- > 0;)
    if (boxes[v] > 0)
      out += fmt::format("{}{} {}", out.empty() ? "" : ", ", boxes[v], name_of(static_cast<Verdict>(v)));
  return out;
}

// What the rows that are not shown hold.
std::string rest_words(const std::vector<BoxRow>& rows) {
  std::size_t boxes = 0, over = 0, open = 0;
  std::int32_t most = -1;
  for (std::size_t i = most_rows; i < rows.size(); ++i) {
    const UsedShares& shares = rows[i].first->shares;
    const auto any = [&](bool UsedShare::*is) {
      return std::any_of(shares.begin(), shares.end(), [&](const UsedShare& s) { return s.*is; });
    };
    boxes += rows[i].boxes;
    if (any(&UsedShare::incomplete)) open += rows[i].boxes;
    if (any(&UsedShare::over)) over += rows[i].boxes;
    most = std::max(most, most_used(shares));
  }
  std::string out = fmt::format("and {}: {}", counted(boxes, "box more", "boxes more"), verdicts_of(rows));
  if (over > 0) out += fmt::format("; {} of them over a limit", over);
  UsedShare nearest;
  nearest.tenths = limit_tenths - most;
  if (over == 0 && most >= 0) out += "; none nearer to a limit than " + nearest.words();
  if (open > 0) out += fmt::format("; of {} a value or a limit is not stated", open);
  return out + ".";
}

}  // namespace

void write_margin_chart(const PageIndex& page, const Write& write) {
  const std::vector<BoxShares> boxes = box_shares(page);
  if (boxes.empty()) return;
  const std::vector<BoxRow> rows = rows_of(boxes);
  write(fmt::format(
      "<figure class=\"margins\">\n<table role=\"table\">\n<caption>What each box{} uses of its limits, the nearest "
      "limit of each kind; the worst verdict first, then the thinnest margin. A bar runs up to 110 %, and the line "
      "across it is the limit, 100 %. What is over a limit is a taller, filled bar and says so. “?”, dashed: a value or "
      "a limit is not stated. No bar shows a fuse against what the module allows, the inputs that the box has, whether "
      "fuses and a switch are there, distances, labels or what was seen: findings on these stand beside the "
      "verdict.</caption>\n<thead role=\"rowgroup\"><tr role=\"row\"><th role=\"columnheader\" "
      "scope=\"col\">boxes</th>",
      page.r.record != nullptr ? ", as found where it was visited," : ""));
  constexpr std::string_view heads[] = {"verdict, and what no bar shows", "voltage",
                                        "current: box, switch, fuse", "ampacity: conductors"};
  for (const std::string_view head : heads)
    write(fmt::format("<th role=\"columnheader\" scope=\"col\">{}</th>", head));
  write("</tr></thead>\n<tbody role=\"rowgroup\">\n");
  for (std::size_t i = 0; i < std::min(most_rows, rows.size()); ++i) {
    const UsedShares& shares = rows[i].first->shares;
    write(fmt::format(
        "<tr role=\"row\"><th role=\"rowheader\" scope=\"row\" class=\"isolate\">{}</th>{}{}{}{}</tr>\n",
        row_words(page.r.design.design, rows[i]), verdict_cell(page, *rows[i].first),
        cell(LimitKind::voltage, shares[0]), cell(LimitKind::current, shares[1]),
        cell(LimitKind::ampacity, shares[2])));
  }
  write("</tbody>\n</table>\n");
  if (rows.size() > most_rows) write(fmt::format("<figcaption>{}</figcaption>\n", rest_words(rows)));
  write("</figure>\n");
}

}  // namespace boxproof::report
