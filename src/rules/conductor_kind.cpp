// Conductors: whether the kind of wire suits the place and its terminals.
#include <fmt/ranges.h>

#include <algorithm>

#include "src/rules/common.hpp"
#include "src/rules/list.hpp"
#include "src/text/words.hpp"

namespace boxproof {
namespace {

// Whether a run lies outdoors; nothing where the plan does not say. Strings come from modules, which stand
// outdoors wherever the box is; the output goes on from the box.
std::optional<bool> outdoors(const BoxCase& c, const LaidRun& laid) {
  return laid.circuit ? true : stands_outdoors(c.box);
}

// What a print is fit for: what any of its names is, since such a conductor passed the tests of each.
struct PrintFitness {
  InsulationFitness fit;
  bool known = true;  // every name of it
};

PrintFitness fitness_of(std::string_view print, const Edition& e) {
  PrintFitness out;
  for (const std::string_view name : text::printed_names(print)) {
    const auto known = std::find_if(e.insulations.begin(), e.insulations.end(),
                                    [&](const auto& type) { return text::same_word(type.first, name); });
    if (known == e.insulations.end()) {
      out.known = false;
      continue;
    }
    out.fit.sunlight |= known->second.sunlight;
    out.fit.sunlight_only_if_marked |= known->second.sunlight_only_if_marked;
    out.fit.wet |= known->second.wet;
  }
  return out;
}

// Ungrounded arrays, in the editions that single them out: whether an exposed string conductor must be, and
// is not, of the insulations named for them. Whoever does not say how the array is grounded is asked.
bool unfit_for_ungrounded(const BoxCase& c, Notes& out, const LaidRun& laid) {
  const auto& rule = c.edition.ungrounded_exposed;
  if (!rule || !laid.circuit) return false;
  const auto& fit = rule->insulations;
  const std::string& print = laid.conductor()->insulation;
  if (std::any_of(fit.begin(), fit.end(), [&](auto& name) { return text::prints(print, name); }))
    return false;
  if (!c.box.inverter->grounding) out.lacks(key_of(*c.box.inverter, "grounding"));
  return c.box.inverter->grounding == Grounding::ungrounded;  // functional: site/grounding-term asks
}

void judge_insulation(const BoxCase& c, Notes& out, const LaidRun& laid) {
  const Conductor* conductor = laid.conductor();
  if (conductor == nullptr || !laid.run->method) return lacks_of_run(c, out, laid, false);
  if (conductor->insulation.empty()) return out.lacks(key_of(*conductor, "insulation"));
  const auto outside = outdoors(c, laid);
  if (!outside) return out.lacks_in_box("/mounting/place");
  const bool exposed = *outside && *laid.run->method == Method::free_air;
  const auto [fit, known] = fitness_of(conductor->insulation, c.edition);
  const auto note = [&](Severity severity, std::string required) {
    return out.find(severity, laid.part())
        .found(conductor->insulation)
        .required(std::move(required))
        .at(laid.pointer() + "/conductor");
  };
  if (!*outside && !fit.wet && !c.box.mounting->wet) return out.lacks_in_box("/mounting/wet");
  const bool wet = *outside || c.box.mounting->wet.value_or(false);  // a raceway outdoors is wet inside
  if (!exposed && !wet) return;
  const std::string_view where = exposed ? "exposed outdoors" : "in a wet location";
  if (!known && (exposed ? !fit.sunlight : !fit.wet)) {
    note(Severity::query, std::string("a known insulation"))
        .say("The {} of {} lies {}; whether {} insulation suits that is not known here.",
             laid.name(c.edition.terms), c.box.id, where, conductor->insulation);
    return;
  }
  if (exposed && !fit.sunlight && fit.sunlight_only_if_marked) {
    note(Severity::query, std::string("marked sunlight resistant"))
        .say("The {} of {} lies exposed outdoors; {} suits that only where it is marked sunlight resistant.",
             laid.name(c.edition.terms), c.box.id, conductor->insulation);
  } else if (exposed && !fit.sunlight) {
    note(Severity::correction, std::string("a sunlight-resistant PV type"))
        .say("The {} of {} lies exposed outdoors; {} is not a sunlight-resistant type for PV circuits.",
             laid.name(c.edition.terms), c.box.id, conductor->insulation);
  } else if (exposed && unfit_for_ungrounded(c, out, laid)) {
    note(Severity::correction,
         fmt::format("{}", fmt::join(c.edition.ungrounded_exposed->insulations, " or ")))
        .section(c.edition.ungrounded_exposed->section)
        .say("The {} of {} lies exposed outdoors; on an ungrounded array it must be {}, and it is {}.",
             laid.name(c.edition.terms), c.box.id,
             fmt::join(c.edition.ungrounded_exposed->insulations, " or "), conductor->insulation);
  } else if (wet && !fit.wet) {
    note(Severity::correction, std::string("a type for wet locations"))
        .say("The {} of {} lies in a wet location{}; {} is not rated for that.", laid.name(c.edition.terms),
             c.box.id,
             *laid.run->method == Method::raceway && *outside ? " (the inside of a raceway outdoors)" : "",
             conductor->insulation);
  }
}

}  // namespace

const Rule conductor_insulation{
    .id = "conductor/insulation",
    .severity = Severity::correction,
    .title = "Insulation not suited to the place",
    .explain = {"Compares the insulation of each conductor with where it lies: exposed outdoors, or in a "
                "wet location, which the inside of a raceway outdoors always is.",
                "Sunlight makes the wrong insulation brittle in a few summers; water inside a raceway "
                "creeps through one that is rated for dry places. Either ends in a fault to ground on a "
                "roof.",
                "By the type of insulation as stated, in capitals or not; what each type is fit for is the "
                "edition's data. A print of several types (USE-2/RHW-2) is fit where any of them is. A type "
                "that is fit only where it is marked so, or one that is not known, is queried. On "
                "ungrounded arrays the editions up to 2014 want PV wire for exposed strings."},
    .remedy = "Use PV wire where it is exposed, and a wet-rated type in raceways outdoors.",
    .uses = {"conductor.insulations"},
    .judge = [](const BoxCase& c, Notes& out) {
      each_run(c, [&](const LaidRun& laid) { judge_insulation(c, out, laid); });
    }};

const Rule conductor_aluminum{
    .id = "conductor/aluminum",
    .severity = Severity::query,
    .title = "Aluminum conductors",
    .explain =
        {"Points out aluminum conductors, and asks where they are smaller than the smallest size that the "
         "code allows, or were found without oxide inhibitor.",
         "Aluminum creeps under a screw and grows an oxide that does not conduct: on terminals not made "
         "for it, or without inhibitor, the joint heats.",
         "By material and size as stated. As advice it reminds of the terminals; as a query it waits for "
         "an answer."},
    .remedy =
        "Show that the terminals are marked for aluminum (AL or AL/CU) and that inhibitor is used where "
        "the lug asks for it.",
    .uses = {"conductor.aluminum"},
    .judge = [](const BoxCase& c, Notes& out) {
      each_run(c, [&](const LaidRun& laid) {
        const Conductor* conductor = laid.conductor();
        if (conductor == nullptr || !conductor->material) return lacks_of_run(c, out, laid, false);
        if (conductor->material != Material::aluminum) return;
        if (!conductor->size) return lacks_of_run(c, out, laid, false);
        if (*conductor->size < c.edition.smallest_aluminum) {
          out.find(Severity::query, laid.part())
              .found(std::string(conductor->size->name()))
              .required(std::string(c.edition.smallest_aluminum.name()))
              .at(laid.pointer() + "/conductor")
              .say("The {} of {} is {} aluminum; the smallest aluminum conductor is {}.",
                   laid.name(c.edition.terms), c.box.id, conductor->size->name(),
                   c.edition.smallest_aluminum.name());
        } else if (!laid.circuit && c.visited != nullptr && c.visited->output.antioxidant == false) {
          out.find(Severity::query, laid.part())
              .found(std::string("no oxide inhibitor"))
              .at(laid.pointer() + "/conductor")
              .say("The {} of {} is aluminum and was found without oxide inhibitor; do its lugs ask for it?",
                   laid.name(c.edition.terms), c.box.id);
        } else {
          out.find(Severity::advice, laid.part())
              .found(wire(*conductor))
              .at(laid.pointer() + "/conductor")
              .say("The {} of {} is {}; its terminals must be marked for aluminum.",
                   laid.name(c.edition.terms), c.box.id, wire(*conductor));
        }
      });
    }};

const Rule conductor_fine_strand{
    .id = "conductor/fine-strand",
    .severity = Severity::correction,
    .title = "Fine stranding on terminals not identified for it",
    .explain =
        {"Asks, where a conductor has fine stranding, whether its terminals are identified for it; on the "
         "roof, whether they are.",
         "A set screw pushes fine strands aside instead of gripping them. The joint loosens with every "
         "warm day and arcs under load.",
         "By stranding as stated. A query on the plan; as built a correction where the inspector found "
         "lugs that are not identified for fine strands, and nothing where they are."},
    .remedy = "Use lugs or ferrules identified for the class of stranding, or coarser conductors.",
    .judge = [](const BoxCase& c, Notes& out) {
      each_run(c, [&](const LaidRun& laid) {
        const Conductor* conductor = laid.conductor();
        if (conductor == nullptr) return lacks_of_run(c, out, laid, false);
        if (!conductor->stranding) return out.lacks(key_of(*conductor, "stranding"));
        if (*conductor->stranding != Stranding::fine) return;
        enum class Lug { unknown, suited, unsuited } lug = Lug::unknown;
        if (!laid.circuit && c.visited != nullptr && c.visited->output.lug_for_fine_strand)
          lug = *c.visited->output.lug_for_fine_strand ? Lug::suited : Lug::unsuited;
        if (lug == Lug::suited) return;
        Note note = out.find(lug == Lug::unsuited ? Severity::correction : Severity::query, laid.part());
        note.found(std::string("fine stranding"))
            .required(std::string("terminals identified for it"))
            .at(laid.pointer() + "/conductor");
        if (lug == Lug::unsuited)
          note.say("The {} of {} has fine strands on lugs that are not identified for them.",
                   laid.name(c.edition.terms), c.box.id);
        else
          note.say("The {} of {} has fine strands; are its terminals identified for them?",
                   laid.name(c.edition.terms), c.box.id);
      });
    }};

}  // namespace boxproof
