// tally: the field sheet for all boxes of a plan, some of them, a sample, or those to be looked at again.
#include <fmt/format.h>

#include <ostream>

#include "boxproof/check.hpp"
#include "src/cli/case.hpp"
#include "src/cli/commands.hpp"
#include "src/cli/files.hpp"
#include "src/cli/progress.hpp"
#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "src/report/tally.hpp"
#include "src/report/tally_again.hpp"
#include "src/report/tally_choice.hpp"

namespace boxproof::cli {
namespace {

bool is_sampled(const Options& o) {
  return o.sample || !o.plan.empty();
}

// How much of a lot the command line asks for.
SampleSize size_of_sample(const Options& o, const SamplingPlan* plan, std::size_t lot) {
  SampleSize size;
  size.boxes = o.sample.value_or(0);
  if (plan != nullptr) {
    const SamplingPlan::Band* band = plan->band(static_cast<std::uint32_t>(lot));
    size.boxes = band != nullptr ? band->size : lot;
  }
  size.thinnest = o.thinnest.value_or(static_cast<std::uint32_t>((size.boxes + 1) / 2));
  size.seed = o.seed.value_or(size.seed);
  if (size.thinnest > size.boxes)
    throw WrongUse(fmt::format("found --thinnest {}, expected no more than the {} of the sample",
                               size.thinnest, size.boxes));
  return size;
}

void put_boxes(const Case& c, const Lot& lot, const report::Choice& choice, report::TallySheet& sheet,
               Progress& progress) {
  if (!choice.leaves_some_out()) {
    for (const Combiner* box : lot) sheet.boxes.push_back({box, ""});
    return;
  }
  const Judgement plan = check(c.design, c.edition, nullptr, {{}, false, progress.stage("judging")});
  const std::vector<Nearness> nearness = nearness_of(c.design.design, lot, c.edition, plan);
  std::vector<Urgency> urgencies;
  urgencies.reserve(lot.size());
  for (const Nearness& n : nearness) urgencies.push_back(n.urgency());
  for (const Picked& picked : draw_sample(urgencies, choice.size))
    sheet.boxes.push_back({lot[picked.place], report::why_chosen(picked, nearness[picked.place])});
}

// The sheet of a second visit: of the lot, the boxes on which the report has something open.
void put_again(const Options& o, const ReportFile& report, const Case& c, const Lot& lot,
               report::TallySheet& sheet) {
  const Again again = look_again(report, c.design.design);
  for (const Combiner* box : lot) {
    const auto place = static_cast<std::size_t>(box - c.design.design.combiners.data());
    if (!again.boxes[place].empty())
      sheet.boxes.push_back({box, "", report::again_lines(again.boxes[place])});
  }
  sheet.second = report::second_visit(report, again, c.design, c.edition);
  sheet.how = report::how_again(report, again, sheet, o.boxes);
}

// A spreadsheet has no place for what the sheet's head says: a sample must not pass for the whole.
void tell_choice(const report::TallySheet& sheet, Console& console) {
  for (const std::string& sentence : sheet.how) console.err << report::wrap(report::plain(sentence), 0);
  for (const std::string& text : report::changes(sheet.overrides, sheet.edition))
    console.err << report::wrap(text, 0);
  if (!sheet.second) return;
  for (const std::vector<std::string>* sentences : {&sheet.second->remarks, &sheet.second->elsewhere})
    for (const std::string& sentence : *sentences) console.err << report::wrap(report::plain(sentence), 0);
  if (const std::string more = report::beyond_csv(sheet); !more.empty())
    console.err << report::wrap(report::plain(more), 0);
}

}  // namespace

int tally_command(const Options& o, Console& console) {
  for (const auto& [option, given] :
       {std::pair("--thinnest", o.thinnest.has_value()), std::pair("--seed", o.seed.has_value())})
    if (given && !is_sampled(o))
      throw WrongUse(fmt::format("found {} without a sample, expected --sample or --plan with it", option));
  if (!o.again.empty() && is_sampled(o))
    throw WrongUse(
        "found --again with a sample, expected one of the two: a sample would leave open findings without a look; "
        "--box narrows the boxes down");
  Case c;
  Progress progress(console);
  load(o, console, c, progress.stage("reading"));
  std::optional<ReportFile> earlier;
  if (!o.again.empty()) earlier = read_report(read_file(o.again, console.in));
  const Design& design = c.design.design;
  expect_boxes(o, design);
  Lot lot;
  for (const Combiner& box : design.combiners)
    if (is_chosen(o.boxes, box.id)) lot.push_back(&box);

  std::optional<SamplingPlan> plan;
  if (!o.plan.empty()) plan = load_sampling_plan(o.plan);
  report::Choice choice{design.combiners.size(), lot.size(), o.boxes,
                        is_sampled(o),           {},         plan ? &*plan : nullptr};
  if (choice.sampled) choice.size = size_of_sample(o, choice.plan, lot.size());
  report::TallySheet sheet{c.design, c.edition, {}, report::how_chosen(choice), c.overrides};
  if (earlier)
    put_again(o, *earlier, c, lot, sheet);
  else
    put_boxes(c, lot, choice, sheet, progress);

  progress.clear();
  Target target(o.output, console.out);
  const Write write = [&target](std::string_view text) { target.write(text); };
  if (o.format == "csv")
    report::write_tally_csv(sheet, write);
  else if (o.format == "html")
    report::write_tally_html(sheet, write);
  else
    report::write_tally_text(sheet, write);
  target.finish();
  if (o.format == "csv" && (choice.sampled || earlier)) tell_choice(sheet, console);
  return done;
}

}  // namespace boxproof::cli
