// The sentences that every report for people says, whatever its format. What comes from a file is made
// plain().
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/report.hpp"

namespace boxproof::report {

std::string_view name_of(Verdict verdict);
std::string_view name_of(Severity severity);
std::string_view name_of(Disposition disposition);

std::string_view outcome_of(Verdict verdict);        // "to stop"
std::string_view verdict_sentence(Verdict verdict);  // "unsafe as it stands"
std::string_view use_words(Use use);

// "plan check, NEC 2017"
std::string check_name(const ReportInput& report);
// "building; low −9 °C, high 36 °C (station and data set)"
std::string site_line(const ReportInput& report);
// "50 boxes, 627 strings, 10 886 modules, 4723.0 kW DC"
std::string totals_line(const ReportInput& report);
// "visited 2027-03-18 by two persons, first visit; dry"
std::string visit_line(const FieldRecord& record);
// "Changed on the command line: site.low_c is …", or by a settings file, which the text then names last.
std::string change_words(const std::string& text);
// What differs from the files and from the edition as published: command line, settings and local amendments.
std::vector<std::string> changes(const std::vector<std::string>& overrides, const Edition& edition);
// What the reader must know of this report before believing it: changes, the day of agreed exceptions, the
// baseline, boxes left out, visited boxes whose strings nobody counted.
std::vector<std::string> remarks(const ReportInput& report);
// The verdicts that boxes got, gravest first: how many, and "to stop".
struct VerdictCount {
  Verdict verdict;
  std::size_t boxes;
  std::string_view words;
};
std::vector<VerdictCount> boxes_by_verdict(const Judgement& judgement);
// Of visited boxes that are not on the plan.
std::vector<VerdictCount> strangers_by_verdict(const Judgement& judgement);
// "4 to stop, 46 to accept; not on the plan: 1 to stop"
std::string verdicts_line(const Judgement& judgement);
// "hazards"; of one "hazard"
std::string_view word_of(Severity severity, std::size_t n);
// "10 hazards, 1 correction, 0 queries, 2 pieces of advice"; with a baseline, how many of them are not on it
std::string counts_line(const Judgement& judgement);

// "HAZARDS: stop, unsafe as it stands"
std::string_view severity_heading(Severity severity);
// In a field check " (as built)" or " (on the plan)", else empty.
std::string_view account_words(const Finding& finding, const ReportInput& report);
// The rule's title with these words behind it.
std::string title_of(const Finding& finding, const ReportInput& report);
// "Fuse larger than the module allows"; of a query for a value "fuse/dc not stated".
std::string in_short(const Finding& finding);
// What to do, behind what becomes of the part, if that was said.
std::string to_do(const Finding& finding);

}  // namespace boxproof::report
