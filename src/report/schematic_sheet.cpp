#include "src/report/schematic_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "boxproof/rule.hpp"
#include "src/report/html_text.hpp"
#include "src/report/phrases.hpp"
#include "src/report/svg_text.hpp"

namespace boxproof::report {
namespace {

constexpr int callout_height = 20, callout_gap = 5, callout_row = 25, narrowest = 26;

// Told apart by shape and by line: drawing.css fills the first, and makes the second heavy and the third
// dashed.
std::string shape_of(Severity severity, int x, int y, int w) {
  constexpr int h = callout_height;
  switch (severity) {
    case Severity::hazard:  // the eight corners of a stop sign
      return fmt::format("M{} {}h{}l6 6v{}l-6 6h-{}l-6-6v-{}z", x + 6, y, w - 12, h - 12, w - 12, h - 12);
    case Severity::correction: return fmt::format("M{} {}h{}v{}h-{}z", x, y, w, h, w);
    case Severity::query:
      return fmt::format("M{} {}h{}a10 10 0 0 1 0 20h-{}a10 10 0 0 1 0-20z", x + 10, y, w - 20, w - 20);
    case Severity::advice: return fmt::format("M{} {}l7-10h{}l7 10-7 10h-{}z", x, y + 10, w - 14, w - 14);
  }
  return {};
}

int height_of(const DrawnLine& line) {
  return line.kind == DrawnLine::Kind::heads ? 13 : 15;
}

// The upper left corners of the marks of a block, row by row, from `top` on, and its lower edge.
template <class Take>
int place_marks(const std::vector<const Mark*>& marks, int x, int top, int room, Take&& take) {
  if (marks.empty()) return top;
  constexpr int clear = 4;  // of the words above
  int at = x, y = top + clear;
  for (const Mark* mark : marks) {
    const int width = callout_width(mark->number);
    if (at > x && at + width > x + room) {
      at = x;
      y += callout_row;
    }
    take(*mark, at, y);
    at += width + callout_gap;
  }
  return y + callout_row;
}

bool is_row(const DrawnLine& line) {
  return line.kind == DrawnLine::Kind::heads || line.kind == DrawnLine::Kind::row;
}

constexpr int between_columns = 6;

double cell_size(const DrawnLine& row) {
  return row.kind == DrawnLine::Kind::heads ? sheet::head_size : sheet::detail_size;
}

std::string cell_text(const DrawnLine& row, std::size_t column) {
  return (row.odd[column] ? "≠" : "") + row.columns[column];
}

// As wide as the widest number of each, up to what leaves room for the others.
Sheet::Columns columns_of(const DrawnLines& lines) {
  constexpr int widest = 52;
  Sheet::Columns out{};
  for (const DrawnLine& line : lines)
    for (std::size_t i = 0; is_row(line) && i < out.size(); ++i) {
      if (line.columns[i].empty()) continue;
      const double width = svg_width(cell_text(line, i), cell_size(line), line.odd[i]);
      out[i] = std::clamp(static_cast<int>(std::ceil(width)), out[i], widest);
    }
  return out;
}

int room_at(int x) {
  return x == sheet::left ? sheet::left_room : sheet::right_room;
}

}  // namespace

int callout_width(std::size_t number) {
  constexpr int digit = 8, sides = 16;
  return std::max(narrowest, sides + digit * static_cast<int>(std::to_string(number).size()));
}

std::string callout_sign(Severity severity) {
  return fmt::format("<g class=\"call {}\"><path d=\"{}\"/></g>", name_of(severity),
                     shape_of(severity, 0, 0, narrowest));
}

std::string callout(const Mark& mark, int x, int y) {
  const int width = callout_width(mark.number);
  const std::string_view word = name_of(mark.finding->severity);
  const std::string name = fmt::format("finding {}: {}, {}", mark.number, word, mark.finding->rule->title);
  const std::string inside =
      fmt::format("<title>{}</title><path d=\"{}\"/><text x=\"{}\" y=\"{}\">{}</text>", html(name),
                  shape_of(mark.finding->severity, x, y, width), x + width / 2, y + 14, mark.number);
  if (mark.href.empty()) return fmt::format("<g class=\"call {}\" role=\"img\">{}</g>\n", word, inside);
  return fmt::format("<a class=\"call {}\" href=\"{}\">{}</a>\n", word, html(mark.href), inside);
}

int Sheet::bottom_of(const DrawnBlock& block, int top, int x) {
  for (const DrawnLine& line : block.lines) top += height_of(line);
  return place_marks(block.marks, x, top, room_at(x), [](const Mark&, int, int) {});
}

int Sheet::put(const DrawnBlock& block, int top, int x) {
  constexpr int below_baseline = 4;
  const Columns columns = columns_of(block.lines);
  for (const DrawnLine& line : block.lines) {
    top += height_of(line);
    if (is_row(line))
      put_row(line, columns, x, top - below_baseline, room_at(x));
    else
      put_line(line, x, top - below_baseline, room_at(x));
  }
  return place_marks(block.marks, x, top, room_at(x),
                     [&](const Mark& mark, int at, int y) { links_ += callout(mark, at, y); });
}

void Sheet::put_line(const DrawnLine& line, int x, int y, int room) {
  using Kind = DrawnLine::Kind;
  if (line.kind == Kind::title || line.kind == Kind::differs) {
    ink_ += svg_text(x, y, "", line.text, sheet::title_size, room, true);
    return;
  }
  ink_ += svg_text(x, y, "s", line.text, sheet::detail_size, room);
}

void Sheet::put_row(const DrawnLine& row, const Columns& columns, int x, int y, int room) {
  const bool heads = row.kind == DrawnLine::Kind::heads;
  int edge = room;  // right edge of the column
  for (std::size_t i = columns.size(); i-- > 0; edge -= columns[i] > 0 ? columns[i] + between_columns : 0)
    if (!row.columns[i].empty())
      ink_ += svg_text(x + edge, y, heads ? "h" : "s", cell_text(row, i), cell_size(row), columns[i],
                       row.odd[i], true);
  if (!row.text.empty())
    ink_ += svg_text(x, y, heads ? "h" : "n", row.text, sheet::head_size, std::max(0, edge));
}

void Sheet::path(std::string_view style, bool hit, std::string_view d) {
  ink_ += fmt::format("<path class=\"{}{}\" d=\"{}\"/>\n", style, hit ? " hit" : "", d);
}

void Sheet::text(int x, int y, std::string_view style, std::string_view text, double size, double room) {
  ink_ += svg_text(x, y, style, text, size, room);
}

}  // namespace boxproof::report
