// The correction lists of many designs in one text: a list of all designs first, then a section for each that
// has anything to correct.
#include <fmt/format.h>

#include "boxproof/run_report.hpp"
#include "src/report/layout.hpp"
#include "src/report/markdown.hpp"
#include "src/report/markdown_text.hpp"
#include "src/report/phrases.hpp"
#include "src/report/run_words.hpp"
#include "src/rules/notes.hpp"

namespace boxproof {
namespace report {
namespace {

// Puts headings one level deeper. No text of a file starts a line with the sign of one (markdown_line()), and
// what is in fixed-width type is indented.
class Deeper {
 public:
  explicit Deeper(std::string& out) : out_(out) {}
  void write(std::string_view text) {
    for (const char c : text) {
      if (c == '#' && (out_.empty() || out_.back() == '\n')) out_ += '#';
      out_ += c;
    }
  }

 private:
  std::string& out_;
};

std::string path_words(std::string_view path) {
  return markdown_code(path);
}

std::string design_row(const RunDesign& design) {
  if (design.judged == nullptr)
    return fmt::format("- {}: **NOT JUDGED**, {}\n", path_words(design.path),
                       counted(design.unread->total(), "problem with the input", "problems with the input"));
  const ReportInput& r = *design.judged;
  const Judgement& j = r.judgement;
  std::string out = fmt::format("- {}: **{}**, {}", path_words(design.path), upper(name_of(j.verdict)),
                                markdown(counts_line(j)));
  if (is_changed(r)) out += "; judged with changed values";
  if (!j.agreed.empty())
    out +=
        fmt::format("; {} set aside by agreed exceptions", counted(j.agreed.size(), "finding", "findings"));
  return out + "\n";
}

std::string problems_of(const InputError& e) {
  std::string out;
  for (const Problem& p : e.problems()) out += "- " + markdown_line(to_text(p)) + "\n";
  if (e.total() > e.problems().size())
    out += fmt::format("- … and {} more\n", e.total() - e.problems().size());
  return out + "\n";
}

class RunMarkdown : public RunReport {
 public:
  RunPiece piece(const RunDesign& design) const override {
    RunPiece out;
    out.row = design_row(design);
    if (design.judged == nullptr) {
      out.text = fmt::format("## Not judged: {}\n\n", path_words(design.path)) + problems_of(*design.unread);
    } else if (has_section(*design.judged)) {
      const ReportInput& r = *design.judged;
      out.text = fmt::format("## Correction list: {}\n\nFile: {}\n\n",
                             markdown_line(r.design.design.site.name), path_words(design.path));
      Deeper deeper(out.text);
      write_corrections(r, [&deeper](std::string_view text) { deeper.write(text); });
    }
    return out;
  }

  void take(RunPiece piece, const Write&) override {
    rows_ += piece.row;
    sections_ += piece.text;
  }

  void finish(const RunTotals& totals, const Write& write) override {
    write(fmt::format("# Correction lists: {}\n\n", designs_words(totals)));
    write(fmt::format("- Designs: {}\n- Findings: {}\n", verdicts_words(totals), counts_words(totals)));
    for (const std::string& remark : totals.remarks) write("- " + markdown_line(remark) + "\n");
    write("\n## All designs\n\n" + rows_ + "\n");
    write(sections_);
    write(fmt::format("> **Caution.** {}\n", markdown(caution())));
  }

 private:
  std::string rows_, sections_;
};

}  // namespace
}  // namespace report

std::unique_ptr<RunReport> markdown_report() {
  return std::make_unique<report::RunMarkdown>();
}

}  // namespace boxproof
