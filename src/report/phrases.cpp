#include "src/report/phrases.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "boxproof/calculate.hpp"
#include "boxproof/rule.hpp"
#include "boxproof/settings.hpp"
#include "src/report/agreed.hpp"
#include "src/report/known.hpp"
#include "src/report/layout.hpp"
#include "src/report/strangers.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

std::string degrees(const std::optional<Celsius>& t) {
  return t ? shown(*t) + " °C" : std::string("not stated");
}

// "10 886 modules", "1 module"
template <class N>
std::string counted_grouped(N n, std::string_view one) {
  return fmt::format("{} {}{}", grouped(static_cast<double>(n)), one, n == 1 ? "" : "s");
}

// A local amendment may set a colder design temperature than the plan's.
std::string judged_colder(const ReportInput& r) {
  const auto stated = r.design.design.site.low, judged = design_low(stated, r.edition);
  return stated != judged ? fmt::format(" (judged at {} °C)", shown(*judged)) : std::string();
}

// What nobody counted is judged as planned, and the report looks the same.
std::string not_counted(const ReportInput& r) {
  std::size_t visited = 0;
  std::vector<std::string_view> ids;
  for (const BoxResult& b : r.judgement.boxes) {
    if (!b.visited) continue;
    const VisitedBox& box = r.record->record.boxes[*b.visited];
    if (box.says_nothing()) continue;  // nobody was there
    ++visited;
    if (!box.count.positive && !box.count.negative) ids.push_back(box.id);
  }
  if (ids.empty()) return {};
  const std::size_t missed = ids.size();
  constexpr std::size_t short_list = 60, few = 8;  // columns, ids
  std::string names = run_together(ids);
  if (width_of(names) > short_list && ids.size() > few) {
    ids.resize(few);
    names = run_together(ids) + ", …";
  }
  return fmt::format("Of {} {} not counted ({}): what nobody looked at is judged as the plan has it.",
                     counted(visited, "visited box", "visited boxes"),
                     missed == 1 ? "1 was" : fmt::format("{} were", missed), names);
}

template <class Boxes>
std::vector<VerdictCount> by_verdict(const Boxes& boxes) {
  std::vector<VerdictCount> out;
  for (const Verdict v :
       {Verdict::stop, Verdict::correct, Verdict::not_visited, Verdict::clarify, Verdict::accept})
    out.push_back({v, 0, outcome_of(v)});
  for (VerdictCount& c : out)
    c.boxes = static_cast<std::size_t>(
        std::count_if(boxes.begin(), boxes.end(), [&](const auto& box) { return box.verdict == c.verdict; }));
  std::erase_if(out, [](const VerdictCount& c) { return c.boxes == 0; });
  return out;
}

std::string words_of(const std::vector<VerdictCount>& counts) {
  std::string line;
  for (const VerdictCount& c : counts)
    line += fmt::format("{}{} {}", line.empty() ? "" : ", ", c.boxes, c.words);
  return line;
}

}  // namespace

std::string_view name_of(Verdict verdict) {
  return verdict_names[static_cast<std::size_t>(verdict)];
}

std::string_view name_of(Severity severity) {
  return severity_names[static_cast<std::size_t>(severity)];
}

std::string_view name_of(Disposition disposition) {
  return disposition_names[static_cast<std::size_t>(disposition)];
}

std::string_view outcome_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::stop: return "to stop";
    case Verdict::correct: return "to correct";
    case Verdict::not_visited: return "not visited";
    case Verdict::clarify: return "to clarify";
    case Verdict::accept: return "to accept";
  }
  return {};
}

std::string_view verdict_sentence(Verdict verdict) {
  switch (verdict) {
    case Verdict::stop: return "unsafe as it stands";
    case Verdict::correct: return "does not meet the adopted code or the approved plan";
    case Verdict::not_visited: return "not every box was visited";
    case Verdict::clarify: return "cannot be judged without more information";
    case Verdict::accept: return "nothing found above advice";
  }
  return {};
}

std::string_view use_words(Use use) {
  switch (use) {
    case Use::dwelling: return "one- or two-family dwelling";
    case Use::building: return "building";
    case Use::ground: return "not on a building";
  }
  return {};
}

std::string check_name(const ReportInput& r) {
  return fmt::format("{}, NEC {}", r.record != nullptr ? "field check" : "plan check", r.edition.name);
}

std::string site_line(const ReportInput& r) {
  const Site& site = r.design.design.site;
  return fmt::format("{}; low {}{}, high {} ({})", use_words(site.use), degrees(site.low), judged_colder(r),
                     degrees(site.high),
                     site.temperature_source.empty() ? "no source stated" : plain(site.temperature_source));
}

std::string totals_line(const ReportInput& r) {
  const SiteTotals& totals = r.judgement.totals;
  std::string out =
      fmt::format("{}, {}, {}", counted(totals.combiners, "box", "boxes"),
                  counted_grouped(totals.strings, "string"), counted_grouped(totals.modules, "module"));
  if (totals.dc_kilowatts) out += fmt::format(", {:.1f} kW DC", *totals.dc_kilowatts);
  if (r.record != nullptr) out += ", as built";
  return out;
}

std::string visit_line(const FieldRecord& v) {
  std::string out = fmt::format("visited {}", v.date.empty() ? "on a date not stated" : plain(v.date));
  if (!v.by.empty()) out += " by " + plain(v.by);
  if (v.kind) out += *v.kind == VisitKind::first ? ", first visit" : ", visited again";
  if (!v.weather.empty()) out += "; " + plain(v.weather);
  return out;
}

std::string change_words(const std::string& text) {
  const bool by_settings = text.ends_with(std::string(settings_name) + ")");
  return (by_settings ? "Changed: " : "Changed on the command line: ") + plain(text);
}

std::vector<std::string> changes(const std::vector<std::string>& overrides, const Edition& edition) {
  std::vector<std::string> out;
  for (const std::string& text : overrides) out.push_back(change_words(text));
  for (std::size_t i = 0; i < edition.amended.size(); ++i)
    out.push_back("Amended locally: " + plain(edition.amendment(i)));
  return out;
}

std::vector<std::string> remarks(const ReportInput& r) {
  const Judgement& j = r.judgement;
  std::vector<std::string> out = changes(r.overrides, r.edition);
  if (j.exceptions_day) out.push_back(exceptions_day_line(j));
  if (j.baseline) out.push_back(baseline_remark(j));
  if (j.selected)
    out.push_back(fmt::format("Only {} of {} boxes {} shown; the site's own findings are left out.",
                              j.boxes.size(), r.design.design.combiners.size(),
                              j.boxes.size() == 1 ? "is" : "are"));
  if (r.record != nullptr)
    if (std::string text = not_counted(r); !text.empty()) out.push_back(std::move(text));
  return out;
}

std::vector<VerdictCount> boxes_by_verdict(const Judgement& j) {
  return by_verdict(j.boxes);
}

std::vector<VerdictCount> strangers_by_verdict(const Judgement& j) {
  return by_verdict(strangers(j));
}

std::string verdicts_line(const Judgement& j) {
  const std::string on_plan = words_of(boxes_by_verdict(j)), off_plan = words_of(strangers_by_verdict(j));
  if (off_plan.empty()) return on_plan;
  return fmt::format("{}{}not on the plan: {}", on_plan, on_plan.empty() ? "" : "; ", off_plan);
}

std::string_view word_of(Severity severity, std::size_t n) {
  switch (severity) {
    case Severity::hazard: return n == 1 ? "hazard" : "hazards";
    case Severity::correction: return n == 1 ? "correction" : "corrections";
    case Severity::query: return n == 1 ? "query" : "queries";
    case Severity::advice: return n == 1 ? "piece of advice" : "pieces of advice";
  }
  return {};
}

std::string counts_line(const Judgement& j) {
  std::string line;
  for (std::size_t i = 0; i < j.counts.size(); ++i)
    line += fmt::format("{}{} {}", line.empty() ? "" : ", ", j.counts[i],
                        word_of(static_cast<Severity>(i), j.counts[i]));
  const std::string fresh = fresh_words(j);
  return fresh.empty() ? line : line + "; " + fresh;
}

std::string_view severity_heading(Severity severity) {
  switch (severity) {
    case Severity::hazard: return "HAZARDS: stop, unsafe as it stands";
    case Severity::correction: return "CORRECTIONS: to be corrected before approval";
    case Severity::query: return "QUERIES: more information needed";
    case Severity::advice: return "ADVICE: no approval hangs on it";
  }
  return {};
}

std::string_view account_words(const Finding& f, const ReportInput& r) {
  if (r.record == nullptr) return {};
  return f.basis == Basis::as_built ? " (as built)" : " (on the plan)";
}

std::string title_of(const Finding& f, const ReportInput& r) {
  return fmt::format("{}{}", f.rule->title, account_words(f, r));
}

std::string in_short(const Finding& f) {
  const auto* found = std::get_if<std::string>(&f.found);
  if (!f.lacking || found == nullptr) return std::string(f.rule->title);
  return fmt::format("{}{} {}", f.part, *found == "not stated" ? "" : ":", *found);
}

std::string to_do(const Finding& f) {
  std::string out;
  if (f.disposition) out = fmt::format("Disposition: {}. ", name_of(*f.disposition));
  return f.ask.empty() ? out.append(f.rule->remedy) : out + plain(f.ask);
}

}  // namespace boxproof::report
