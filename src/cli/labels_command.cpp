#include <deque>
#include <map>

#include "boxproof/check.hpp"
#include "src/cli/case.hpp"
#include "src/cli/commands.hpp"
#include "src/cli/files.hpp"
#include "src/cli/progress.hpp"
#include "src/report/labels.hpp"

namespace boxproof::cli {

int labels_command(const Options& o, Console& console) {
  Case c;
  Progress progress(console);
  load(o, console, c, progress.stage("reading"));
  const Design& design = c.design.design;
  expect_boxes(o, design);
  report::LabelReport r{design, c.edition, {}, o.boxes.empty(), c.overrides};
  r.progress = progress.writing(o.output);
  std::map<std::string_view, const VisitedBox*> visited;
  if (c.others->record) {
    r.basis = Basis::as_built;
    for (const VisitedBox& box : c.others->record->record.boxes) visited.emplace(box.id, &box);
  }
  std::deque<FoundBox> found;  // boxes as found, which the report points to
  for (const Combiner& box : design.combiners) {
    if (!is_chosen(o.boxes, box.id)) continue;
    const auto visit = visited.find(box.id);
    if (visit == visited.end()) {
      r.boxes.push_back(&box);
      continue;
    }
    FoundBox& own = found.emplace_back();
    own.box = as_built(box, *visit->second, own.parts);
    own.box.labels = box.labels;  // what to have made is what the plan calls for, not what hangs there
    r.boxes.push_back(&own.box);
    ++r.visited;
  }
  Target target(o.output, console.out);
  const Write write = [&target](std::string_view text) { target.write(text); };
  if (o.format == "csv")
    report::write_labels_csv(r, write);
  else if (o.format == "json")
    report::write_labels_json(r, write);
  else
    report::write_labels_text(r, write);
  target.finish();
  return done;
}

}  // namespace boxproof::cli
