#include "tests/support/baseline.hpp"

#include <fmt/format.h>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"

namespace boxproof::test {
namespace {

std::vector<std::string> with(const Judged& judged, bool is_known) {
  std::vector<std::string> out;
  for (const Finding& f : judged.findings())
    if (f.known == is_known)
      out.push_back(
          fmt::format("{} {} {}", f.rule->id, severity_names[static_cast<std::size_t>(f.severity)], f.part));
  return out;
}

}  // namespace

Baseline baseline_of(const Judgement& judgement, std::string_view design) {
  Baseline baseline;
  baseline.date = *parse_date("2027-03-18");
  baseline.reason = "existing";
  baseline.entries = entries_of(judgement, design);
  std::string text;
  write_baseline(baseline, [&](std::string_view piece) { text += piece; });
  return read_baseline({"baseline.json", text});
}

void hold_beside(Judged& judged, const Baseline& baseline, std::string_view design) {
  mark_known(judged.judgement, judged.design.design, baseline, design);
  REQUIRE(judged.judgement.baseline.has_value());
}

std::vector<std::string> fresh(const Judged& judged) {
  return with(judged, false);
}
std::vector<std::string> known(const Judged& judged) {
  return with(judged, true);
}

std::vector<std::string> names_of(const std::vector<BaselineEntry>& entries) {
  std::vector<std::string> out;
  for (const BaselineEntry& e : entries)
    out.push_back(
        fmt::format("{} {} {}", e.rule, severity_names[static_cast<std::size_t>(e.severity)], e.part));
  return out;
}

}  // namespace boxproof::test
