// The fuses found in a box against the plan's, and among themselves.
#include <fmt/format.h>

#include <algorithm>

#include "src/check/as_built.hpp"
#include "src/rules/tally.hpp"
#include "src/rules/tally_item.hpp"

namespace boxproof {
namespace {

void ratings(const VisitCase& c, Notes& out, const Fuse& planned) {
  const FoundFuse& found = c.visited.fuse;
  compare_number(c, out, {"fuse rating", "/fuse/a", "The rating of the fuses"}, found.rating, planned.rating,
                 "A");
  compare_number(c, out, {"fuse voltage", "/fuse/v", "The rated voltage of the fuses"}, found.voltage,
                 planned.voltage, "V");
  compare(c, out, {"fuse dc", "/fuse/dc", "The kind of fuse"}, found.dc, planned.dc,
          [](bool dc) { return dc ? "one for DC" : "one not rated for DC"; });
  compare(c, out, {"fuse pv_listed", "/fuse/pv_listed", "The kind of fuse"}, found.pv_listed,
          planned.pv_listed, [](bool yes) {
            return yes ? "one listed for photovoltaic use" : "one not listed for photovoltaic use";
          });
  compare(c, out, {"fuse poles", "/fuse/poles", "The fusing of each input"}, found.poles, planned.poles,
          [](Poles poles) { return poles == Poles::both ? "in both poles" : "in one pole"; });
}

// Fuses for the strings as counted: one an input, or two where both poles are fused. Where nobody states the
// poles either will do.
void number_of_fuses(const VisitCase& c, Notes& out, const Fuse& planned) {
  const std::optional<std::uint32_t>& found = c.visited.count.fuses;
  if (!found) return;
  const std::vector<std::uint32_t> strings = strings_of_groups(c.plan, c.visited);
  std::uint64_t inputs = 0;
  for (std::size_t i = 0; i < strings.size(); ++i) inputs += c.plan.circuits[i].inputs_of(strings[i]);
  const std::optional<Poles> poles = c.visited.fuse.poles ? c.visited.fuse.poles : planned.poles;
  const std::uint64_t required = poles == Poles::both ? 2 * inputs : inputs;
  if (*found == required || (!poles && *found == 2 * inputs)) return;
  out.find("fuse count")
      .found(static_cast<double>(*found))
      .required(static_cast<double>(required))
      .unit("fuses")
      .at_record(record_pointer(c, "/count/fuses"))
      .beside(strings_pointer(c))
      .say("The inspector counted {} in {}; its {} {} {}.", counted(*found, "fuse"), c.plan.id,
           counted(inputs, "input"), inputs == 1 ? "needs" : "need", required);
}

std::string at_position(const OddFuse& odd) {
  const std::string rating = odd.rating ? shown(*odd.rating) + " A" : std::string("one of a rating not read");
  return odd.position ? fmt::format("{} at position {}", rating, *odd.position) : rating;
}

// A position that the box has no input for: fuse or position was misread.
void beyond_the_inputs(const VisitCase& c, Notes& out) {
  std::uint64_t inputs = std::max<std::uint64_t>(planned_inputs(c.plan), c.as_built.inputs);
  if (c.plan.enclosure) inputs = std::max<std::uint64_t>(inputs, c.plan.enclosure->inputs.value_or(0));
  std::vector<std::string> beyond;
  std::size_t first = 0;
  for (std::size_t i = 0; i < c.visited.mixed_fuses.size(); ++i) {
    const auto& position = c.visited.mixed_fuses[i].position;
    if (!position || *position <= inputs) continue;
    if (beyond.empty()) first = i;
    beyond.push_back(std::to_string(*position));
  }
  if (beyond.empty()) return;
  out.find(Severity::query, "fuse position")
      .found(listed(beyond))
      .required(fmt::format("1 to {}", inputs))
      .at_record(record_pointer(c, fmt::format("/mixed_fuses/{}/position", first)))
      .ask("Look again which fuse it is, and correct the field record.")
      .say("The record has an unlike fuse at position {} of {}, which has {}.", listed(beyond), c.plan.id,
           counted(inputs, "input"));
}

}  // namespace

const Rule tally_fuse{
    .id = "tally/fuse",
    .severity = Severity::correction,
    .title = "Fuses differ from the plan",
    .explain =
        {"Holds rating, voltage and kind of the fuses found in the box against the plan, and their number "
         "against the inputs that are in use.",
         "The fuse was chosen between what the string carries every sunny day and what its modules and "
         "conductors survive; a larger one lets them burn, a smaller one opens under load, and one that is "
         "not made for DC does not put the arc out.",
         "Each stated item against the plan's, one finding an item; what the plan does not state is not "
         "compared. The number of inputs is that of the strings as counted, times two where both poles are "
         "fused."},
    .remedy = "Fit the fuses of the plan, or have the plan changed.",
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const std::optional<std::uint32_t>& number = c.visited.count.fuses;
      const bool none = number == 0U;
      const bool odd = !c.visited.mixed_fuses.empty();
      const bool some = !none && (number || c.visited.fuse.rating || odd);
      const std::string_view key = number                  ? "/count/fuses"
                                   : c.visited.fuse.rating ? "/fuse/a"
                                                           : "/mixed_fuses";
      if (c.plan.fuse && none) {
        out.find("fuse")
            .found(std::string("none"))
            .required(std::string("fuses"))
            .at_record(record_pointer(c, key))
            .beside(plan_pointer(c, "/fuse"))
            .say("The inspector found no fuses in {}; the plan has fuses.", c.plan.id);
      } else if (c.plan.fuse) {
        ratings(c, out, *c.plan.fuse);
        number_of_fuses(c, out, *c.plan.fuse);
      } else if (some) {
        out.find("fuse")
            .found(std::string("fuses"))
            .required(std::string("none"))
            .at_record(record_pointer(c, key))
            .say("The inspector found fuses in {}; the plan has none.", c.plan.id);
      }
    }};

const Rule tally_mixed_fuses{
    .id = "tally/mixed-fuses",
    .severity = Severity::correction,
    .title = "Unlike fuses in one box",
    .explain =
        {"Holds each fuse that the inspector noted as unlike the others against the rating common to the "
         "box.",
         "Like strings need like fuses. An odd one mostly comes from a replacement at hand: too small, and "
         "one string drops out unseen; too large, and that string is not protected.",
         "The common rating is the one found in the box, or else the plan's; entries equal to it are not "
         "counted. The box is judged with its largest and its smallest fuse; one whose rating nobody read "
         "is told and not judged. A position beyond the inputs of the box is a query."},
    .remedy = "Replace the odd fuses by the rating of the plan, and ask how they came there.",
    .judge_visit = [](const VisitCase& c, Notes& out) {
      std::optional<Amps> common = c.visited.fuse.rating;
      if (!common && c.plan.fuse) common = c.plan.fuse->rating;
      std::vector<std::string> odd;
      for (const OddFuse& fuse : c.visited.mixed_fuses)
        if (!fuse.rating || fuse.rating != common) odd.push_back(at_position(fuse));
      beyond_the_inputs(c, out);
      if (odd.empty()) return;
      const std::string others = common ? fmt::format("{} A", shown(*common)) : "one rating";
      out.find("mixed fuses")
          .found(listed(odd))
          .required(others)
          .at_record(record_pointer(c, "/mixed_fuses"))
          .beside(c.visited.fuse.rating ? record_pointer(c, "/fuse/a") : plan_pointer(c, "/fuse/a"))
          .say("The fuses of {} are not alike: {}, where {} {}.", c.plan.id, listed(odd),
               common ? "the others are" : "all should have", others);
    }};

}  // namespace boxproof
