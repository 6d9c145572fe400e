#include "src/report/tally_choice.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "src/report/layout.hpp"
#include "src/report/phrases.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

// "the 12 boxes of --box A-*, of 50 on the plan"
std::string lot_words(const Choice& c) {
  if (c.patterns.empty()) return fmt::format("the {} of the plan", counted(c.lot, "box", "boxes"));
  return fmt::format("the {} of --box {}, of {} on the plan", counted(c.lot, "box", "boxes"),
                     fmt::join(c.patterns, " --box "), c.on_plan);
}

std::string parts_words(const SampleSize& size) {
  const std::size_t others = size.boxes - size.thinnest;
  const std::string random = fmt::format("at random from the seed {}", size.seed);
  if (size.thinnest == 0) return "all " + random;
  constexpr std::string_view urgent = "for findings on the plan, then for the thinnest margins";
  if (others == 0) return fmt::format("all {}", urgent);
  return fmt::format("{} {}; {} {}", size.thinnest, urgent, others, random);
}

std::string size_words(const Choice& c) {
  const SamplingPlan& plan = *c.plan;
  const SamplingPlan::Band* band = plan.band(static_cast<std::uint32_t>(c.lot));
  const std::string lead = fmt::format("Size by {}, {}{}, {}: ", plan.standard, plan.tables,
                                       plan.unverified ? " *" : "", plan.scheme);
  if (band == nullptr)
    return lead + fmt::format("a lot of {} is below its tables and is looked at whole.", c.lot);
  return lead +
         fmt::format("a lot of {} has code letter {}, a sample of {}.", c.lot, band->letter, band->size);
}

// "a voltage rating", "a current rating, a run"
std::string open_words(const OpenLimits& open) {
  std::string out;
  const auto add = [&](bool is, std::string_view words) {
    if (is) out += fmt::format("{}{}", out.empty() ? "" : ", ", words);
  };
  add(open.voltage, "a voltage rating");
  add(open.current, "a current rating");
  add(open.ampacity, "part of a run");
  return out;
}

}  // namespace

std::vector<std::string> how_chosen(const Choice& c) {
  const std::string whole = (c.lot < 2 ? "On this sheet: " : "All of ") + lot_words(c);
  if (!c.sampled) return {whole + "."};
  std::vector<std::string> out;
  if (c.leaves_some_out())
    out.push_back(
        fmt::format("A sample of {} out of {}: {}.", c.size.boxes, lot_words(c), parts_words(c.size)));
  else
    out.push_back(fmt::format("{}: the sample of {} leaves none out.", whole, c.size.boxes));
  if (c.plan != nullptr) out.push_back(size_words(c));
  if (c.leaves_some_out()) {
    if (c.plan != nullptr && c.size.thinnest > 0)
      out.push_back(
          "That standard presumes a sample drawn wholly at random: its acceptance numbers do not hold for "
          "boxes taken for findings or thin margins. --thinnest 0 draws all at random.");
    out.push_back(
        "A sample shows nothing about boxes that were not opened. Whether a sample is enough is for the "
        "authority having jurisdiction to decide. A check with the record of these boxes lists the others "
        "as not visited.");
  }
  if (c.plan != nullptr && c.plan->unverified) out.push_back("* " + c.plan->source + ".");
  return out;
}

std::string why_chosen(const Picked& picked, const Nearness& n) {
  if (picked.at_random) return "at random";
  if (n.worst != nullptr && n.worst->severity != Severity::query)
    return fmt::format("{} on the plan: {}", name_of(n.worst->severity), in_short(*n.worst));
  if (!n.tightest) return "cannot be shown safe: no margin is known";
  if (!n.share()) return "cannot be shown safe: not every voltage is known";
  if (n.worst != nullptr) return "cannot be shown safe: " + in_short(*n.worst);
  if (n.open.any()) return fmt::format("cannot be shown safe: {} not stated", open_words(n.open));
  const std::string to = n.tightest->where.empty()
                             ? std::string(n.tightest->brief)
                             : fmt::format("{} ({})", n.tightest->brief, n.tightest->where);
  return exceeds(n.tightest->value, n.tightest->limit)
             ? fmt::format("over a limit, {} above {}", percent(-n.tightest->share()), to)
             : fmt::format("thin margin, {} to {}", percent(n.tightest->share()), to);
}

}  // namespace boxproof::report
