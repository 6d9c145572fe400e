// Comparisons of two reports, as text for people, as Markdown for a letter, as JSON for programs.
#pragma once

#include "boxproof/compare.hpp"
#include "boxproof/report.hpp"

namespace boxproof::report {

void write_comparison_text(const Comparison& comparison, bool colour, const Write& write);
void write_comparison_markdown(const Comparison& comparison, const Write& write);
// The format boxproof-comparison/1.
void write_comparison_json(const Comparison& comparison, const Write& write);

// The order in which outcomes are told: what keeps an approval up first.
inline constexpr Outcome outcomes_in_order[] = {Outcome::appeared, Outcome::open,   Outcome::reopened,
                                                Outcome::unseen,   Outcome::agreed, Outcome::corrected,
                                                Outcome::dropped};

}  // namespace boxproof::report
