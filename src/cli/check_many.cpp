// Many designs, side by side.
#include <fmt/format.h>

#include <optional>
#include <sstream>

#include "boxproof/run_report.hpp"
#include "src/cli/check_run.hpp"
#include "src/cli/files.hpp"
#include "src/cli/run_remarks.hpp"
#include "src/cli/run_reports.hpp"
#include "src/report/layout.hpp"
#include "src/text/in_order.hpp"

namespace boxproof::cli {
namespace {

// What came of one design, ready to be told.
struct Told {
  bool skipped = false;
  std::string why;  // it was skipped
  std::optional<InputError> unread;
  RunTotals totals;
  std::vector<RunPiece> pieces;  // one an output
  std::vector<EntryUse> exceptions;
};

}  // namespace

void expect_many(const Options& o) {
  if (!o.record.empty())
    throw WrongUse("found --asbuilt with more than one design, expected one: a field record is of one site");
  if (!o.boxes.empty())
    throw WrongUse("found --box with more than one design, expected one: ids of boxes are those of one site");
}

int check_many(const Options& o, const std::vector<DesignInput>& designs, const std::vector<Output>& outputs,
               Console& console) {
  expect_many(o);
  const auto others = std::make_shared<Others>();
  load_others(o, console, *others);
  std::vector<std::unique_ptr<RunReport>> reports;
  std::vector<std::unique_ptr<Target>> targets;
  for (const Output& output : outputs) {
    reports.push_back(run_report(output.format, wants_colour(o, console)));
    targets.push_back(std::make_unique<Target>(output.path, console.out));
  }
  const bool show_work = wants_work(o, outputs);

  const auto tell_of = [&](const RunDesign& design, Told& told) {
    for (const auto& report : reports) told.pieces.push_back(report->piece(design));
  };
  const auto judge_one = [&](const DesignInput& input, Told& told) {
    told.why = judge_input(o, input, others, console, show_work, [&](const Case& c, Judgement judgement) {
      told.exceptions = take_out_idle(judgement);
      add_to(told.totals, judgement);
      const ReportInput report{c.design, nullptr, c.edition, judgement, c.overrides, o.show_work};
      tell_of({input.path, &report, nullptr}, told);
    });
    told.skipped = !told.why.empty();
  };
  const auto make = [&](std::size_t i, Told& told) {
    told = Told();
    try {
      judge_one(designs[i], told);
    } catch (const InputError& e) {
      told.unread = e;
      tell_of({designs[i].path, nullptr, &e}, told);
    }
  };
  RunTotals totals;
  std::optional<ExceptionsOverRun> exceptions;
  if (others->exceptions) exceptions.emplace(*others->exceptions);
  const auto take = [&](Told& told) {
    if (told.skipped) {
      ++totals.skipped;
      return;
    }
    if (told.unread) {
      ++totals.unread;
      tell(*told.unread, console);
    }
    if (exceptions) exceptions->add(told.exceptions);
    totals.designs += told.totals.designs;
    for (std::size_t i = 0; i < totals.counts.size(); ++i) {
      totals.counts[i] += told.totals.counts[i];
      totals.known[i] += told.totals.known[i];
    }
    for (std::size_t i = 0; i < outputs.size(); ++i)
      reports[i]->take(std::move(told.pieces[i]), [&](std::string_view text) { targets[i]->write(text); });
  };
  text::in_order<Told>(designs.size(), make, take);
  totals.remarks = run_remarks(o, designs, *others, exceptions);
  for (const std::string& remark : totals.remarks) console.err << report::plain(remark) << "\n";
  for (std::size_t i = 0; i < outputs.size(); ++i) {
    reports[i]->finish(totals, [&](std::string_view text) { targets[i]->write(text); });
    targets[i]->finish();
  }
  if (totals.unread > 0) return bad_input;
  return status_of(fresh_counts(totals), o.fail_on);
}

}  // namespace boxproof::cli
