// Findings as entries of a text report.
#pragma once

#include <string>
#include <string_view>

#include "boxproof/report.hpp"
#include "src/report/groups.hpp"

namespace boxproof::report {

inline constexpr std::size_t text_column = 4;    // where the text of an entry starts
inline constexpr std::size_t value_column = 14;  // where the values behind its labels start

// Groups the findings and writes an entry for each, under a heading a severity; those on a baseline after the
// others, in brief. Says so where there are none.
void write_entries(const ReportInput& report, const std::vector<Finding>& findings, const Write& write);

// What the plan has and the box as found has no longer.
void write_gone(const ReportInput& r, const std::vector<Finding>& gone, const Write& write);

// The entry of one group; its title stands behind `lead`. What is agreed needs nothing done.
std::string entry_text(const Group& group, std::string_view lead, const ReportInput& report,
                       bool agreed = false);

// "site.json:183:54 (the first of 3)"
std::string place_of(const Group& group);

// "1022.68906 V": what a step of a working comes to.
std::string value_of(const Step& step);

// One value of an entry behind its label; nothing where there is no value.
void line(std::string& out, std::string_view label, std::string_view text);

}  // namespace boxproof::report
