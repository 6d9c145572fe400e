// Small pieces of a page, as HTML.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "src/report/html_sections.hpp"

namespace boxproof::report {

// A severity, a verdict or a disposition in its frame.
std::string tag(Severity severity);
std::string tag(Verdict verdict);
std::string tag(Disposition disposition);

// A name out of a file, kept from turning the text around it; a short one is not broken at its hyphens.
std::string name(std::string_view text);

// A sequence of ids as text::run_words() tells it, "A-01…A-05", broken after a comma or the dots alone.
std::string run_name(std::string_view first, std::string_view last, std::size_t size);

// Ids run together as run_together() does, each run a name.
std::string names(const std::vector<std::string_view>& ids);

// The number of an entry, as it stands in the drawings.
std::string number(std::size_t n);

// A row of a list of facts; nothing where there is no value. `value` is HTML.
std::string fact(std::string_view label, std::string_view value);

// The boxes of a group: links to their sections where they are few, else ids run together.
std::string box_links(const PageIndex& page, const Group& group);

// The steps of a finding's working, closed on the screen unless the report shows them.
std::string working(const ReportInput& report, const Finding& finding);

}  // namespace boxproof::report
