#include "src/report/compare_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "boxproof/rule.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

std::string a_severity(Severity severity) {
  return severity == Severity::advice ? "advice" : fmt::format("a {}", name_of(severity));
}

std::string amount_change(std::string_view what, const Finding& b, const Finding& a, Amount Finding::*value) {
  if (b.*value == a.*value && b.unit == a.unit) return {};
  const std::string before = shown(b.*value, b.unit, a.*value), after = shown(a.*value, a.unit, b.*value);
  if (before == after) return {};
  return fmt::format("{} was {}, now {}", what, before.empty() ? "not said" : before,
                     after.empty() ? "not said" : after);
}

std::string agreement(const Compared& c, const Comparison& comparison) {
  const ReportedFinding* f = c.after != nullptr && c.after->exception ? c.after : c.before;
  if (f == nullptr || !f->exception) return {};
  const ReportFile& report = f == c.after ? *comparison.after : *comparison.before;
  if (*f->exception >= report.exceptions.size()) return {};
  const ReportedException& e = report.exceptions[*f->exception];
  return fmt::format(" Agreed by {}, {}: {}", plain(e.agreed_by),
                     e.expires.empty() ? "without an end" : "until " + plain(e.expires), plain(e.reason));
}

}  // namespace

OutcomeWords words_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::appeared: return {"NEW", "not in the earlier report"};
    case Outcome::open: return {"STILL OPEN", "in both reports"};
    case Outcome::reopened:
      return {"OPEN AGAIN", "set aside by an agreed exception before, and not any more"};
    case Outcome::unseen:
      return {"NOT LOOKED AT AGAIN", "the later report could not have found it; counts as open"};
    case Outcome::agreed: return {"AGREED", "set aside under an agreed exception; not corrected, not open"};
    case Outcome::corrected: return {"CORRECTED", "the later report looked, and did not find it"};
    case Outcome::dropped:
      return {"NO LONGER ON THE PLAN",
              "went with a box that the plan does not have any more; not corrected, not open"};
  }
  return {};
}

std::string reason_words(const Compared& c, const Comparison& comparison) {
  const std::string detail = plain(c.detail), edition = plain(comparison.after->edition);
  switch (c.reason) {
    case Reason::none: return {};
    case Reason::new_box: return "The box is new.";
    case Reason::not_shown_before: return "The earlier report does not show it.";
    case Reason::visited_before: return "The box was visited before, and not this time.";
    case Reason::was_gone: return "The plan had it before; the box as found had not.";
    case Reason::no_rule_before:
      return fmt::format("NEC {} does not have the rule, so nobody looked before.",
                         plain(comparison.before->edition));
    case Reason::other_part:
      return fmt::format("Perhaps an old matter: the same rule spoke of this box before, at {}.",
                         detail.empty() ? "the box itself" : detail);
    case Reason::first_visit: return "Found on the box itself, which nobody had visited before.";
    case Reason::not_shown: return "The later report does not show it.";
    case Reason::plan_only:
      return "It was so on the box itself, and the later report is a check of the plan alone.";
    case Reason::not_visited: return "It was so on the box itself, and nobody visited the box again.";
    case Reason::not_stated:
      return fmt::format("The box was visited, but the record does not say again: {}.", detail);
    case Reason::not_met:
      return "The box is not on the plan, and the later record has no entry of that id. Is it still there?";
    case Reason::behind_site:
      return fmt::format(
          "It was so as found, and boxes with findings were not visited and counted again: {}.", detail);
    case Reason::no_rule: return fmt::format("The rule does not run in the later report (NEC {}).", edition);
    case Reason::other_code: return fmt::format("The rule went by other data of the code then: {}.", detail);
    case Reason::other_temperature:
      return "It was judged at another design temperature, given on the command line.";
    case Reason::asks_first:
      return fmt::format("The rule cannot judge there any more: it asks for {} first.", detail);
    case Reason::behind_boxes:
      return fmt::format("It hangs on other boxes as found, of which the record does not say all again: {}.",
                         detail);
    case Reason::no_longer_stated:
      return fmt::format("Not shown to be gone: {} may not be stated any more, or cannot be computed.",
                         detail);
    case Reason::agreed_new: return "New, and set aside at once." + agreement(c, comparison);
    case Reason::agreed_now: return "Open before." + agreement(c, comparison);
    case Reason::agreed_before: return "As before." + agreement(c, comparison);
    case Reason::agreed_unseen:
      return "Set aside before; the later report could not have found it." + agreement(c, comparison);
    case Reason::as_found: return "Corrected on the box itself; the plan still has it.";
    case Reason::was_agreed: return "It was set aside before, and is not there any more.";
    case Reason::misread_id:
      return fmt::format("Taken for a misread id: nobody had visited {} then, and somebody has now.", detail);
    case Reason::not_there:
      return "The box is not on the plan; every box of the plan was visited, and it was not met again.";
    case Reason::now_on_plan: return "The box is on the plan now.";
    case Reason::now_part:
      return fmt::format("Perhaps not: the same rule speaks of this box now at {}, see what is new.",
                         detail.empty() ? "the box itself" : detail);
  }
  return {};
}

std::string change_words(const Compared& c) {
  if (c.before == nullptr || c.after == nullptr) return {};
  const Finding &b = c.before->finding, &a = c.after->finding;
  std::string out;
  const auto add = [&out](const std::string& text) {
    if (!text.empty()) out.append(out.empty() ? "" : "; ").append(text);
  };
  if (b.severity != a.severity)
    add(fmt::format("was {}, now {}", a_severity(b.severity), a_severity(a.severity)));
  if (b.basis != a.basis)
    add(a.basis == Basis::as_built ? "was on the plan, now as built" : "was as built, now on the plan too");
  add(amount_change("found", b, a, &Finding::found));
  add(amount_change("required", b, a, &Finding::required));
  return out;
}

std::string report_words(const ReportFile& r) {
  std::string out = r.basis == Basis::as_built ? "field check" : "plan check";
  if (!r.visit_date.empty()) out += " of " + plain(r.visit_date);
  return fmt::format("{}, NEC {}: {}", out, plain(r.edition), upper(name_of(r.verdict)));
}

std::string counts_words(const Comparison::Counts& counts) {
  constexpr std::array<std::array<std::string_view, 2>, severity_names.size()> words{
      {{"hazard", "hazards"},
       {"correction", "corrections"},
       {"query", "queries"},
       {"piece of advice", "pieces of advice"}}};
  std::string out;
  for (std::size_t i = 0; i < counts.size(); ++i)
    if (counts[i] > 0)
      out.append(out.empty() ? "" : ", ").append(counted(counts[i], words[i][0], words[i][1]));
  return out.empty() ? "nothing" : out;
}

std::string verdict_words(const Comparison& c) {
  const Comparison::Counts beyond = c.beyond_verdict();
  std::size_t count = 0;
  for (const std::size_t n : beyond) count += n;
  if (count == 0) return std::string(verdict_sentence(c.after->verdict));
  return fmt::format("on what it looked at; {} {} not looked at again", counts_words(beyond),
                     count == 1 ? "is" : "are");
}

std::string summary(const Comparison& c) {
  std::array<std::size_t, outcome_names.size()> n{};
  std::size_t before = 0;
  for (const Compared& one : c.findings) {
    ++n[static_cast<std::size_t>(one.outcome)];
    before += one.before != nullptr;
  }
  std::string out;
  const auto add = [&](Outcome outcome, std::string_view one, std::string_view many) {
    const std::size_t count = n[static_cast<std::size_t>(outcome)];
    if (count > 0) out += fmt::format("{}{} {}", out.empty() ? "" : ", ", count, count == 1 ? one : many);
  };
  add(Outcome::corrected, "is corrected", "are corrected");
  add(Outcome::open, "is still open", "are still open");
  add(Outcome::reopened, "is open again", "are open again");
  add(Outcome::unseen, "was not looked at again", "were not looked at again");
  if (const auto agreed = static_cast<std::size_t>(std::count_if(
          c.findings.begin(), c.findings.end(),
          [](const Compared& x) { return x.outcome == Outcome::agreed && x.before != nullptr; }));
      agreed > 0)
    out += fmt::format("{}{} agreed", out.empty() ? "" : ", ",
                       agreed == 1 ? "1 is" : fmt::format("{} are", agreed));
  add(Outcome::dropped, "went with its box", "went with their boxes");
  const std::size_t fresh = n[static_cast<std::size_t>(Outcome::appeared)];
  return fmt::format("{} {} {} new.",
                     before == 0
                         ? std::string("The earlier report has no findings.")
                         : fmt::format("Of {} before, {}.", counted(before, "finding", "findings"), out),
                     fresh == 0 ? "None" : fmt::format("{}", fresh), fresh > 1 ? "are" : "is");
}

}  // namespace boxproof::report
