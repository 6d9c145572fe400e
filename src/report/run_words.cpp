#include "src/report/run_words.hpp"

#include <fmt/format.h>

#include <numeric>

#include "src/report/phrases.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {

bool has_section(const ReportInput& r) {
  const Judgement& j = r.judgement;
  return !j.findings.empty() || !j.agreed.empty() || (j.baseline && !j.baseline->stale.empty());
}

bool is_changed(const ReportInput& r) {
  return !changes(r.overrides, r.edition).empty();
}

std::string designs_words(const RunTotals& totals) {
  return counted(totals.designs + totals.unread, "design", "designs") +
         (totals.unread > 0 ? fmt::format(", {} not judged", totals.unread) : "");
}

std::string verdicts_words(const RunTotals& totals) {
  std::string out;
  for (const Verdict v :
       {Verdict::stop, Verdict::correct, Verdict::not_visited, Verdict::clarify, Verdict::accept})
    if (const std::size_t n = totals.verdicts[static_cast<std::size_t>(v)]; n > 0)
      out += fmt::format("{}{} {}", out.empty() ? "" : ", ", n, outcome_of(v));
  if (out.empty()) out = "none judged";
  if (totals.unread > 0) out += fmt::format("; {} not judged", totals.unread);
  if (totals.skipped > 0)
    out += fmt::format("; {} skipped, which {}", counted(totals.skipped, "file", "files"),
                       totals.skipped == 1 ? "is no design" : "are no designs");
  return out;
}

std::string counts_words(const RunTotals& totals) {
  std::string out;
  for (std::size_t i = 0; i < totals.counts.size(); ++i)
    out += fmt::format("{}{} {}", out.empty() ? "" : ", ", totals.counts[i],
                       word_of(static_cast<Severity>(i), totals.counts[i]));
  const std::size_t known = std::accumulate(totals.known.begin(), totals.known.end(), std::size_t{0});
  return known > 0 ? out + fmt::format(" (of them {} on the baseline)", known) : out;
}

}  // namespace boxproof::report
