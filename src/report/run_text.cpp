// The report of many designs for people, read at the end of a long log: the designs that have findings, one
// by one, then a table of all of them.
#include <fmt/format.h>

#include "boxproof/run_report.hpp"
#include "src/report/agreed.hpp"
#include "src/report/entry.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "src/report/run_words.hpp"
#include "src/report/text.hpp"

namespace boxproof {
namespace report {
namespace {

constexpr std::size_t verdict_width = 11, count_width = 6;
constexpr std::size_t path_column = 2 + verdict_width + severity_names.size() * (1 + count_width) + 2;

std::string counts_row(const std::array<std::string, severity_names.size()>& cells) {
  std::string out;
  for (const std::string& cell : cells) out += " " + right(cell, count_width);
  return out;
}

// Behind the piece of a path that starts at `at`: its next stroke, or as much as a line holds.
std::size_t behind_piece(std::string_view path, std::size_t at, std::size_t room) {
  for (std::size_t columns = 0; at < path.size(); ++columns) {
    if (columns == room) return at;
    if (path[at++] == '/') return at;
    while (at < path.size() && width_of(path.substr(at, 1)) == 0) ++at;  // the same character
  }
  return at;
}

// A path on lines of its own, divided behind its strokes: one that is cut short names nothing.
std::string path_lines(std::string_view path, std::size_t indent) {
  const std::size_t room = page_width - indent;
  const std::string blanks(indent, ' ');
  std::string out, line;
  for (std::size_t at = 0; at < path.size();) {
    const std::size_t end = behind_piece(path, at, room);
    const std::string_view piece = path.substr(at, end - at);
    if (!line.empty() && width_of(line) + width_of(piece) > room) {
      out += blanks + line + "\n";
      line.clear();
    }
    line += piece;
    at = end;
  }
  return out + blanks + line + "\n";
}

std::string with_path(const std::string& row, std::string_view path) {
  const std::string shown = plain(path);
  const bool fits = path_column + width_of(shown) <= page_width;
  return fits ? row + "  " + shown + "\n" : row + "\n" + path_lines(shown, 4);
}

// What the verdict of a row does not say: it was judged with changed values, or findings are set aside.
std::string marks_of(const RunDesign& design) {
  std::string out;
  if (is_changed(*design.judged)) out += "*";
  if (!design.judged->judgement.agreed.empty()) out += "†";
  return out.empty() ? out : " " + out;
}

std::string design_row(const RunDesign& design, bool colour) {
  std::array<std::string, severity_names.size()> cells;
  if (design.judged == nullptr) {
    cells.fill("–");
    return with_path("  " + inked(left("not judged", verdict_width), Ink::hazard, colour) + counts_row(cells),
                     design.path);
  }
  const Judgement& j = design.judged->judgement;
  for (std::size_t i = 0; i < cells.size(); ++i) cells[i] = fmt::format("{}", j.counts[i]);
  const std::string verdict = left(std::string(name_of(j.verdict)) + marks_of(design), verdict_width);
  return with_path("  " + inked(verdict, ink_of(j.verdict), colour) + counts_row(cells), design.path);
}

// A log of a workflow takes a line that begins with two colons for a command, and a path or the name of a
// site may begin so.
std::string for_log(std::string_view text) {
  std::string out;
  bool at_start = true;  // of a line, but for blanks
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (at_start && text.substr(at, 2) == "::")
      out += "\\u{3A}";
    else
      out += text[at];
    at_start = text[at] == '\n' || (at_start && text[at] == ' ');
  }
  return out;
}

class RunText : public RunReport {
 public:
  explicit RunText(bool colour) : colour_(colour) {}

  RunPiece piece(const RunDesign& design) const override {
    RunPiece out;
    out.row = for_log(design_row(design, colour_));
    if (design.judged == nullptr || !has_section(*design.judged)) return out;
    ReportInput r = *design.judged;
    r.colour = colour_;
    const Write write = [&out](std::string_view text) { out.text += text; };
    write(std::string(page_width, '=') + "\n");
    write_path(design, r, write);
    write_site(r, write);
    write("\n");
    write_verdict(r, write);
    write("\n");
    write_entries(r, r.judgement.findings, write);
    if (!r.judgement.agreed.empty()) write_agreed(r, write);
    out.text = for_log(out.text);
    return out;
  }

  void take(RunPiece piece, const Write&) override {
    const std::string_view verdict = std::string_view(piece.row).substr(0, path_column);
    changed_ = changed_ || verdict.find("*") != std::string_view::npos;
    agreed_ = agreed_ || verdict.find("†") != std::string_view::npos;
    sections_ += piece.text;
    rows_ += piece.row;
  }

  void finish(const RunTotals& totals, const Write& write) override {
    write(fmt::format("boxproof {}{}\n\n", version(),
                      right(designs_words(totals), page_width - 9 - width_of(version()))));
    write(sections_);
    write(std::string(page_width, '=') + "\n");
    write_table(totals, write);
    write("\n");
    write(wrap("Designs: " + verdicts_words(totals), 9, ""));
    write(wrap("Findings: " + counts_words(totals), 10, ""));
    for (const std::string& remark : totals.remarks) write(wrap(plain(remark), 2, ""));
    write("\n");
    write(wrap(caution(), 0));
  }

 private:
  void write_path(const RunDesign& design, const ReportInput& r, const Write& write) const {
    const std::string path = plain(design.path), what = check_name(r);
    const bool fits = width_of(path) + 2 + width_of(what) <= page_width;
    std::string lines = fits ? path : path_lines(path, 0);
    if (!fits) lines.pop_back();  // the line end stays outside the colour
    write(inked(lines, Ink::strong, colour_) + (fits ? "" : "\n") +
          right(what, page_width - (fits ? width_of(path) : 0)) + "\n");
  }

  void write_table(const RunTotals& totals, const Write& write) const {
    write("DESIGNS\n  " + left("verdict", verdict_width) +
          counts_row({"hazard", "corr.", "query", "advice"}) + "  design\n");
    write(rows_);
    std::array<std::string, severity_names.size()> sums;
    for (std::size_t i = 0; i < sums.size(); ++i) sums[i] = fmt::format("{}", totals.counts[i]);
    write("  " + left("in all", verdict_width) + counts_row(sums) + "\n");
    if (totals.unread > 0) write(wrap("not judged: what is wrong stands on standard error", 2, "  "));
    if (changed_)
      write(
          wrap("* judged with values that the command line, settings or local amendments changed", 4, "  "));
    if (agreed_) write(wrap("† with findings that agreed exceptions set aside", 4, "  "));
  }

  bool colour_, changed_ = false, agreed_ = false;
  std::string sections_, rows_;
};

}  // namespace
}  // namespace report

std::unique_ptr<RunReport> text_report(bool colour) {
  return std::make_unique<report::RunText>(colour);
}

}  // namespace boxproof
