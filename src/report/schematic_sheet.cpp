#include "src/report/schematic_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

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

constexpr std::string_view slash = " / ";

std::string number_in(const DrawnLine& row, std::size_t column) {
  return (row.odd[column] ? "≠" : "") + plain(row.columns[column]);
}

double numbers_width(const DrawnLine& row, double size) {
  double width = 0;
  for (std::size_t i = 0; i < row.columns.size(); ++i)
    if (!row.columns[i].empty())
      width += svg_width(number_in(row, i), size, row.odd[i]) + (width > 0 ? svg_width(slash, size) : 0);
  return width;
}

// Whether name and numbers of a row have room beside each other.
bool fits_beside(const DrawnLine& row, int room) {
  constexpr double clear = 3;
  return numbers_width(row, sheet::detail_size) + svg_width(row.text, sheet::head_size) + clear <= room;
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
  const std::string name = fmt::format("finding {}: {}, {}{}", mark.number, word, mark.finding->rule->title,
                                       mark.finding->known ? ", on the baseline" : "");
  const std::string inside =
      fmt::format("<title>{}</title><path d=\"{}\"/><text x=\"{}\" y=\"{}\">{}</text>", html(name),
                  shape_of(mark.finding->severity, x, y, width), x + width / 2, y + 14, mark.number);
  if (mark.href.empty()) return fmt::format("<g class=\"call {}\" role=\"img\">{}</g>\n", word, inside);
  return fmt::format("<a class=\"call {}\" href=\"{}\">{}</a>\n", word, html(mark.href), inside);
}

DrawnLines broken(DrawnLines lines, int x) {
  DrawnLines out;
  const int room = room_at(x);
  for (DrawnLine& line : lines) {
    if (line.kind == DrawnLine::Kind::row && !fits_beside(line, room))
      out.push_back({DrawnLine::Kind::detail, std::exchange(line.text, {})});
    if (line.kind == DrawnLine::Kind::row || line.kind == DrawnLine::Kind::heads) {
      out.push_back(std::move(line));
      continue;
    }
    const bool bold = line.kind != DrawnLine::Kind::detail;
    const double size = bold ? sheet::title_size : sheet::detail_size;
    const auto too_wide = [&](std::size_t end) {
      return svg_width(plain(line.text.substr(0, end)), size, bold) > room;
    };
    // A name of any length may stand in it: what is broken is our own words and short ids.
    constexpr std::size_t longest = 120;
    std::size_t at = std::string::npos;
    if (line.text.size() <= longest && too_wide(at)) {
      at = line.text.rfind(' ');
      while (at != std::string::npos && too_wide(at))
        at = at == 0 ? std::string::npos : line.text.rfind(' ', at - 1);
    }
    if (at != std::string::npos) {
      out.push_back({line.kind, line.text.substr(0, at)});
      line.text.erase(0, at + 1);
    }
    out.push_back(std::move(line));
  }
  return out;
}

int Sheet::bottom_of(const DrawnBlock& block, int top, int x) {
  for (const DrawnLine& line : block.lines) top += height_of(line);
  return place_marks(block.marks, x, top, room_at(x), [](const Mark&, int, int) {});
}

int Sheet::put(const DrawnBlock& block, int top, int x) {
  constexpr int below_baseline = 4;
  for (const DrawnLine& line : block.lines) {
    top += height_of(line);
    put_line(line, x, top - below_baseline, room_at(x));
  }
  return place_marks(block.marks, x, top, room_at(x),
                     [&](const Mark& mark, int at, int y) { links_ += callout(mark, at, y); });
}

void Sheet::put_line(const DrawnLine& line, int x, int y, int room) {
  if (line.kind == DrawnLine::Kind::heads || line.kind == DrawnLine::Kind::row)
    return put_row(line, x, y, room);
  const bool bold = line.kind != DrawnLine::Kind::detail;
  ink_ +=
      svg_text(x, y, bold ? "" : "s", line.text, bold ? sheet::title_size : sheet::detail_size, room, bold);
}

// The numbers stand at the right edge, "16 / 16 / ≠17".
void Sheet::put_row(const DrawnLine& row, int x, int y, int room) {
  const bool heads = row.kind == DrawnLine::Kind::heads;
  const double wanted = heads ? sheet::head_size : sheet::detail_size;
  const bool small = heads || numbers_width(row, wanted) > room;
  const double size = small ? sheet::head_size : wanted;
  // Longer numbers than fit are a mistake of the file; each keeps its share.
  const bool fits = numbers_width(row, size) <= room;
  const double share = room / static_cast<double>(row.columns.size()) - svg_width(slash, size);
  std::string numbers;
  for (std::size_t i = 0; i < row.columns.size(); ++i) {
    if (row.columns[i].empty()) continue;
    const std::string number = number_in(row, i);
    const std::string cut = html(fits ? number : svg_fit(number, size, share, row.odd[i]));
    if (!numbers.empty()) numbers += slash;
    numbers += row.odd[i] ? fmt::format("<tspan class=\"b\">{}</tspan>", cut) : cut;
  }
  ink_ += fmt::format("<text x=\"{}\" y=\"{}\" class=\"{} e\">{}</text>\n", x + room, y,
                      heads   ? "h"
                      : small ? "n"
                              : "s",
                      numbers);
  if (!row.text.empty()) ink_ += svg_text(x, y, "n", row.text, sheet::head_size, room);
}

void Sheet::path(std::string_view style, bool hit, std::string_view d) {
  ink_ += fmt::format("<path class=\"{}{}\" d=\"{}\"/>\n", style, hit ? " hit" : "", d);
}

void Sheet::text(int x, int y, std::string_view style, std::string_view text, double size, double room) {
  ink_ += svg_text(x, y, style, text, size, room);
}

}  // namespace boxproof::report
