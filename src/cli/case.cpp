#include "src/cli/case.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>

#include "boxproof/check.hpp"
#include "src/cli/files.hpp"
#include "src/rules/notes.hpp"
#include "src/text/nearest.hpp"

namespace boxproof::cli {
namespace {

// A path in a file is relative to that file.
std::string beside(const std::string& file, const std::string& path) {
  if (path.starts_with("/")) return path;
  const auto folder = file == "<stdin>" ? std::string::npos : file.rfind('/');
  const std::string here =
      path == "-" ? "./-" : path;  // "-" is a name in a file, and standard input on the command line
  return folder == std::string::npos ? here : file.substr(0, folder + 1) + path;
}

void override_temperature(std::optional<Celsius>& stated, std::optional<double> given, std::string_view key,
                          const std::string& by, Case& c) {
  if (!given) return;
  const std::string before =
      stated ? fmt::format("the file says {} °C", shown(*stated)) : "the file states none";
  c.overrides.push_back(fmt::format("site.{} is {} °C ({}{})", key, shown(*given), before, by));
  stated = Celsius(*given);
}

void keep_input(const Options& o, const std::string& input) {
  if (input.empty() || input == "-") return;
  const auto keep = [&](const std::string& option, const std::string& output) {
    if (!output.empty() && same_file(output, input))
      throw WrongUse(fmt::format("found {}, which is the input {}, expected another file: it would be lost",
                                 option, input));
  };
  keep("--output " + o.output, o.output);
  for (const std::string& report : o.reports) keep("--report " + report, report.substr(report.find('=') + 1));
}

// The day on which agreed exceptions must be in force.
ExceptionDay exceptions_day(const Options& o, const Others& others, const Console& console) {
  if (const auto given = parse_date(o.on)) return {*given, DayFrom::command_line};
  if (others.record)
    if (const auto visit = parse_date(others.record->record.date)) return {*visit, DayFrom::visit};
  if (!console.today) throw WrongUse("found no clock that says today's date, expected --on YYYY-MM-DD");
  return {console.today(), DayFrom::today};
}

// What a settings file put there says so.
std::string by(const Options& o, std::string_view key) {
  const auto& keys = o.by_settings;
  const bool is_set = std::find(keys.begin(), keys.end(), key) != keys.end();
  return is_set ? "; by " + o.settings : std::string();
}

}  // namespace

void check_inputs(const Options& o) {
  const bool among_many = std::find(o.designs.begin(), o.designs.end(), "-") != o.designs.end();
  const std::string design = among_many ? "-" : o.design;
  const std::pair<std::string_view, const std::string&> inputs[] = {
      {"design", design},       {"field record", o.record},   {"agreed exceptions", o.exceptions},
      {"baseline", o.baseline}, {"amendments", o.amendments}, {"report", o.again}};
  std::string_view before;
  for (const auto& [what, path] : inputs) {
    if (path != "-") continue;
    if (!before.empty())
      throw WrongUse(fmt::format(
          "found - for both the {} and the {}, expected it once: there is one standard input", before, what));
    before = what;
  }
}

void keep_inputs(const Options& o) {
  for (const std::string* input : {&o.design, &o.record, &o.exceptions, &o.amendments, &o.before, &o.after,
                                   &o.again, &o.schedule, &o.site})
    keep_input(o, *input);
  if (o.command != "baseline") keep_input(o, o.baseline);  // which writes one anew
  for (const std::string& input : o.designs) keep_input(o, input);
}

void load_others(const Options& o, Console& console, Others& others, const ProgressHook& progress) {
  if (!o.record.empty()) {
    others.record_text = read_file(o.record, console.in);
    others.record = read_field_record(others.record_text, progress);
  }
  if (!o.exceptions.empty()) {
    others.exceptions_text = read_file(o.exceptions, console.in);
    others.exceptions = read_exceptions(others.exceptions_text);
    others.exceptions_day = exceptions_day(o, others, console);
  }
  if (!o.baseline.empty()) {
    others.baseline_text = read_file(o.baseline, console.in);
    others.baseline = read_baseline(others.baseline_text);
  }
  if (!o.amendments.empty()) others.amendments_text = read_file(o.amendments, console.in);
}

void load_design(Document text, Case& c, const ProgressHook& progress) {
  c.design_text = std::move(text);
  c.design = read_design(c.design_text, progress);
}

void choose_edition(const Options& o, std::istream& in, Case& c) {
  Design& design = c.design.design;
  std::string edition = design.edition;
  if (!o.edition.empty() && o.edition != edition) {
    c.overrides.push_back(
        fmt::format("code.edition is {} (the file says {}{})", o.edition, edition, by(o, "edition")));
    edition = o.edition;
  }
  Amendments amendments{&c.design_text, design.amendments_offset};
  bool amended = design.amendments_offset || !design.amendments_path.empty();
  if (!o.amendments.empty()) {
    c.overrides.push_back(fmt::format("code.amendments are those of {} ({}{})", o.amendments,
                                      amended ? "in place of the file's" : "the file states none",
                                      by(o, "amendments")));
    amendments = {&c.others->amendments_text, std::nullopt};
    amended = true;
  } else if (!design.amendments_path.empty()) {
    const std::string path = beside(c.design_text.name, design.amendments_path);
    keep_input(o, path);
    c.amendments_text = read_file(path, in);
    amendments.document = &c.amendments_text;
  }
  c.edition = load_edition(edition, amended ? &amendments : nullptr);
  override_temperature(design.site.low, o.low, "low_c", by(o, "low_c"), c);
  override_temperature(design.site.high, o.high, "high_c", by(o, "high_c"), c);
}

void load(const Options& o, Console& console, Case& c, const ProgressHook& progress) {
  check_inputs(o);
  load_design(read_file(o.design, console.in), c, progress);
  load_others(o, console, *c.others, progress);
  choose_edition(o, console.in, c);
}

std::vector<std::string_view> box_ids(const Design& design) {
  std::vector<std::string_view> ids;
  for (const Combiner& box : design.combiners) ids.emplace_back(box.id);
  return ids;
}

std::string nearest_boxes(std::string_view id, const Design& design) {
  const std::vector<std::string_view> ids = box_ids(design);
  constexpr std::size_t few = 3;
  return fmt::format("the nearest ids are {}", fmt::join(text::nearest_few(id, ids, few), ", "));
}

void expect_boxes(const Options& o, const Design& design) {
  for (const std::string& pattern : o.boxes) {
    const auto& boxes = design.combiners;
    const bool on_plan =
        std::any_of(boxes.begin(), boxes.end(), [&](const Combiner& b) { return matches(pattern, b.id); });
    if (!on_plan)
      throw WrongUse(fmt::format("found no box that matches \"{}\", expected at least one; {}", pattern,
                                 nearest_boxes(pattern, design)));
  }
}

}  // namespace boxproof::cli
