// The correction list: what is wrong and what to submit, for a letter or an issue.
//
// A paragraph is one line of the file, however long, and each item has the number that it has in the report
// as text: a list that a heading broke off goes on with its own number.
#include <fmt/format.h>

#include <cctype>
#include <optional>

#include "boxproof/report.hpp"
#include "boxproof/rule.hpp"
#include "src/report/agreed.hpp"
#include "src/report/dispositions.hpp"
#include "src/report/evidence.hpp"
#include "src/report/groups.hpp"
#include "src/report/known.hpp"
#include "src/report/layout.hpp"
#include "src/report/markdown.hpp"
#include "src/report/markdown_question.hpp"
#include "src/report/markdown_text.hpp"
#include "src/report/phrases.hpp"
#include "src/rules/notes.hpp"

namespace boxproof {
namespace report {
namespace {

void write_letter_head(const ReportInput& r, const Write& write) {
  const Judgement& j = r.judgement;
  std::string check = check_name(r);
  check[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(check[0])));
  write(fmt::format("{}, by boxproof {}. The numbers are those of the full report.\n\n", markdown_line(check),
                    version()));
  const auto bullet = [&](std::string_view text) { write("- " + markdown_line(text) + "\n"); };
  bullet("Site: " + site_line(r));
  bullet("Totals: " + totals_line(r));
  if (r.record != nullptr) bullet("Visit: " + visit_line(r.record->record));
  for (const std::string& remark : remarks(r)) bullet(remark);
  write(fmt::format("\n**Verdict: {}**, {}.\n\n", upper(name_of(j.verdict)), verdict_sentence(j.verdict)));
  bullet("Boxes: " + verdicts_line(j));
  bullet("Findings: " + counts_line(j));
  if (j.exceptions_day) bullet(exceptions_summary(j));
  write("\n");
}

// "## Hazards: stop, unsafe as it stands"
std::string heading(std::string_view said) {
  std::string text(said);
  for (std::size_t i = 1; i < text.size() && text[i] != ':'; ++i)
    if (text[i] >= 'A' && text[i] <= 'Z') text[i] = static_cast<char>(text[i] - 'A' + 'a');
  return fmt::format("## {}\n\n", markdown(text));
}

std::string boxes_words(const Group& g) {
  if (g.first().box_id.empty()) return "the site";
  const std::string boxes = markdown_line(boxes_of(g));
  return box_count(g) == 1 ? boxes : fmt::format("{} ({} boxes)", boxes, box_count(g));
}

// Lines below an item, each behind its label.
class Details {
 public:
  explicit Details(std::size_t indent) : blanks_(indent, ' ') {}
  void add(std::string_view label, const std::string& text) {
    if (!text.empty()) out_ += fmt::format("{}- *{}:* {}\n", blanks_, label, text);
  }
  void working(const Finding& f) {
    if (f.working.empty()) return;
    out_ += fmt::format("\n{}*Working for {}:*\n\n{}", blanks_,
                        f.box_id.empty() ? std::string("the site") : markdown_line(f.box_id),
                        markdown_block(working_lines(f.working), blanks_.size()));
  }
  const std::string& text() const { return out_; }

 private:
  static std::string working_lines(const Working& working) {
    std::string lines;
    for (const Step& s : working) {
      const std::string value = fmt::format("{}{}{}", exact(s.value), s.unit.empty() ? "" : " ", s.unit);
      const std::string section = s.section.empty() ? "" : fmt::format("   [{}]", s.section);
      lines += s.numbers == s.formula ? plain(fmt::format("{} = {}   from {}", s.symbol, value, s.formula))
                                      : plain(fmt::format("{} = {}", s.symbol, s.formula)) + "\n" +
                                            plain(fmt::format("  = {} = {}{}", s.numbers, value, section));
      lines += "\n";
    }
    return lines;
  }
  std::string blanks_, out_;
};

// What is wrong: the message; of many alike what was found in all, and the first as an example.
std::string wrong_words(const Group& g) {
  const std::string message = markdown_line(g.first().message);
  if (g.findings.size() == 1) return message;
  const std::string range = range_of(g, &Finding::found);
  return (range.empty() ? "" : fmt::format("found {}. ", markdown_line(range))) + "For example: " + message;
}

std::string place_in_letter(const Group& g) {
  const FilePlace& place = g.first().place;
  return fmt::format("{}{}", markdown_code(fmt::format("{}:{}:{}", place.file, place.line, place.column)),
                     g.findings.size() > 1 ? fmt::format(" (the first of {})", g.findings.size()) : "");
}

std::string item(const Group& g, std::size_t number, const ReportInput& r,
                 const std::optional<KeyWords>* words) {
  const Finding& f = g.first();
  const std::string lead = fmt::format("{}. ", number);
  Details details(lead.size());
  std::string first = fmt::format("**{}** ({})", markdown(title_of(f, r)), markdown_name(f.rule->id));
  const bool asks = f.severity == Severity::query;
  Question question;
  if (asks) {
    question = question_of(g, *words[asks_record(f) ? 1 : 0]);
    first = fmt::format("**{}** {} ({})", question.ask, markdown(title_of(f, r)), markdown_name(f.rule->id));
  }
  const std::string parts = f.lacking ? std::string() : markdown_line(parts_of(g));
  details.add(box_count(g) == 1 || f.box_id.empty() ? "Of" : "Boxes",
              boxes_words(g) + (parts.empty() ? "" : "; part: " + parts));
  if (asks)
    details.add(question.tells ? "Found" : "Why",
                question.tells ? markdown_line(range_of(g, &Finding::found)) : question.because);
  else
    details.add(f.severity == Severity::advice ? "Seen" : "Wrong", wrong_words(g));
  if (!f.lacking) details.add("Required", markdown_line(range_of(g, &Finding::required)));
  details.add("Section", markdown_line(f.section));
  details.add(asks ? "Answer" : "Do", markdown_line(to_do(f)));
  if (f.severity != Severity::advice)
    details.add(is_on_site(f, r) ? "Show" : "Submit", markdown_line(evidence(g, r)));
  details.add("Place", place_in_letter(g));
  if (r.show_work) details.working(f);
  return lead + first + "\n" + details.text() + "\n";
}

void list_entries(std::string_view lead, const std::vector<BaselineEntry>& entries, const Write& write) {
  if (entries.empty()) return;
  write(fmt::format("{}:\n\n", lead));
  for (const std::string& line : entry_lines(entries)) write(fmt::format("- {}\n", markdown_line(line)));
  write("\n");
}

// What is on the baseline, with the numbers that it has in the report.
void list_known(const ReportInput& r, std::size_t number, const Write& write) {
  const Judgement& j = r.judgement;
  const std::vector<Group> groups = known_groups(j.findings);
  if (!j.baseline || (groups.empty() && j.baseline->stale.empty() && j.baseline->graver.empty())) return;
  write(fmt::format("## {}\n\n", markdown_line(baseline_heading(j))));
  for (const Group& g : groups) {
    write(fmt::format("{}. {} ({}), a {}: {}\n", ++number, markdown(title_of(g.first(), r)),
                      markdown_name(g.first().rule->id), name_of(g.first().severity),
                      markdown_line(known_where(g))));
  }
  if (!groups.empty()) write("\n");
  list_entries(graver_words, j.baseline->graver, write);
  list_entries(stale_words, j.baseline->stale, write);
}

void list_findings(const ReportInput& r, const Write& write) {
  if (r.judgement.findings.empty()) write("## Findings: none\n\nThere is nothing to correct.\n\n");
  std::optional<KeyWords> words[2];  // of the design, of the field record
  std::size_t number = 0;
  std::optional<Severity> last;
  const std::vector<Group> fresh = fresh_groups(r.judgement.findings);
  if (fresh.empty() && !r.judgement.findings.empty()) write("## Findings: none that are new\n\n");
  for (const Group& g : fresh) {
    const Finding& f = g.first();
    if (last != f.severity) write(heading(severity_heading(f.severity)));
    last = f.severity;
    const bool of_record = asks_record(f);
    if (f.severity == Severity::query && !words[of_record ? 1 : 0])
      words[of_record ? 1 : 0].emplace(of_record);
    write(item(g, ++number, r, words));
  }
  list_known(r, number, write);
}

void list_seen(const ReportInput& r, const Write& write) {
  const std::vector<BoxDisposition> boxes = dispositions(r);
  if (boxes.empty()) return;
  write("## Dispositions, by what was seen in the boxes\n\n");
  for (const BoxDisposition& b : boxes)
    write(fmt::format("- {}: **{}** ({})\n", markdown_line(b.id), name_of(b.disposition),
                      markdown_line(b.seen)));
  write("\n");
}

void list_gone(const ReportInput& r, const Write& write) {
  if (r.judgement.gone.empty()) return;
  write("## Gone: of the plan, and not so on the boxes as found; not counted\n\n");
  for (const Group& g : group(r.judgement.gone))
    write(fmt::format("- {}: {} ({}, {})\n", boxes_words(g), markdown(g.first().rule->title),
                      name_of(g.first().severity), markdown_name(g.first().rule->id)));
  write("\n");
}

void list_agreed(const ReportInput& r, const Write& write) {
  const Judgement& j = r.judgement;
  if (!has_agreed_section(j)) return;
  write("## Agreed exceptions: no verdict hangs on what is set aside here\n\n");
  write(markdown_line(agreed_caution(j)) + "\n\n");
  const auto under = agreed_by_exception(j);
  for (std::size_t i = 0; i < j.exceptions.size(); ++i) {
    const Exception& e = j.exceptions[i].entry;
    const std::string in_designs = e.designs.empty() ? "" : " in " + design_words(e);
    write(fmt::format("- {} ({}) on {}: {}. Agreed by {} on {}, {}. Reason: {}\n", markdown(e.rule->title),
                      markdown_name(e.rule->id), markdown_line(box_words(e) + in_designs),
                      markdown_line(state_words(j.exceptions[i], j)), markdown_line(e.agreed_by),
                      to_text(e.date),
                      e.expires ? "expires " + to_text(*e.expires) : std::string("without an end"),
                      markdown_line(e.reason)));
    for (const Group& g : group(under[i]))
      write(fmt::format("  - Set aside, a {}: {}; {}\n", name_of(g.first().severity), boxes_words(g),
                        wrong_words(g)));
  }
  write(no_entries_words(j) + (j.exceptions.empty() ? "\n\n" : "\n"));
}

}  // namespace

void write_corrections(const ReportInput& r, const Write& write) {
  write_letter_head(r, write);
  list_seen(r, write);
  list_findings(r, write);
  list_gone(r, write);
  list_agreed(r, write);
}

}  // namespace report

void write_markdown(const ReportInput& r, const Write& write) {
  write(fmt::format("# Correction list: {}\n\n", report::markdown_line(r.design.design.site.name)));
  report::write_corrections(r, write);
  write(fmt::format("> **Caution.** {}\n", report::markdown(caution())));
}

}  // namespace boxproof
