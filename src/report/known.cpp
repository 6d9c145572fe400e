#include "src/report/known.hpp"

#include <fmt/format.h>

#include <map>
#include <tuple>

#include "boxproof/rule.hpp"
#include "src/report/entry.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"

namespace boxproof::report {
namespace {

std::vector<Group> groups_of(const std::vector<Finding>& findings, bool known) {
  std::vector<const Finding*> chosen;
  for (const Finding& f : findings)
    if (f.known == known) chosen.push_back(&f);
  return group(chosen);
}

// "A-01…A-04 (4 boxes), fuse"
std::string with_part(std::string boxes, std::size_t count, const std::string& parts) {
  if (count > 1) boxes += fmt::format(" ({} boxes)", count);
  return parts.empty() ? boxes : fmt::format("{}, {}", boxes, parts);
}

}  // namespace

SeverityCounts known_counts(const Judgement& j) {
  SeverityCounts out{};
  for (const Finding& f : j.findings)
    if (f.known) ++out[static_cast<std::size_t>(f.severity)];
  return out;
}

SeverityCounts fresh_counts(const Judgement& j) {
  SeverityCounts out = j.counts;
  const SeverityCounts known = known_counts(j);
  for (std::size_t i = 0; i < out.size(); ++i) out[i] -= known[i];
  return out;
}

std::vector<Group> fresh_groups(const std::vector<Finding>& findings) {
  return groups_of(findings, false);
}

std::vector<Group> known_groups(const std::vector<Finding>& findings) {
  return groups_of(findings, true);
}

std::string_view baseline_caution() {
  return "A baseline approves nothing: what is on it stands, and counts in every verdict. No hazard is ever on "
         "it.";
}

std::string baseline_remark(const Judgement& j) {
  if (!j.baseline) return {};
  return fmt::format("Held beside the baseline of {} ({}). {}", to_text(j.baseline->date),
                     plain(j.baseline->reason), baseline_caution());
}

std::string fresh_words(const Judgement& j) {
  if (!j.baseline || j.findings.empty()) return {};
  const SeverityCounts fresh = fresh_counts(j);
  std::string words;
  for (std::size_t i = 0; i < fresh.size(); ++i)
    if (fresh[i] > 0)
      words += fmt::format("{}{} {}", words.empty() ? "" : ", ", fresh[i],
                           word_of(static_cast<Severity>(i), fresh[i]));
  return words.empty() ? "all on the baseline, none new" : "new, not on the baseline: " + words;
}

std::string baseline_heading(const Judgement& j) {
  if (!j.baseline) return {};
  return fmt::format("On the baseline of {} ({})", to_text(j.baseline->date), plain(j.baseline->reason));
}

std::string known_where(const Group& g) {
  return with_part(g.first().box_id.empty() ? "the site" : boxes_of(g), box_count(g), parts_of(g));
}

std::vector<std::string> entry_lines(const std::vector<BaselineEntry>& entries) {
  std::map<std::tuple<Severity, std::string_view, std::string_view>, std::vector<std::string_view>> alike;
  for (const BaselineEntry& e : entries) {
    std::vector<std::string_view>& boxes = alike[{e.severity, e.rule, e.part}];
    if (boxes.empty() || boxes.back() != e.box) boxes.emplace_back(e.box);
  }
  std::vector<std::string> out;
  for (const auto& [key, boxes] : alike) {
    const auto& [severity, rule, part] = key;
    const std::string ids = boxes.front().empty() ? "the site" : run_together(boxes);
    out.push_back(
        fmt::format("{} {} on {}", name_of(severity), rule, with_part(ids, boxes.size(), plain(part))));
  }
  return out;
}

void write_known(const ReportInput& r, std::size_t number, const Write& write) {
  const Judgement& j = r.judgement;
  if (!j.baseline) return;
  const std::vector<Group> groups = known_groups(j.findings);
  if (groups.empty() && j.baseline->stale.empty() && j.baseline->graver.empty()) return;
  std::string heading = wrap(baseline_heading(j), 0);
  heading.pop_back();  // the line end stays outside the colour
  write(inked(heading, Ink::strong, r.colour) + "\n");
  std::string out;
  for (const Group& g : groups) {
    out += wrap(fmt::format("{} {}{} on {}", name_of(g.first().severity), g.first().rule->id,
                            account_words(g.first(), r), known_where(g)),
                4, fmt::format("{:>3} ", ++number));
  }
  const auto list = [&](std::string_view lead, const std::vector<BaselineEntry>& entries) {
    if (entries.empty()) return;
    out += wrap(fmt::format("{}:", lead), 2, "  ");
    for (const std::string& line : entry_lines(entries)) out += wrap(line, 4, "  – ");
  };
  list(graver_words, j.baseline->graver);
  list(stale_words, j.baseline->stale);
  write(out + "\n");
}

}  // namespace boxproof::report
