#include <fmt/format.h>

#include "boxproof/rule.hpp"
#include "src/report/compare.hpp"
#include "src/report/compare_words.hpp"
#include "src/report/entry.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

void write_text_head(const Comparison& c, bool colour, const Write& write) {
  const std::string left_side = fmt::format("boxproof {}", version());
  write(left_side + right("comparison", page_width - width_of(left_side)) + "\n");
  std::string name = wrap(plain(c.after->site), 0);
  name.pop_back();  // the line end stays outside the colour
  write(inked(name, Ink::strong, colour) + "\n");
  write(wrap(fmt::format("{}: {}", plain(c.before->name), report_words(*c.before)), 10, "  before  "));
  write(wrap(fmt::format("{}: {}", plain(c.after->name), report_words(*c.after)), 10, "  after   "));
  for (const std::string& remark : c.remarks) write(wrap(plain(remark), 4, "  "));
  write("\n");
}

void write_compared_verdict(const Comparison& c, bool colour, const Write& write) {
  const auto word = [&](Verdict v) { return inked(upper(name_of(v)), ink_of(v), colour); };
  // Wrapped without the colour, which has no width.
  const std::string words =
      fmt::format("VERDICT  {} → {}", upper(name_of(c.before->verdict)), upper(name_of(c.after->verdict)));
  std::string rest = wrap(verdict_words(c), 9, words + "  ");
  rest.erase(0, words.size());
  write(fmt::format("VERDICT  {} → {}", word(c.before->verdict), word(c.after->verdict)) + rest);
  if (c.nothing_changed) write("         Nothing changed between the two reports.\n");
  write(wrap(summary(c), 9, "         "));
  write(wrap("Open or new: " + counts_words(c.open_counts()), 9, "         "));
  write("\n");
}

std::string text_entry(const ComparedGroup& g, const Comparison& c, std::size_t number) {
  const Finding& f = g.group.first();
  const bool visits = c.before->basis == Basis::as_built || c.after->basis == Basis::as_built;
  const std::string_view basis = !visits ? "" : f.basis == Basis::as_built ? ", as built" : ", on the plan";
  std::string out =
      wrap(fmt::format("{} ({}{})  [{}]", f.rule->title, name_of(f.severity), basis, f.rule->id), 4,
           fmt::format("{:>3} ", number));
  const std::size_t boxes = box_count(g.group);
  if (!f.box_id.empty())
    line(out, boxes == 1 ? "box" : "boxes",
         boxes == 1 ? boxes_of(g.group) : fmt::format("{}  ({} boxes)", boxes_of(g.group), boxes));
  line(out, "part", parts_of(g.group));
  const bool now = g.first().after != nullptr;
  if (now) {
    line(out, "found", range_of(g.group, &Finding::found));
    line(out, "required", range_of(g.group, &Finding::required));
  }
  std::string_view label = "changed";
  for (const std::string& change : changes_of(g)) {
    line(out, label, change);
    label = "";
  }
  line(out, "why", reason_words(g.first(), c));
  line(out, "section", now ? plain(f.section) : std::string());
  const bool one = g.group.findings.size() == 1;
  line(out, now ? (one ? "finding" : "example") : (one ? "before" : "example"), plain(f.message));
  if (now)
    line(out, "place",
         fmt::format("{}:{}:{}{}", plain(f.place.file), f.place.line, f.place.column,
                     one ? "" : fmt::format(" (the first of {})", g.group.findings.size())));
  return out;
}

void write_outcome(const Comparison& c, Outcome outcome, bool colour, const Write& write) {
  const std::vector<ComparedGroup> groups = groups_of(c, outcome);
  if (groups.empty()) return;
  const auto [heading, meaning] = words_of(outcome);
  const std::string title = fmt::format("{} ({}): {}", heading, counts_words(c.counts(outcome)), meaning);
  std::string lines = wrap(title, 2);
  lines.pop_back();
  const Ink ink = is_open(outcome) ? ink_of(groups.front().group.first().severity) : Ink::strong;
  write(inked(lines, ink, colour) + "\n\n");
  std::size_t number = 0;
  for (const ComparedGroup& g : groups) write(text_entry(g, c, ++number) + "\n");
}

void write_ids(std::string_view heading, std::string_view meaning, const std::vector<std::string_view>& ids,
               bool colour, const Write& write) {
  if (ids.empty()) return;
  write(inked(fmt::format("{}: {}", heading, meaning), Ink::strong, colour) + "\n\n");
  write(wrap(fmt::format("{}  ({})", run_together(ids), counted(ids.size(), "box", "boxes")), 4, "    ") +
        "\n");
}

void write_changed(const Comparison& c, bool colour, const Write& write) {
  if (c.changed.empty()) return;
  write(inked("CHANGED BOXES: nothing open on them above advice, and not as they were", Ink::strong, colour) +
        "\n\n");
  for (const ChangedGroup& g : changed_groups(c)) {
    std::string out =
        wrap(g.count == 1 ? g.boxes : fmt::format("{}  ({} boxes)", g.boxes, g.count), 4, "  – ");
    line(out, "changed", g.what);
    if (!g.asked) line(out, "note", "Nothing had been asked for there.");
    write(out + "\n");
  }
}

}  // namespace

void write_comparison_text(const Comparison& c, bool colour, const Write& write) {
  write_text_head(c, colour, write);
  write_compared_verdict(c, colour, write);
  for (const Outcome outcome : outcomes_in_order) write_outcome(c, outcome, colour, write);
  write_ids("BOXES TAKEN OFF THE PLAN", "whether they were taken down, the later report does not tell",
            c.dropped_boxes, colour, write);
  write_ids("NEW BOXES", "not in the earlier report", c.new_boxes, colour, write);
  write_changed(c, colour, write);
  write(wrap(caution(), 0));
}

}  // namespace boxproof::report
