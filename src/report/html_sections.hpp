// The sections of the report page, in the order in which they stand, and what they refer to each other by.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/report.hpp"
#include "src/report/groups.hpp"

namespace boxproof::report {

// The entries of the page and their numbers, made once: box sheets and drawings point to them.
struct PageIndex {
  explicit PageIndex(const ReportInput& report);

  const ReportInput& r;
  std::vector<Group> groups;         // of the findings; entry N is groups[N - 1]
  std::size_t fresh = 0;             // the first so many are told in full, the others are on a baseline
  std::vector<std::size_t> entries;  // by position in the judgement's findings: the entry that tells it
  struct AgreedGroup {
    std::size_t exception;  // index of the exceptions file's entry
    Group group;
  };
  std::vector<AgreedGroup> agreed;  // in the order of the exceptions
  std::vector<bool> sheets;         // by index in the design: whether the page has a section of this box

  std::size_t entry_of(const Finding& finding) const;
  bool has_sheet(std::optional<std::uint32_t> box) const { return box && sheets[*box]; }
  // The findings of one box, which stand together.
  std::span<const Finding> findings_of(std::uint32_t box) const;
};

void write_title_block(const PageIndex& page, const Write& write);
void write_finding_section(const PageIndex& page, const Write& write);
void write_known_section(const PageIndex& page, const Write& write);
void write_disposition_section(const PageIndex& page, const Write& write);
void write_gone_section(const PageIndex& page, const Write& write);
void write_agreed_section(const PageIndex& page, const Write& write);
void write_box_table(const PageIndex& page, const Write& write);
void write_box_sheets(const PageIndex& page, const Write& write);

// A style sheet of this one report: what stands in the margin of each printed page.
std::string page_margin_css(const ReportInput& report);

}  // namespace boxproof::report
