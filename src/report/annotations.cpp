// Workflow commands, a line a finding: a code host shows them beside the lines of the files.
//
// A host shows few of them, so the worst of all designs stand first. Whatever comes out of a file stands
// behind the head of a command on its line, and cannot begin one of its own.
#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "boxproof/rule.hpp"
#include "boxproof/run_report.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "src/rules/notes.hpp"

namespace boxproof {
namespace report {
namespace {

// Per step, of errors, warnings and notices each; GitHub's, from memory, unverified.
constexpr std::size_t shown_of_each = 10;

std::string_view level_of(Severity severity) {
  switch (severity) {
    case Severity::hazard:
    case Severity::correction: return "error";
    case Severity::query: return "warning";
    case Severity::advice: return "notice";
  }
  return "error";
}

// Text of a command: what ends a line is gone after plain(), a percent sign starts an escape, and in a
// property a colon or a comma ends it. Some logs take ##[ or ##vso[ for a command wherever it stands in a
// line (from memory, unverified), so no two # stay together.
std::string escaped(std::string_view text, std::string_view special) {
  std::string out;
  for (const char c : plain(text)) {
    if (c == '#' && out.ends_with('#'))
      out += "\\u{23}";
    else if (special.find(c) != std::string_view::npos)
      out += fmt::format("%{:02X}", static_cast<unsigned>(c));
    else
      out += c;
  }
  return out;
}
std::string in_message(std::string_view text) {
  return escaped(text, "%");
}
std::string in_property(std::string_view text) {
  return escaped(text, "%:,");
}

// "file=…,line=…,col=…,endLine=…,endColumn=…"; columns only where the end is on the same line.
std::string place_properties(const FilePlace& p) {
  std::string out = "file=" + in_property(p.file);
  if (p.line == 0) return out;
  out += fmt::format(",line={}", p.line);
  if (p.end_line == 0) return out + fmt::format(",col={}", p.column);
  if (p.line == p.end_line)
    return out + fmt::format(",col={},endLine={},endColumn={}", p.column, p.end_line, p.end_column);
  return out + fmt::format(",endLine={}", p.end_line);
}

std::string command(const Finding& f, const ReportInput& r) {
  return fmt::format(
      "::{} {},title={}::{}%0Ado: {}\n", level_of(f.severity), place_properties(f.place),
      in_property(fmt::format("{}: {}", name_of(f.severity), title_of(f, r))),
      in_message(fmt::format("{} [{}{}{}]", f.message, f.rule->id, f.section.empty() ? "" : "; ", f.section)),
      in_message(to_do(f)));
}

std::string command(std::string_view design, const FilePlace& place, std::string_view message) {
  return fmt::format("::error {},title={}::{}\n", place_properties(place),
                     in_property(fmt::format("not judged: {}", design)), in_message(message));
}

// An error for each problem.
std::vector<std::string> commands(std::string_view design, const InputError& e) {
  std::vector<std::string> out;
  for (const Problem& p : e.problems())
    out.push_back(command(design, {p.file, p.pointer, p.line, p.column},
                          p.pointer.empty() ? p.message : p.pointer + ": " + p.message));
  if (e.total() > e.problems().size())
    out.push_back(command(design, {.file = std::string(design), .pointer = {}},
                          fmt::format("and {} more problems", e.total() - e.problems().size())));
  return out;
}

}  // namespace
}  // namespace report

namespace {

class Annotations : public RunReport {
 public:
  RunPiece piece(const RunDesign& design) const override {
    RunPiece out;
    if (design.judged == nullptr) {
      // The first problem says that nothing of the design was judged; the others may not crowd out the
      // hazards of other designs.
      std::vector<std::string> lines = report::commands(design.path, *design.unread);
      out.text = std::move(lines.front());
      lines.erase(lines.begin());
      out.findings[static_cast<std::size_t>(Severity::correction)] = std::move(lines);
      out.numbers = {0, design.unread->total(), 0};
      return out;
    }
    const Judgement& j = design.judged->judgement;
    for (const Finding& f : j.findings)
      if (!f.known)
        out.findings[static_cast<std::size_t>(f.severity)].push_back(report::command(f, *design.judged));
    out.numbers = {j.agreed.size(), 0, j.baseline ? j.baseline->stale.size() : 0};
    return out;
  }

  void take(RunPiece piece, const Write&) override {
    if (!piece.text.empty()) unread_.push_back(std::move(piece.text));
    for (std::size_t i = 0; i < lines_.size(); ++i)
      std::move(piece.findings[i].begin(), piece.findings[i].end(), std::back_inserter(lines_[i]));
    agreed_ += piece.numbers[0];
    problems_ += piece.numbers[1];
    stale_ += piece.numbers[2];
  }

  void finish(const RunTotals& totals, const Write& write) override {
    for (const std::string& line : unread_) write(line);
    for (const auto& lines : lines_)
      for (const std::string& line : lines) write(line);
    for (const std::string& line : closing(totals)) write(report::wrap(line, 0));
  }

 private:
  // Plain lines, which no host takes for commands.
  std::vector<std::string> closing(const RunTotals& totals) const {
    std::string found;
    std::size_t known = 0;
    for (std::size_t i = 0; i < totals.counts.size(); ++i) {
      const std::size_t n = totals.counts[i] - totals.known[i];
      known += totals.known[i];
      found += fmt::format("{}{} {}", i > 0 ? ", " : "", n, report::word_of(static_cast<Severity>(i), n));
    }
    std::vector<std::string> out;
    out.push_back(fmt::format("boxproof {}: {} judged: {}.", version(),
                              counted(totals.designs, "design", "designs"), found));
    if (totals.unread > 0)
      out.push_back(fmt::format("{} could not be judged: {} with the input.",
                                counted(totals.unread, "design", "designs"),
                                counted(problems_, "problem", "problems")));
    if (totals.skipped > 0)
      out.push_back(fmt::format("{} passed over.", counted(totals.skipped, "JSON file that is no design was",
                                                           "JSON files that are no designs were")));
    if (known + agreed_ > 0)
      out.push_back(fmt::format("Without a line: {} on the baseline, {} under an agreed exception.",
                                counted(known, "finding", "findings"),
                                counted(agreed_, "finding", "findings")));
    if (stale_ > 0)
      out.push_back(fmt::format("{}; --format text names them.",
                                counted(stale_, "entry of the baseline no longer occurs",
                                        "entries of the baseline no longer occur")));
    const std::size_t errors = unread_.size() + lines_[0].size() + lines_[1].size();
    if (std::max({errors, lines_[2].size(), lines_[3].size()}) > report::shown_of_each)
      out.push_back(
          fmt::format("Here are {}, {} and {}, the worst first; a host may show the first {} of "
                      "each and say nothing of the others (from memory, unverified).",
                      counted(errors, "error", "errors"), counted(lines_[2].size(), "warning", "warnings"),
                      counted(lines_[3].size(), "notice", "notices"), report::shown_of_each));
    out.emplace_back(caution());
    return out;
  }

  std::vector<std::string> unread_;  // the first problem of each design
  std::array<std::vector<std::string>, severity_names.size()> lines_;
  std::size_t agreed_ = 0, problems_ = 0, stale_ = 0;
};

}  // namespace

std::unique_ptr<RunReport> annotations_report() {
  return std::make_unique<Annotations>();
}

}  // namespace boxproof
