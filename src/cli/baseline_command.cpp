// baseline: today's findings written down.
#include <fmt/format.h>

#include <iterator>
#include <ostream>

#include "src/cli/check_run.hpp"
#include "src/cli/design_path.hpp"
#include "src/cli/files.hpp"
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

class Writing {
 public:
  Writing(const Options& o, std::vector<DesignInput> designs, const Targets& targets, Console& console)
      : o_(o), designs_(std::move(designs)), targets_(targets), console_(console), progress_(console) {}

  int go() {
    baseline_.date = day_of(o_, console_);
    baseline_.reason = o_.reason;
    load_others(o_, console_, *others_);
    const ProgressHook hook = progress_.stage("judging", "designs");
    std::size_t come = 0;
    const auto take_next = [&](Entries& out) {
      take(designs_[come++], out);
      if (hook) hook(come, designs_.size());
    };
    text::in_order<Entries>(
        designs_.size(), [this](std::size_t i, Entries& out) { make(designs_[i], out); }, take_next);
    progress_.clear();
    for (const auto& [argument, error] : arguments_.without_design()) not_read(error);
    return unread_ > 0 ? give_up() : write();
  }

 private:
  // On whatever thread.
  void make(const DesignInput& input, Entries& out) const {
    out = Entries();
    try {
      out.why_skipped =
          judge_input(o_, input, others_, console_, false, [&](const Case& c, const Judgement& j) {
            targets_.keep(c.amendments_text.name);
            out.entries = entries_of(j, path_in_baseline(o_, c.design_text.name));
            out.hazards = j.counts[static_cast<std::size_t>(Severity::hazard)];
          });
    } catch (const InputError& e) {
      out.unread = e;
    }
  }

  void take(const DesignInput& input, Entries& out) {
    if (!out.why_skipped.empty()) {
      if (o_.verbose) say(fmt::format("{}: skipped: {}", input.path, out.why_skipped));
      return;
    }
    arguments_.add_design(input);
    if (out.unread) not_read(*out.unread);
    hazards_ += out.hazards;
    baseline_.entries.insert(baseline_.entries.end(), std::make_move_iterator(out.entries.begin()),
                             std::make_move_iterator(out.entries.end()));
  }

  void not_read(const InputError& e) {
    progress_.clear();
    tell(e, console_);
    ++unread_;
  }

  void say(const std::string& line) {
    progress_.clear();
    cli::say(line, console_);
  }

  int give_up() {
    say(fmt::format("boxproof: {} not judged; nothing was written",
                    counted(unread_, "design was", "designs were")));
    return bad_input;
  }

  int write() {
    Target target(o_.output, console_.out);
    write_baseline(baseline_, [&target](std::string_view text) { target.write(text); });
    target.finish();
    if (hazards_ > 0)
      say(fmt::format(
          "boxproof: {} left out: a hazard is never on a baseline; only an agreed exception sets one aside",
          counted(hazards_, "hazard was", "hazards were")));
    return done;
  }

  const Options& o_;
  std::vector<DesignInput> designs_;
  const Targets& targets_;
  Console& console_;
  Progress progress_;
  std::shared_ptr<Others> others_ = std::make_shared<Others>();
  Baseline baseline_;
  std::size_t hazards_ = 0, unread_ = 0;
  ArgumentsUsed arguments_{o_.designs};
};

}  // namespace

int baseline_command(const Options& options, Console& console) {
  Options o = options;
  o.baseline.clear();  // the one that is replaced
  expect_designs(o);
  if (o.reason.find_first_not_of(" \t\r\n") == std::string::npos)
    throw WrongUse("found an empty --reason, expected why these findings stay for now");
  check_inputs(o);
  std::vector<DesignInput> designs = find_designs(o.designs);
  if (!is_one(o, designs)) expect_many(o);
  const Targets targets({{"baseline", o.output}}, designs);
  for (const std::string* input : {&o.record, &o.exceptions, &o.amendments}) targets.keep(*input);
  targets.leave_out(designs);
  return Writing(o, std::move(designs), targets, console).go();
}

}  // namespace boxproof::cli
