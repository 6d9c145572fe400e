#include <fmt/format.h>

#include "boxproof/rule.hpp"
#include "src/report/compare.hpp"
#include "src/report/compare_words.hpp"
#include "src/report/layout.hpp"
#include "src/report/markdown_text.hpp"
#include "src/report/phrases.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

// "Still open"
std::string as_title(std::string_view heading) {
  std::string out(heading);
  for (std::size_t i = 1; i < out.size(); ++i)
    if (out[i] >= 'A' && out[i] <= 'Z') out[i] = static_cast<char>(out[i] - 'A' + 'a');
  return out;
}

void write_markdown_head(const Comparison& c, const Write& write) {
  write(fmt::format("# Comparison: {}\n\n", markdown_line(c.after->site)));
  const auto source = [](std::string_view which, const ReportFile& r) {
    return fmt::format("- {}: {}: {}\n", which, markdown_line(r.name), markdown_line(report_words(r)));
  };
  write(source("Before", *c.before) + source("After", *c.after));
  for (const std::string& remark : c.remarks) write(fmt::format("- {}\n", markdown_line(remark)));
  write(fmt::format("\nVerdict: **{} → {}**, {}.\n\n", upper(name_of(c.before->verdict)),
                    upper(name_of(c.after->verdict)), verdict_words(c)));
  if (c.nothing_changed) write("Nothing changed between the two reports.\n\n");
  write(summary(c) + "\n\n");
  write("Open or new: " + counts_words(c.open_counts()) + ".\n\n");
}

std::string markdown_entry(const ComparedGroup& g, const Comparison& c, std::size_t number) {
  const Finding& f = g.group.first();
  const bool now = g.first().after != nullptr, one = g.group.findings.size() == 1;
  std::string out = fmt::format("{}. **{}** ({}; {})", number, markdown(f.rule->title), name_of(f.severity),
                                markdown_name(f.rule->id));
  const auto item = [&out](std::string_view label, const std::string& text) {
    if (!text.empty()) out += fmt::format("\n   - {}: {}", label, markdown_line(text));
  };
  if (!f.box_id.empty()) item(box_count(g.group) == 1 ? "Box" : "Boxes", boxes_of(g.group));
  item("Part", parts_of(g.group));
  if (now) {
    item("Found", range_of(g.group, &Finding::found));
    item("Required", range_of(g.group, &Finding::required));
  }
  for (const std::string& change : changes_of(g)) item("Changed", change);
  item("Why", reason_words(g.first(), c));
  if (now) item("Section", plain(f.section));
  item(now ? (one ? "Finding" : "Example") : (one ? "Before" : "Before, for example"), plain(f.message));
  return out + "\n";
}

void write_outcome(const Comparison& c, Outcome outcome, const Write& write) {
  const std::vector<ComparedGroup> groups = groups_of(c, outcome);
  if (groups.empty()) return;
  const auto [heading, meaning] = words_of(outcome);
  write(fmt::format("## {}\n\nThat is: {}. {}.\n\n", as_title(heading), meaning,
                    counts_words(c.counts(outcome))));
  std::size_t number = 0;
  for (const ComparedGroup& g : groups) write(markdown_entry(g, c, ++number));
  write("\n");
}

void write_ids(std::string_view heading, const std::vector<std::string_view>& ids, std::string_view note,
               const Write& write) {
  if (ids.empty()) return;
  write(fmt::format("## {}\n\nIds: {} ({}).{}\n\n", heading, markdown_line(run_together(ids)),
                    counted(ids.size(), "box", "boxes"), note));
}

void write_changed(const Comparison& c, const Write& write) {
  if (c.changed.empty()) return;
  write("## Changed boxes\n\nNothing is open on them above advice, and they are not as they were.\n\n");
  for (const ChangedGroup& g : changed_groups(c))
    write(fmt::format("- {}: {}{}\n", markdown_line(g.boxes), markdown_line(g.what),
                      g.asked ? "" : " (nothing had been asked for there)"));
  write("\n");
}

}  // namespace

void write_comparison_markdown(const Comparison& c, const Write& write) {
  write_markdown_head(c, write);
  for (const Outcome outcome : outcomes_in_order) write_outcome(c, outcome, write);
  write_ids("Boxes taken off the plan", c.dropped_boxes,
            " Whether they were taken down, the later report does not tell.", write);
  write_ids("New boxes", c.new_boxes, "", write);
  write_changed(c, write);
  write(markdown(caution()) + "\n");
}

}  // namespace boxproof::report
