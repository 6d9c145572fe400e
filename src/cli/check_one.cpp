// One design, judged and told.
#include <algorithm>

#include "boxproof/run_report.hpp"
#include "src/cli/check_run.hpp"
#include "src/cli/design_path.hpp"
#include "src/cli/files.hpp"
#include "src/cli/run_reports.hpp"

namespace boxproof::cli {

bool wants_work(const Options& o, const std::vector<Output>& outputs) {
  return o.show_work ||
         std::any_of(outputs.begin(), outputs.end(), [](const Output& out) { return out.format == "html"; });
}

Judgement judge(const Options& o, const Case& c, bool show_work, const ProgressHook& progress) {
  const Others& others = *c.others;
  Judgement j =
      check(c.design, c.edition, others.record ? &*others.record : nullptr, {o.boxes, show_work, progress});
  if (others.exceptions)
    apply_exceptions(j, c.design.design, *others.exceptions, *others.exceptions_day,
                     path_from(o.exceptions, c.design_text.name));
  if (others.baseline)
    mark_known(j, c.design.design, *others.baseline, path_from(o.baseline, c.design_text.name));
  return j;
}

std::string judge_input(const Options& o, const DesignInput& input, const std::shared_ptr<Others>& others,
                        const Console& console, bool show_work,
                        const std::function<void(const Case&, Judgement)>& take) {
  if (input.unread) throw *input.unread;
  Document text = input.text ? *input.text : read_file(input.path, console.in);
  if (!input.named)
    if (std::string why = why_skipped(text); !why.empty()) return why;
  Case c;
  c.others = others;
  load_design(std::move(text), c);
  choose_edition(o, console.in, c);
  take(c, judge(o, c, show_work));
  return {};
}

int check_one(const Options& options, const std::vector<Output>& outputs, const Targets& targets,
              Console& console) {
  Options o = options;
  o.design = o.designs.front();
  Case c;
  Progress progress(console);
  const std::string shown(shown_path(o.design));
  try {
    load(o, console, c, progress.stage("reading"));
  } catch (const InputError& e) {
    progress.clear();
    for (const Output& output : outputs) write_alone(output, o, {shown, nullptr, &e}, console);
    throw;
  }
  targets.keep(c.amendments_text.name);
  expect_boxes(o, c.design.design);
  const Judgement judgement = judge(o, c, wants_work(o, outputs), progress.stage("judging"));
  const ReportInput report{c.design,    c.others->record ? &*c.others->record : nullptr,
                           c.edition,   judgement,
                           c.overrides, o.show_work};
  for (const Output& output : outputs)
    write_alone(output, o, {shown, &report, nullptr}, console, progress.writing(output.path));
  RunTotals totals;
  add_to(totals, judgement);
  return status_of(fresh_counts(totals), o.fail_on);
}

}  // namespace boxproof::cli
