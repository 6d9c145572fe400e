// baseline: today's findings written down.
#include <fmt/format.h>

#include <exception>
#include <optional>

#include "src/cli/check_run.hpp"
#include "src/cli/design_path.hpp"
#include "src/cli/files.hpp"
#include "src/report/layout.hpp"
#include "src/rules/notes.hpp"
#include "src/text/in_order.hpp"
#include "src/text/utf8.hpp"

namespace boxproof::cli {
namespace {

// What came of one design.
struct Entries {
  std::string why_skipped;  // empty: it was not
  std::vector<BaselineEntry> entries;
  std::size_t hazards = 0;
  std::optional<InputError> unread;
  std::exception_ptr failed;
};

Date day_of(const Options& o, const Console& console) {
  if (const auto given = parse_date(o.on)) return *given;
  if (!console.today) throw WrongUse("found no clock that says today's date, expected --on YYYY-MM-DD");
  return console.today();
}

std::string path_in_baseline(const Options& o, const std::string& design) {
  std::string path = path_from(o.output, design);
  if (text::invalid_utf8(path) != std::string_view::npos)
    throw WrongUse(
        fmt::format("found the path {}, which is no UTF-8, expected one that a baseline can hold", design));
  return path;
}

// Whoever names folders means that there are designs in them.
[[noreturn]] void expect_some(const Options& o) {
  std::vector<Problem> problems;
  for (const std::string& argument : o.designs)
    problems.push_back(
        {argument, 0, 0, "",
         "found no design there, expected at least one JSON file that says boxproof-design/1"});
  const std::size_t n = problems.size();
  throw InputError(std::move(problems), n);
}

void judge_for(const Options& o, const DesignInput& input, const std::shared_ptr<Others>& others,
               const Console& console, Entries& out) {
  out.why_skipped = judge_input(o, input, others, console, false, [&](const Case& c, Judgement j) {
    out.entries = entries_of(j, path_in_baseline(o, c.design_text.name));
    out.hazards = j.counts[static_cast<std::size_t>(Severity::hazard)];
  });
}

}  // namespace

int baseline_command(const Options& options, Console& console) {
  Options o = options;
  o.baseline.clear();  // the one that is replaced
  expect_designs(o);
  if (o.reason.find_first_not_of(" \t\r\n") == std::string::npos)
    throw WrongUse("found an empty --reason, expected why these findings stay for now");
  const std::vector<DesignInput> designs = find_designs(o.designs);
  if (!is_one(o, designs)) expect_many(o);
  Baseline baseline;
  baseline.date = day_of(o, console);
  baseline.reason = o.reason;
  const auto others = std::make_shared<Others>();
  load_others(o, console, *others);

  const auto make = [&](std::size_t i, Entries& out) {
    out = Entries();
    try {
      judge_for(o, designs[i], others, console, out);
    } catch (const InputError& e) {
      out.unread = e;
    } catch (...) {
      out.failed = std::current_exception();
    }
  };
  std::size_t judged = 0, hazards = 0, unread = 0;
  std::size_t come = 0;
  Progress progress(console);
  const ProgressHook hook = progress.stage("judging");
  const auto take = [&](Entries& out) {
    if (out.failed) std::rethrow_exception(out.failed);
    const std::string& path = designs[come++].path;
    if (out.unread) {
      progress.clear();
      tell(*out.unread, console);
      ++unread;
    } else if (out.why_skipped.empty()) {
      ++judged;
    } else if (o.verbose) {
      progress.clear();
      console.err << report::plain(fmt::format("{}: skipped: {}", path, out.why_skipped)) << "\n";
    }
    hazards += out.hazards;
    baseline.entries.insert(baseline.entries.end(), std::make_move_iterator(out.entries.begin()),
                            std::make_move_iterator(out.entries.end()));
    if (hook) hook(come, designs.size());
  };
  text::in_order<Entries>(designs.size(), make, take);
  progress.clear();
  if (unread > 0) {
    console.err << fmt::format("boxproof: {} could not be judged; nothing was written\n",
                               counted(unread, "design", "designs"));
    return bad_input;
  }
  if (judged == 0) expect_some(o);
  Target target(o.output, console.out);
  write_baseline(baseline, [&target](std::string_view text) { target.write(text); });
  target.finish();
  if (hazards > 0)
    console.err << fmt::format(
        "boxproof: {} left out: a hazard is never on a baseline; only an agreed exception sets one aside\n",
        counted(hazards, "hazard was", "hazards were"));
  return done;
}

}  // namespace boxproof::cli
