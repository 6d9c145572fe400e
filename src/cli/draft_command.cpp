// draft and schedule: a design out of a combiner schedule and a site file, and back.
#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "src/cli/case.hpp"
#include "src/cli/commands.hpp"
#include "src/cli/design_path.hpp"
#include "src/cli/files.hpp"
#include "src/cli/progress.hpp"
#include "src/draft/column_list.hpp"
#include "src/draft/design_schedule.hpp"
#include "src/draft/read_schedule.hpp"
#include "src/draft/write_design.hpp"
#include "src/edition/embedded.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::cli {
namespace {

constexpr std::string_view starter_name = "starter/design.json";

// Amendments in a file of their own are named as seen from the file that names them: a copy of that file in
// another folder names them another way.
void move_amendments(draft::SitePart& part, const std::string& path, const std::string& from,
                     const std::string& to) {
  if (path.empty() || path.starts_with("/")) return;
  const std::string amendments = path_to(from, path), moved = path_from(to, amendments);
  if (moved != path_from(from, amendments)) set_amendments_path(part, moved);
}

// The amendments are read with every check of the design: an output must not take their place either.
void keep_amendments(const std::string& path, const std::string& from, const std::string& output) {
  if (path.empty() || output.empty()) return;
  if (same_file(output, path_to(from, path)))
    throw WrongUse(
        fmt::format("found the output {}, which has the amendments of {}, expected another file: "
                    "they would be lost",
                    output, from));
}

void write_whole(const std::string& text, const std::string& output, Console& console) {
  Target target(output, console.out);
  target.write(text);
  target.finish();
}

void write_csv(const draft::Schedule& schedule, bool every_column, Target& target) {
  std::vector<std::size_t> shown = draft::columns_in_use(schedule);
  if (every_column) {
    shown.resize(draft::columns.size());
    for (std::size_t c = 0; c < shown.size(); ++c) shown[c] = c;
  }
  draft::write_schedule_csv(schedule, shown, [&target](std::string_view text) { target.write(text); });
}

void write_starter(const Options& o, Console& console) {
  const Document starter{"the starter", std::string(embedded(starter_name))};
  if (o.format != "csv") return write_whole(starter.text, o.output, console);
  Target target(o.output, console.out);
  write_csv(draft::schedule_of(starter).schedule, true, target);
  target.finish();
}

bool is_given(const Options& o, std::string_view option) {
  return std::find(o.given.begin(), o.given.end(), option) != o.given.end();
}

// What the options leave to be said, or say twice.
void check_use(const Options& o) {
  const bool whole = !o.blank && !o.list_columns;
  if (o.blank && o.list_columns) throw WrongUse("found --columns with --blank, expected one of the two");
  if (!whole && (!o.schedule.empty() || !o.site.empty()))
    throw WrongUse(fmt::format("found {} with {}, expected one of the two", o.blank ? "--blank" : "--columns",
                               o.schedule.empty() ? "--site" : "a schedule"));
  if (is_given(o, "format") && !o.blank)
    throw WrongUse("found --format without --blank, expected both: a schedule and a site make a design");
  if (whole && o.schedule.empty())
    throw WrongUse(
        "SCHEDULE is required; boxproof draft --blank writes a starter; see boxproof draft --help");
  if (whole && o.site.empty())
    throw WrongUse("--site FILE is required: what a schedule has no columns for; see boxproof draft --help");
  if (o.schedule == "-" && o.site == "-")
    throw WrongUse(
        "found - for both the schedule and the site file, expected it once: there is one standard input");
}

void draft_design(const Options& o, Console& console) {
  const Document site_text = read_file(o.site, console.in);
  Design site = read_site(site_text);
  const std::string amendments = site.amendments_path;
  keep_amendments(amendments, o.site, o.output);
  const Document schedule_text = read_file(o.schedule, console.in);
  Progress progress(console);
  const draft::Schedule schedule =
      draft::read_schedule(schedule_text, std::move(site), progress.stage("reading"));
  draft::SitePart part = draft::site_part(site_text);
  move_amendments(part, amendments, o.site, o.output);
  const Document made{"the design that was made", draft::design_text(schedule, part)};
  read_design(made, progress.stage("checking"));  // what is written is read without a problem
  progress.clear();
  write_whole(made.text, o.output, console);
}

// An output that would take the place of an input, or of the other output.
void check_outputs(const Options& o, const std::string& site_output) {
  if (site_output.empty()) return;
  if (o.design != "-" && same_file(site_output, o.design))
    throw WrongUse(
        fmt::format("found --site {}, which is the input {}, expected another file: it would be lost",
                    site_output, o.design));
  if (site_output == o.output || (!o.output.empty() && same_file(site_output, o.output)))
    throw WrongUse(
        fmt::format("found {} for both --output and --site, expected a file for each", site_output));
}

// What the schedule and the site file have no place for is told, as nobody sees it missing.
void tell_left_out(const draft::DesignSchedule& made, Console& console) {
  if (made.notes > 0)
    console.err << fmt::format(
        "boxproof: {} on boxes or box types left out: a schedule has no column for them\n",
        counted(made.notes, "note", "notes"));
  if (made.unused_types > 0)
    console.err << fmt::format("boxproof: {} left out that no box is of\n",
                               counted(made.unused_types, "box type", "box types"));
}

// Says of wrong inputs what did not happen to them.
template <class Make>
int making(Console& console, Make&& make) {
  try {
    make();
    return done;
  } catch (const InputError& e) {
    tell(e, console);
    console.err << fmt::format("boxproof: {}; nothing was written\n",
                               counted(e.total(), "problem with the input", "problems with the input"));
    return bad_input;
  }
}

void write_schedule(const Options& o, Console& console) {
  const Document text = read_file(o.design, console.in);
  Progress progress(console);
  const DesignFile design = read_design(text, progress.stage("reading"));
  const std::string& amendments = design.design.amendments_path;
  for (const std::string& output : {o.output, o.site_output}) keep_amendments(amendments, o.design, output);
  const draft::DesignSchedule made = draft::schedule_of(text, progress.stage("converting"));
  progress.clear();
  Target target(o.output, console.out);
  write_csv(made.schedule, false, target);
  if (!o.site_output.empty()) {
    draft::SitePart part = draft::site_part(text);
    move_amendments(part, amendments, o.design, o.site_output);
    write_whole(draft::site_text(part), o.site_output, console);
  }
  target.finish();
  tell_left_out(made, console);
}

}  // namespace

int draft_command(const Options& o, Console& console) {
  check_use(o);
  if (o.list_columns) {
    Target target(o.output, console.out);
    draft::write_column_list([&target](std::string_view text) { target.write(text); });
    target.finish();
    return done;
  }
  if (o.blank) {
    write_starter(o, console);
    return done;
  }
  return making(console, [&] { draft_design(o, console); });
}

int schedule_command(const Options& o, Console& console) {
  check_outputs(o, o.site_output);
  return making(console, [&] { write_schedule(o, console); });
}

}  // namespace boxproof::cli
