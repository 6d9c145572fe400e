#include "src/report/agreed.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "boxproof/rule.hpp"
#include "src/report/entry.hpp"
#include "src/report/groups.hpp"
#include "src/report/layout.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

std::string_view day_words(DayFrom from) {
  switch (from) {
    case DayFrom::command_line: return "the day given with --on";
    case DayFrom::visit: return "the day of the visit";
    case DayFrom::today: return "today";
  }
  return {};
}

std::string findings(std::size_t n) {
  return counted(n, "finding", "findings");
}
// "its 1 finding stands", "its 2 findings stand"
std::string its_stand(std::size_t n, std::string_view more = {}) {
  return fmt::format("its {} {}{}", findings(n), n == 1 ? "stands" : "stand", more);
}

}  // namespace

std::string state_words(const ExceptionResult& r, const Judgement& j) {
  const std::string stand = r.standing > 0 ? its_stand(r.standing) : "it has no findings";
  switch (r.state) {
    case ExceptionState::applied: {
      std::string text = fmt::format("in force; {} set aside", findings(r.findings));
      if (r.worse > 0)
        text += fmt::format("; {} not, where the box as found is farther off", findings(r.worse));
      if (r.hazards > 0)
        text += fmt::format("; {} not, which it does not cover", counted(r.hazards, "hazard", "hazards"));
      if (r.shared > 0)
        text += fmt::format("; {} not, which other rules ask too", counted(r.shared, "query", "queries"));
      return text;
    }
    case ExceptionState::worse_as_found:
      return "in force, but the box as found is farther off than the plan that was agreed to; " + stand;
    case ExceptionState::hazards_only:
      return "in force, but has only hazards, which it does not cover; " + stand;
    case ExceptionState::shared_only:
      return "in force, but has only queries that other rules ask too; " + stand;
    case ExceptionState::covered_before: return "in force, but an earlier entry has its findings";
    case ExceptionState::matches_nothing:
      return fmt::format("in force, but matches nothing{}", j.selected ? " on the boxes shown" : "");
    case ExceptionState::not_yet:
      return fmt::format("not in force before {}; {}", to_text(r.entry.date), stand);
    case ExceptionState::expired:
      return fmt::format("EXPIRED at the end of {}; {}", to_text(r.entry.expires.value_or(r.entry.date)),
                         stand);
  }
  return {};
}

namespace {

std::string joined(const std::vector<std::string>& texts) {
  std::vector<std::string> shown_texts;
  for (const std::string& text : texts) shown_texts.push_back(plain(text));
  return fmt::format("{}", fmt::join(shown_texts, ", "));
}

}  // namespace

bool has_agreed_section(const Judgement& j) {
  return j.exceptions_day && !(j.exceptions_idle_left_out && j.exceptions.empty());
}

std::string no_entries_words(const Judgement& j) {
  if (!j.exceptions.empty()) return {};
  return j.exceptions_elsewhere > 0 ? "All entries of the file are for other designs."
                                    : "The file has no entries.";
}

std::string box_words(const Exception& e) {
  return fmt::format("{}{}", joined(e.boxes),
                     matches_any(e.boxes, "") ? " (the site's own findings too)" : "");
}

std::string design_words(const Exception& e) {
  return joined(e.designs);
}

namespace {

std::string head_of(const ExceptionResult& r, const Judgement& j) {
  const Exception& e = r.entry;
  std::string out =
      wrap(fmt::format("{}  [{}]", e.rule->title, e.rule->id), 4, fmt::format("Exception {}: ", r.index + 1));
  for (const auto& [label, text] : exception_rows(r, j)) line(out, label, text);
  return out;
}

}  // namespace

std::vector<ExceptionRow> exception_rows(const ExceptionResult& r, const Judgement& j) {
  const Exception& e = r.entry;
  std::vector<ExceptionRow> out{{"state", state_words(r, j)}, {"boxes", box_words(e)}};
  for (const std::string& pattern : r.unknown)
    out.emplace_back("", fmt::format("\"{}\" names no box of the plan", plain(pattern)));
  if (!e.designs.empty()) out.emplace_back("designs", design_words(e));
  if (e.hazard) out.emplace_back("covers", "hazards too");
  out.emplace_back("reason", plain(e.reason));
  out.emplace_back("agreed by", plain(e.agreed_by));
  out.emplace_back("date", to_text(e.date));
  out.emplace_back("expires", e.expires ? to_text(*e.expires) : "never");
  out.emplace_back("place", fmt::format("{}:{}:{}", plain(e.place.file), e.place.line, e.place.column));
  return out;
}

std::vector<std::vector<const Finding*>> agreed_by_exception(const Judgement& j) {
  std::vector<std::vector<const Finding*>> under(j.exceptions.size());
  for (const AgreedFinding& a : j.agreed) under[a.exception].push_back(&a.finding);
  return under;
}

std::string exceptions_day_line(const Judgement& j) {
  if (!j.exceptions_day) return {};
  return fmt::format("Agreed exceptions count as on {}, {}.", to_text(j.exceptions_day->date),
                     day_words(j.exceptions_day->from));
}

std::string agreed_caution(const Judgement& j) {
  return exceptions_day_line(j) + " The file's word is taken for each agreement; ask to see it.";
}

std::string exceptions_summary(const Judgement& j) {
  if (!j.exceptions_day) return {};
  std::string text = fmt::format("Agreed exceptions: {} set aside", findings(j.agreed.size()));
  const auto hazards = std::count_if(j.agreed.begin(), j.agreed.end(), [](const AgreedFinding& a) {
    return a.finding.severity == Severity::hazard;
  });
  if (hazards > 0)
    text += fmt::format(", {} among them", counted(static_cast<std::size_t>(hazards), "hazard", "hazards"));
  const auto add = [&](ExceptionState state, std::string_view one, std::string_view many) {
    const auto n = std::count_if(j.exceptions.begin(), j.exceptions.end(),
                                 [&](const ExceptionResult& r) { return r.state == state; });
    if (n > 0) text += "; " + counted(static_cast<std::size_t>(n), one, many);
  };
  add(ExceptionState::expired, "entry expired", "entries expired");
  add(ExceptionState::matches_nothing, "entry matches nothing", "entries match nothing");
  if (j.exceptions_elsewhere > 0 && !j.exceptions_idle_left_out)
    text += fmt::format("; {} for other designs", counted(j.exceptions_elsewhere, "entry", "entries"));
  return text;
}

void write_agreed(const ReportInput& r, const Write& write) {
  const Judgement& j = r.judgement;
  if (!has_agreed_section(j)) return;
  write(inked("AGREED EXCEPTIONS: no verdict hangs on what is set aside here", Ink::strong, r.colour) + "\n");
  write(wrap(agreed_caution(j), 0) + "\n");
  if (j.exceptions.empty()) write(no_entries_words(j) + "\n\n");
  const auto under = agreed_by_exception(j);
  for (std::size_t i = 0; i < j.exceptions.size(); ++i) {
    write(head_of(j.exceptions[i], j) + "\n");
    for (const Group& g : group(under[i])) {
      const std::string_view severity = severity_names[static_cast<std::size_t>(g.first().severity)];
      write(entry_text(g, fmt::format("  – {}: ", severity), r, true) + "\n");
    }
  }
}

void write_agreed_of_box(std::string& out, const ReportInput& r, const BoxResult& box,
                         std::size_t label_width) {
  const Judgement& j = r.judgement;
  if (!j.exceptions_day) return;
  const auto put = [&](std::string_view label, const std::string& text) {
    out += wrap(text, label_width, left(label, label_width));
  };
  std::vector<bool> here(j.exceptions.size());
  for (const AgreedFinding& a : j.agreed) {
    const Finding& f = a.finding;
    if (f.box != box.index) continue;
    here[a.exception] = true;
    const Exception& e = j.exceptions[a.exception].entry;
    put("agreed",
        fmt::format("{}: {} [{}; {}] Set aside by {} {}: {}",
                    severity_names[static_cast<std::size_t>(f.severity)], plain(f.message), f.rule->id,
                    f.section, plain(e.agreed_by),
                    e.expires ? "until " + to_text(*e.expires) : "without an end", plain(e.reason)));
  }
  const std::string& id = r.design.design.combiners[box.index].id;
  for (std::size_t i = 0; i < j.exceptions.size(); ++i) {
    const ExceptionResult& result = j.exceptions[i];
    const bool named = matches_any(result.entry.boxes, id);
    const bool stands_here = std::any_of(j.findings.begin(), j.findings.end(), [&](const Finding& f) {
      return f.box == box.index && f.speaks_for(*result.entry.rule);
    });
    const bool elsewhere = here[i] || result.state == ExceptionState::applied;  // has an effect
    if (!named || (elsewhere && !stands_here)) continue;
    put("exception", fmt::format("{}: {}", result.entry.rule->id, state_words(result, j)));
  }
  put("", exceptions_day_line(j));
}

}  // namespace boxproof::report
