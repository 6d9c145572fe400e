// check and box: a design judged.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/report.hpp"
#include "src/cli/case.hpp"
#include "src/cli/commands.hpp"
#include "src/cli/files.hpp"
#include "src/cli/progress.hpp"

namespace boxproof::cli {
namespace {

// Everything judged, and what is agreed set aside. A page always holds the workings, closed.
Judgement judgement_of(const Options& o, const Case& c, const Console& console, Progress& progress) {
  Judgement j = check(c.design, c.edition, c.record ? &*c.record : nullptr,
                      {o.boxes, o.show_work || o.format == "html", progress.stage("judging")});
  if (c.exceptions) apply_exceptions(j, c.design.design, *c.exceptions, exceptions_day(o, c, console));
  return j;
}

using Writer = void (*)(const ReportInput&, const Write&);
Writer writer(std::string_view format) {
  if (format == "json") return write_json;
  if (format == "html") return write_html;
  if (format == "markdown") return write_markdown;
  return write_text;
}

}  // namespace

bool wants_colour(const Options& o, const Console& console) {
  if (o.color != "auto") return o.color == "always";
  if (!o.output.empty() || !console.out_is_terminal) return false;
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

int check_command(const Options& o, Console& console) {
  Case c;
  Progress progress(console);
  load(o, console, c, progress.stage("reading"));
  expect_boxes(o, c.design.design);
  const RecordFile* record = c.record ? &*c.record : nullptr;
  const Judgement judgement = judgement_of(o, c, console, progress);
  Target target(o.output, console.out);
  const ReportInput report{c.design,
                           record,
                           c.edition,
                           judgement,
                           c.overrides,
                           o.show_work,
                           wants_colour(o, console),
                           progress.writing(o.output)};
  const Write write = [&target](std::string_view text) { target.write(text); };
  writer(o.format)(report, write);
  target.finish();
  return status_of(judgement.counts, o.fail_on);
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
  const RecordFile* record = c.record ? &*c.record : nullptr;
  const Judgement judgement = judgement_of(o, c, console, progress);
  progress.clear();
  const auto& result = judgement.boxes[static_cast<std::size_t>(found - ids.begin())];
  Target target(o.output, console.out);
  write_box({c.design, record, c.edition, judgement, c.overrides, o.show_work, wants_colour(o, console)},
            result, [&target](std::string_view text) { target.write(text); });
  target.finish();
  return done;
}

}  // namespace boxproof::cli
