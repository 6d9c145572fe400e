// One design, judged and told.
#include <algorithm>

#include "boxproof/run_report.hpp"
#include "src/cli/check_run.hpp"
#include "src/cli/design_path.hpp"
#include "src/cli/files.hpp"
#include "src/cli/run_reports.hpp"

namespace boxproof::cli {
namespace {

using Writer = void (*)(const ReportInput&, const Write&);

// The formats that have a report of one design, written as it is made.
Writer writer(std::string_view format) {
  if (format == "json") return write_json;
  if (format == "html") return write_html;
  if (format == "markdown") return write_markdown;
  return format == "text" ? write_text : nullptr;
}

}  // namespace

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
  Document text = read_file(input.path, console.in);
  if (!input.named)
    if (std::string why = why_skipped(text); !why.empty()) return why;
  Case c;
  c.others = others;
  load_design(std::move(text), c);
  choose_edition(o, console.in, c);
  take(c, judge(o, c, show_work));
  return {};
}

int check_one(const Options& options, const std::vector<Output>& outputs, Console& console) {
  Options o = options;
  o.design = o.designs.front();
  Case c;
  Progress progress(console);
  RunTotals totals;
  const auto write_runs = [&](const RunDesign& design) {  // of the formats that tell of whole runs
    for (const Output& output : outputs) {
      if (writer(output.format) != nullptr) continue;
      write_run(output, o, {&design, 1}, totals, console);
    }
  };
  try {
    load(o, console, c, progress.stage("reading"));
  } catch (const InputError& e) {
    totals.unread = 1;
    write_runs({o.design, nullptr, &e});
    throw;
  }
  expect_boxes(o, c.design.design);
  const bool show_work = wants_work(o, outputs);
  const Judgement judgement = judge(o, c, show_work, progress.stage("judging"));
  for (const Output& output : outputs) {
    const Writer write = writer(output.format);
    if (write == nullptr) continue;
    const std::string path = output.is_folder() ? path_in(output, c.design_text.name) : output.path;
    const ReportInput report{c.design,
                             c.others->record ? &*c.others->record : nullptr,
                             c.edition,
                             judgement,
                             c.overrides,
                             o.show_work,
                             wants_colour(o, console),
                             progress.writing(path)};
    Target target(path, console.out);
    write(report, [&target](std::string_view text) { target.write(text); });
    target.finish();
  }
  add_to(totals, judgement);
  const ReportInput report{c.design,    c.others->record ? &*c.others->record : nullptr,
                           c.edition,   judgement,
                           c.overrides, o.show_work};
  write_runs({c.design_text.name, &report, nullptr});
  return status_of(fresh_counts(totals), o.fail_on);
}

}  // namespace boxproof::cli
