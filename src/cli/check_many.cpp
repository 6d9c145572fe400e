// Many designs, side by side.
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <ostream>

#include "boxproof/run_report.hpp"
#include "src/cli/check_run.hpp"
#include "src/cli/files.hpp"
#include "src/cli/run_remarks.hpp"
#include "src/cli/run_reports.hpp"
#include "src/rules/notes.hpp"
#include "src/text/in_order.hpp"

namespace boxproof::cli {
namespace {

// What came of one design, ready to be told.
struct Told {
  std::string why_skipped;  // empty: it was not
  std::optional<InputError> unread;
  RunTotals totals;
  std::vector<RunPiece> pieces;  // one an output that holds all designs
  std::vector<EntryUse> exceptions;
};

// An output that holds all designs.
struct Whole {
  std::unique_ptr<RunReport> report;
  std::unique_ptr<Target> target;
  void write(std::string_view text) { target->write(text); }
};

class Run {
 public:
  Run(const Options& o, const std::vector<DesignInput>& designs, const std::vector<Output>& outputs,
      const Targets& targets, Console& console)
      : o_(o),
        designs_(designs),
        outputs_(outputs),
        targets_(targets),
        console_(console),
        progress_(console) {}

  int go() {
    open();
    load_others(o_, console_, *others_);
    if (others_->exceptions) exceptions_.emplace(*others_->exceptions);
    read_standard_input();
    constexpr std::size_t ahead = 16;  // designs a core: one large one does not stop those behind it
    const ProgressHook progress = progress_.stage("checking", "designs");
    std::size_t come = 0;
    const auto take_next = [&](Told& told) {
      take(designs_[come++], told);
      if (console_.out_is_terminal) console_.out.flush();  // the line stands below what was written
      if (progress) progress(come, designs_.size());
    };
    text::in_order<Told>(designs_.size(), [this](std::size_t i, Told& told) { make(i, told); }, take_next,
                         {0, ahead});
    tell_empty_arguments();
    progress_.clear();
    totals_.remarks = run_remarks(o_, designs_, *others_, exceptions_);
    for (const std::string& remark : totals_.remarks) say(remark);
    for (Whole& whole : wholes_) {
      whole.report->finish(totals_, [&](std::string_view text) { whole.write(text); });
      whole.target->finish();
    }
    return status();
  }

 private:
  void open() {
    for (const Output& output : outputs_) {
      if (output.is_folder()) continue;
      auto report = run_report(output.format, o_, wants_colour(o_, console_, output.path));
      if (!report)
        throw WrongUse(fmt::format(
            "found {} of more than one design for {}, expected a folder, with a page a design in it: {}",
            output.format, output.path.empty() ? "standard output" : output.path, folder_example(output)));
      wholes_.push_back({std::move(report), std::make_unique<Target>(output.path, console_.out)});
    }
  }

  std::string folder_example(const Output& output) const {
    const std::string folder = output.path.empty() ? "reports/" : output.path + "/";
    return &output == &outputs_.front() ? fmt::format("--format {} --output {}", output.format, folder)
                                        : fmt::format("--report {}={}", output.format, folder);
  }

  // It is there once, and for one thread.
  void read_standard_input() {
    for (DesignInput& design : designs_)
      if (design.path == "-") design.text = std::make_shared<Document>(read_file("-", console_.in));
  }

  // On whatever thread.
  void make(std::size_t i, Told& told) {
    told = Told();
    const DesignInput& input = designs_[i];
    try {
      told.why_skipped = judge_input(
          o_, input, others_, console_, wants_work(o_, outputs_), [&](const Case& c, Judgement j) {
            targets_.keep(c.amendments_text.name);
            told.exceptions = take_out_idle(j);
            add_to(told.totals, j);
            const ReportInput report{c.design, nullptr, c.edition, j, c.overrides, o_.show_work};
            tell_of({c.design_text.name, &report, nullptr}, told);
          });
    } catch (const InputError& e) {
      not_read(shown_path(input.path), e, told);
    }
  }

  void not_read(std::string_view path, const InputError& e, Told& told) {
    told = Told();
    told.unread = e;
    told.totals.unread = 1;
    tell_of({path, nullptr, &*told.unread}, told);
  }

  void tell_of(const RunDesign& design, Told& told) {
    for (const Whole& whole : wholes_) told.pieces.push_back(whole.report->piece(design));
    for (const Output& output : outputs_)
      if (output.is_folder()) write_alone(output, o_, design, console_);
  }

  void take(const DesignInput& input, Told& told) {
    if (!told.why_skipped.empty()) {
      ++totals_.skipped;
      arguments_.add_skipped(input);
      if (o_.verbose) say(fmt::format("{}: skipped: {}", input.path, told.why_skipped));
      return;
    }
    arguments_.add_design(input);
    take(shown_path(input.path), told);
  }

  void take(std::string_view path, Told& told) {
    if (told.unread) {
      progress_.clear();
      console_.out.flush();  // a log has both streams in the order of the run
      tell(*told.unread, console_);
      say(fmt::format("{}: {}, not judged", path, counted(told.unread->total(), "problem", "problems")));
    }
    if (exceptions_) exceptions_->add(told.exceptions);
    add_to(totals_, told.totals);
    progress_.clear();
    for (std::size_t i = 0; i < wholes_.size(); ++i)
      wholes_[i].report->take(std::move(told.pieces[i]),
                              [&](std::string_view text) { wholes_[i].write(text); });
  }

  void say(const std::string& text) {
    progress_.clear();
    cli::say(text, console_);
  }

  void tell_empty_arguments() {
    for (const auto& [argument, error] : arguments_.without_design()) {
      Told told;
      not_read(argument, error, told);
      take(argument, told);
    }
  }

  int status() {
    if (totals_.unread == 0) return status_of(fresh_counts(totals_), o_.fail_on);
    say(totals_.designs == 0 ? "boxproof: nothing was judged"
                             : fmt::format("boxproof: {} judged, {} not",
                                           counted(totals_.designs, "design", "designs"), totals_.unread));
    return bad_input;
  }

  const Options& o_;
  std::vector<DesignInput> designs_;
  const std::vector<Output>& outputs_;
  const Targets& targets_;
  Console& console_;
  Progress progress_;
  std::shared_ptr<Others> others_ = std::make_shared<Others>();
  std::optional<ExceptionsOverRun> exceptions_;
  std::vector<Whole> wholes_;
  RunTotals totals_;
  ArgumentsUsed arguments_{o_.designs};
};

}  // namespace

void expect_many(const Options& o) {
  const auto expect_one = [](std::string_view option, std::string_view why) {
    throw WrongUse(
        fmt::format("found {} with a folder, a pattern or more than one design, expected one design file: {}",
                    option, why));
  };
  if (!o.record.empty()) expect_one("--asbuilt", "a field record is of one site");
  if (!o.boxes.empty()) expect_one("--box", "ids of boxes are those of one site");
}

int check_many(const Options& o, const std::vector<DesignInput>& designs, const std::vector<Output>& outputs,
               const Targets& targets, Console& console) {
  expect_many(o);
  return Run(o, designs, outputs, targets, console).go();
}

}  // namespace boxproof::cli
