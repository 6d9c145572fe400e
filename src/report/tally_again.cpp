#include "src/report/tally_again.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "boxproof/rule.hpp"
#include "src/check/record_keys.hpp"
#include "src/read/field_columns.hpp"
#include "src/report/compare_words.hpp"
#include "src/report/layout.hpp"
#include "src/rules/notes.hpp"
#include "src/text/hash.hpp"

namespace boxproof::report {
namespace {

std::string look_words(const AgainItem& item) {
  if (item.keys.empty())
    return item.finding->rule->id == "tally/not-visited" ? "the whole box, as for a first visit"
                                                         : "the whole box";
  std::vector<std::string> words;
  for (const std::vector<std::string>* keys : {&item.keys, &item.more})
    for (const std::string& key : *keys) {
      const std::string word = words_of_key(key);
      words.push_back(word.empty() ? key : word);
    }
  return fmt::format("{}", fmt::join(words, "; "));
}

// A few of them, and how many more the report has.
void add_few(std::vector<std::string>& out, const std::vector<const Finding*>& findings) {
  constexpr std::size_t few = 5;
  for (std::size_t i = 0; i < std::min(few, findings.size()); ++i) out.push_back(findings[i]->message);
  if (findings.size() > few) out.push_back(fmt::format("and {} more, in the report", findings.size() - few));
}

std::string mark_of(const ReportFile& report) {
  text::Hash hash;
  hash.add(basis_names[static_cast<std::size_t>(report.basis)]);
  hash.add(report.visit_date);
  for (const ReportedFinding& f : report.findings) hash.add(fmt::format("{:x}", f.fingerprint));
  return "again " + hash.hex();
}

// "3 findings that only the plan can close, 14 pieces of advice"
std::string left_out(const Again& a) {
  std::vector<std::string> parts;
  const auto add = [&](std::size_t n, std::string_view one, std::string_view many) {
    if (n > 0) parts.push_back(counted(n, one, many));
  };
  add(a.of_plan, "finding that only the plan can close", "findings that only the plan can close");
  add(a.advice, "piece of advice", "pieces of advice");
  add(a.agreed, "finding under an agreed exception", "findings under agreed exceptions");
  return fmt::format("{}", fmt::join(parts, ", "));
}

bool has_column(std::string_view key) {
  return std::any_of(read::field_columns.begin(), read::field_columns.end(), [&](const read::FieldColumn& c) {
    return key == c.group ||
           key == (c.group.empty() ? std::string(c.key) : fmt::format("{}/{}", c.group, c.key));
  });
}

}  // namespace

std::vector<AgainLine> again_lines(const std::vector<AgainItem>& items) {
  std::vector<AgainLine> out;
  for (const AgainItem& item : items) {
    const Finding& f = *item.finding;
    out.push_back({f.severity, std::string(f.rule->id), f.message, f.basis == Basis::design, look_words(item),
                   item.keys});
  }
  return out;
}

SecondVisit second_visit(const ReportFile& report, const Again& again, const DesignFile& design,
                         const Edition& edition) {
  SecondVisit out{mark_of(report), report.visit_date, report.basis == Basis::as_built, {}, {}};
  if (report.site != design.design.site.name)
    out.remarks.push_back(
        fmt::format("The report is of a site named \"{}\". Is it one of this plan?", report.site));
  if (report.edition != edition.name)
    out.remarks.push_back(fmt::format(
        "The report goes by NEC {}, this sheet by NEC {}. Check the second visit by the edition of the "
        "report: a finding that only another edition takes away is not called corrected.",
        report.edition, edition.name));
  if (report.selected)
    out.remarks.push_back(
        fmt::format("The report shows only {}: what is open on others is not on this sheet.",
                    counted(report.boxes.size(), "box", "boxes")));
  add_few(out.elsewhere, again.site);
  add_few(out.elsewhere, again.strangers);
  return out;
}

std::vector<std::string> how_again(const ReportFile& report, const Again& again, const TallySheet& sheet,
                                   const std::vector<std::string>& patterns) {
  std::vector<std::string> out;
  out.push_back(fmt::format("To look at{}: what is open in {}, a {}.",
                            report.basis == Basis::as_built ? " again" : "", report.name,
                            report_words(report)));
  Comparison::Counts counts{};
  for (const TallyBox& box : sheet.boxes)
    for (const AgainLine& a : box.again) ++counts[static_cast<std::size_t>(a.severity)];
  const std::size_t on_plan = sheet.design.design.combiners.size(), here = sheet.boxes.size();
  const std::size_t all =
      on_plan - static_cast<std::size_t>(std::count_if(again.boxes.begin(), again.boxes.end(),
                                                       [](auto& items) { return items.empty(); }));
  std::string boxes = here == 0
                          ? std::string("No box is on this sheet: nothing is open that could be seen on one.")
                          : fmt::format("On this sheet: {} of {} on the plan, with {}.",
                                        counted(here, "box", "boxes"), on_plan, counts_words(counts));
  if (here == 0 && all > 0) boxes = "No box is on this sheet.";
  if (!patterns.empty() && here < all)
    boxes += fmt::format(" {} more with something open {} left out by --box {}.", all - here,
                         all - here == 1 ? "is" : "are", fmt::join(patterns, " --box "));
  out.push_back(boxes);
  if (here > 0)
    out.push_back(
        "What is not looked at again stays open. A finding is closed only where the record states again what is "
        "named under it, what was found good too: none for seen, that all fuses are alike, that there are no labels.");
  if (const std::string others = left_out(again); !others.empty())
    out.push_back("Not on it: " + others + ".");
  return out;
}

std::string beyond_csv(const TallySheet& sheet) {
  std::size_t findings = 0;
  std::vector<std::string_view> boxes;
  for (const TallyBox& box : sheet.boxes)
    for (const AgainLine& a : box.again) {
      if (std::all_of(a.keys.begin(), a.keys.end(), has_column)) continue;
      ++findings;
      if (boxes.empty() || boxes.back() != box.box->id) boxes.push_back(box.box->id);
    }
  if (findings == 0) return {};
  return fmt::format("CSV has no column for what closes {} on {}: enter those in JSON, or on the page.",
                     counted(findings, "finding", "findings"), run_together(boxes));
}

}  // namespace boxproof::report
