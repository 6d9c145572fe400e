// Agreed exceptions in a report: their entries, and the findings that they set aside.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "boxproof/report.hpp"
#include "src/report/json_text.hpp"

namespace boxproof::report {

// All of these write nothing where no exceptions file was given.

// Whether there is a section of them: in a run of many designs only where one of its entries has findings.
bool has_agreed_section(const Judgement& judgement);
// Why the section has no entries; empty where it has.
std::string no_entries_words(const Judgement& judgement);

// "Agreed exceptions count as on 2027-03-18, the day of the visit": for the head of a report.
std::string exceptions_day_line(const Judgement& judgement);
// "2 findings set aside; 1 entry expired": for the verdict.
std::string exceptions_summary(const Judgement& judgement);
// The day, and that nobody has seen the agreements: for the head of the section.
std::string agreed_caution(const Judgement& judgement);

// What the file says of an exception, and what became of it: label and text. A row without a label goes on
// with the one before it.
using ExceptionRow = std::pair<std::string_view, std::string>;
std::vector<ExceptionRow> exception_rows(const ExceptionResult& exception, const Judgement& judgement);
// The findings that each entry set aside.
std::vector<std::vector<const Finding*>> agreed_by_exception(const Judgement& judgement);

// "in force; 2 findings set aside": what became of an entry.
std::string state_words(const ExceptionResult& result, const Judgement& judgement);
// The boxes that it names, as the file has them.
std::string box_words(const Exception& exception);
// The designs that it names; empty: every design.
std::string design_words(const Exception& exception);
// The section of the text report.
void write_agreed(const ReportInput& report, const Write& write);
// For the screen of one box: what is set aside there, and the entries that name the box and have no effect at
// all, or leave a finding of it standing.
void write_agreed_of_box(std::string& out, const ReportInput& report, const BoxResult& box,
                         std::size_t label_width);

// The entries as the JSON report holds them, with the day and the comma behind.
void put_exceptions(Buffer& out, const Judgement& judgement);

}  // namespace boxproof::report
