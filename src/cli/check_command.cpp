// check and box: a design judged.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/report.hpp"
#include "src/cli/check_run.hpp"
#include "src/cli/files.hpp"

namespace boxproof::cli {

bool wants_colour(const Options& o, const Console& console, const std::string& output) {
  if (o.color != "auto") return o.color == "always";
  if (!output.empty() || !console.out_is_terminal) return false;
  const auto no_color = console.environment("NO_COLOR");
  if (no_color && !no_color->empty()) return false;
  return console.environment("TERM").value_or("") != "dumb";
}

int status_of(const std::array<std::size_t, severity_names.size()>& counts, std::string_view fail_on) {
  for (std::size_t i = 0; i < severity_names.size(); ++i) {
    if (counts[i] > 0) return found_something;
    if (severity_names[i] == fail_on) break;
  }
  return done;
}

void expect_designs(const Options& o) {
  if (o.designs.empty())
    throw WrongUse(fmt::format(
        "found no DESIGN, expected a design file, a folder or a pattern; see boxproof {} --help", o.command));
}

bool is_one(const Options& o, const std::vector<DesignInput>& designs) {
  return o.designs.size() == 1 && designs.size() == 1 && designs.front().named && !designs.front().unread;
}

int check_command(const Options& o, Console& console) {
  expect_designs(o);
  check_inputs(o);
  const std::vector<Output> outputs = outputs_of(o);
  std::vector<DesignInput> designs = find_designs(o.designs);
  const Targets targets(outputs, designs);
  for (const std::string* input : {&o.record, &o.exceptions, &o.baseline, &o.amendments})
    targets.keep(*input);
  if (o.formats) targets.expect_under(*o.formats);
  targets.leave_out(designs);
  return is_one(o, designs) ? check_one(o, outputs, targets, console)
                            : check_many(o, designs, outputs, targets, console);
}

int box_command(const Options& o, Console& console) {
  Case c;
  Progress progress(console);
  load(o, console, c, progress.stage("reading"));
  const auto ids = box_ids(c.design.design);
  const auto found = std::find(ids.begin(), ids.end(), o.id);
  if (found == ids.end())
    throw WrongUse(
        fmt::format("found no box \"{}\" on the plan; {}", o.id, nearest_boxes(o.id, c.design.design)));
  const RecordFile* record = c.others->record ? &*c.others->record : nullptr;
  const Judgement judgement = judge(o, c, o.show_work, progress.stage("judging"));
  progress.clear();
  const auto& result = judgement.boxes[static_cast<std::size_t>(found - ids.begin())];
  Target target(o.output, console.out);
  write_box(
      {c.design, record, c.edition, judgement, c.overrides, o.show_work, wants_colour(o, console, o.output)},
      result, [&target](std::string_view text) { target.write(text); });
  target.finish();
  return done;
}

}  // namespace boxproof::cli
