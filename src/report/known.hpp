// Findings on a baseline, as reports tell them: after the others, and in brief.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/report.hpp"
#include "src/report/groups.hpp"
#include "src/report/json_text.hpp"

namespace boxproof::report {

using SeverityCounts = std::array<std::size_t, severity_names.size()>;

// Of the judgement's findings, those on the baseline and those that are not.
SeverityCounts known_counts(const Judgement& judgement);
SeverityCounts fresh_counts(const Judgement& judgement);

// Entries are numbered in this order: first of what is news, then of what is on the baseline.
std::vector<Group> fresh_groups(const std::vector<Finding>& findings);
std::vector<Group> known_groups(const std::vector<Finding>& findings);

// What every report with a baseline says of it.
std::string_view baseline_caution();
// "Held beside the baseline of 2027-03-18 (reason)." and the caution. Empty without a baseline, as are the
// next two.
std::string baseline_remark(const Judgement& judgement);
// "not on the baseline: 2 hazards, 1 correction"
std::string fresh_words(const Judgement& judgement);
// "On the baseline of 2027-03-18 (reason)"
std::string baseline_heading(const Judgement& judgement);

// Where an entry is, in one line: "A-01…A-04 (4 boxes), fuse".
std::string known_where(const Group& group);

// The entries that cover nothing any more, those of one rule and severity together: "correction fuse/not-dc
// on A-01…A-04 (fuse)".
std::vector<std::string> entry_lines(const std::vector<BaselineEntry>& entries);
inline constexpr std::string_view stale_words =
    "No longer occurs: remove the entry, or write the baseline anew";
inline constexpr std::string_view graver_words = "Graver than on the baseline, and so told above";

// The section of the text report; its entries are numbered behind `number`.
void write_known(const ReportInput& report, std::size_t number, const Write& write);

// In the report for programs: counts behind those by severity, and the baseline with the comma behind.
void put_known_counts(Buffer& out, const Judgement& judgement);
void put_baseline(Buffer& out, const Judgement& judgement);

}  // namespace boxproof::report
