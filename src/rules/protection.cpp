// Protection of the system behind the box: against faults to ground and arcs.
#include "src/rules/protection.hpp"

#include "src/rules/common.hpp"

namespace boxproof {
namespace {

std::string inverter_part(const BoxCase& c) {
  return "inverter " + c.box.inverter->id;
}

enum class Needed { no, yes, if_not_solid };

// The exception: few strings in parallel, off buildings, on a solidly grounded inverter.
Needed ground_fault_needed(const BoxCase& c) {
  const double strings = c.totals.of(c.box.inverter).strings;
  if (c.design.site.use != Use::ground || strings > c.edition.ground_fault.exempt_up_to_strings)
    return Needed::yes;
  const auto grounding = c.box.inverter->grounding;
  if (!grounding || is_unknown_word(grounding, c.edition)) return Needed::if_not_solid;
  return *grounding == Grounding::solid ? Needed::no : Needed::yes;
}

// Where the edition has a section each for grounded and ungrounded arrays: the one that this array falls
// under.
std::string_view ground_fault_section(const BoxCase& c) {
  const GroundFaultRules& rules = c.edition.ground_fault;
  if (rules.ungrounded_section.empty()) return rules.section;
  switch (c.box.inverter->grounding.value_or(Grounding::functional)) {
    case Grounding::solid: return rules.section;
    case Grounding::ungrounded: return rules.ungrounded_section;
    case Grounding::functional: break;  // or not stated: the rule's own names both
  }
  return {};
}

void no_ground_fault_protection(const BoxCase& c, Notes& out) {
  const GroundFaultRules& rules = c.edition.ground_fault;
  Note note = out.find(inverter_part(c));
  note.found(std::string("none"))
      .required(std::string("ground-fault protection"))
      .section(ground_fault_section(c))
      .at_design(key_of(*c.box.inverter, "ground_fault_protection"))
      .say("Inverter {}, to which {} belongs, has no ground-fault protection.", c.box.inverter->id, c.box.id);
  // The way out by larger conductors is one from the requirement on grounded arrays.
  if (rules.larger_grounding_factor && c.design.site.use != Use::dwelling &&
      c.box.inverter->grounding != Grounding::ungrounded)
    note.ask(
        fmt::format("Provide ground-fault protection, or{} equipment grounding conductors of at least {} "
                    "times the circuit's ampacity after correction ({}; not on dwellings).",
                    c.box.inverter->grounding == Grounding::solid ? "" : ", on a solidly grounded array,",
                    shown(*rules.larger_grounding_factor), rules.larger_grounding_section));
}

void judge_ground_fault(const BoxCase& c, Notes& out) {
  const Inverter& inverter = *c.box.inverter;
  if (inverter.ground_fault_protection == true) return;
  const Needed needed = ground_fault_needed(c);
  if (needed == Needed::no) return;
  if (!inverter.ground_fault_protection) out.lacks(key_of(inverter, "ground_fault_protection"));
  if (needed == Needed::if_not_solid && !inverter.grounding) return out.lacks(key_of(inverter, "grounding"));
  if (!inverter.ground_fault_protection) return;
  if (needed == Needed::yes) return no_ground_fault_protection(c, out);
  out.find(Severity::query, inverter_part(c))
      .found(std::string("none"))
      .required(std::string("ground-fault protection, unless solidly grounded"))
      .at_design(key_of(inverter, "grounding"))
      .ask("State solid or ungrounded for the inverter, as this edition uses the words.")
      .say(
          "Inverter {}, to which {} belongs, has no ground-fault protection; whether it needs any hangs on "
          "its grounding, which is stated by a word that the {} edition does not know: is it solid or "
          "ungrounded?",
          inverter.id, c.box.id, c.edition.name);
}

// What the strings of the box reach, as far as the plan tells: where their highest voltage is not known, that
// at 25 °C, which cold only raises.
struct Reached {
  Volts volts;
  std::size_t circuit = 0;
  bool at_least = false;
};

Reached reached_of(const BoxCase& c) {
  Reached out;
  if (c.facts.max_voltage) out = {*c.facts.max_voltage, c.facts.highest_circuit, false};
  for (std::size_t i = 0; i < c.facts.circuits.size(); ++i) {
    const CircuitFacts& f = c.facts.circuits[i];
    if (f.voltage.max) continue;
    const Volts warm = static_cast<double>(f.circuit->series) * f.circuit->module->voc;
    if (warm > out.volts) out = {warm, i, true};
  }
  return out;
}

void work_reached(Working& w, const BoxCase& c, const Reached& reached) {
  const Circuit& circuit = *c.facts.circuits[reached.circuit].circuit;
  const double n = circuit.series;
  if (reached.at_least)
    w.push_back(computed("V25", "n · Voc", {{"n", n}, {"Voc", circuit.module->voc.value()}},
                         reached.volts.value(), "V", c.edition.voltage_section));
  else
    string_voltage(*circuit.module, circuit.series, c.design.site.low, c.edition, &w);
}

// An edition that asks for it on and in buildings only, and a site off them: its circuits may still enter
// one.
void query_entering(const BoxCase& c, Notes& out, const Reached& reached) {
  const Inverter& inverter = *c.box.inverter;
  const bool none = inverter.arc_fault_protection.has_value();
  out.find(Severity::query, inverter_part(c))
      .found(std::string(none ? "none" : "not stated"))
      .required(fmt::format("arc-fault protection from {} V on, for circuits that enter a building",
                            shown(c.edition.arc_fault.from)))
      .at_design(key_of(inverter, "arc_fault_protection"))
      .ask(
          "Say whether circuits of the box enter a building; where they do, provide listed arc-fault "
          "protection.")
      .say(
          "{} for inverter {}, to which {} belongs; the site is off buildings, and the {} edition asks "
          "for it where circuits enter one: do they?",
          none ? "There is no arc-fault protection" : "Arc-fault protection is not stated", inverter.id,
          c.box.id, c.edition.name)
      .work([&](Working& w) { work_reached(w, c, reached); });
}

void judge_arc_fault(const BoxCase& c, Notes& out) {
  const ArcFaultRules& rules = c.edition.arc_fault;
  const Inverter& inverter = *c.box.inverter;
  if (inverter.arc_fault_protection == true) return;
  const Reached reached = reached_of(c);
  const bool off_buildings = c.design.site.use == Use::ground;
  if (exceeds(rules.from, reached.volts)) return lacks_of_voltage(c, out, false);
  if (rules.on_buildings_only && off_buildings) return query_entering(c, out, reached);
  if (!inverter.arc_fault_protection) return out.lacks(key_of(inverter, "arc_fault_protection"));
  out.find(inverter_part(c))
      .found(std::string("none"))
      .required(fmt::format("arc-fault protection from {} V on", shown(rules.from)))
      .at_design(key_of(inverter, "arc_fault_protection"))
      .say(
          "Inverter {} has no arc-fault protection; the {}s of {} reach {}{} V, and it is asked for from "
          "{} V "
          "on{}.",
          inverter.id, c.edition.terms.string_circuit, c.box.id, reached.at_least ? "at least " : "",
          shown(reached.volts, rules.from), shown(rules.from, reached.volts),
          rules.outputs_off_buildings_exempt && off_buildings
              ? fmt::format(" (the exception for {}s off buildings in metal raceway or underground does not "
                            "reach them)",
                            c.edition.terms.output_circuit)
              : "")
      .work([&](Working& w) { work_reached(w, c, reached); });
}

}  // namespace

const Rule protection_ground_fault{
    .id = "protection/ground-fault",
    .severity = Severity::correction,
    .title = "No ground-fault protection",
    .explain = {"Asks whether the inverter that the box belongs to has ground-fault protection.",
                "A first fault to ground stays unseen without it. The second closes a loop through frames "
                "and roof that no string fuse sees as too much, and burns until the sun sets.",
                "inverters.ground_fault_protection as stated. Excepted are ground-mounted sites with no more "
                "strings in parallel on the inverter, over all its boxes, than the edition's number, if the "
                "array is solidly grounded; ungrounded arrays have no such exception. The editions up to "
                "2014 allow larger equipment grounding conductors in its place, other than on dwellings: "
                "the finding names the section, and the reviewer judges them."},
    .remedy = "Provide ground-fault protection.",
    .uses = {"protection.ground_fault"},
    .judge = judge_ground_fault};

const Rule protection_arc_fault{
    .id = "protection/arc-fault",
    .severity = Severity::correction,
    .title = "No arc-fault protection",
    .explain =
        {"Compares the highest voltage of the box's strings with the voltage from which the edition "
         "asks for arc-fault protection, and asks whether the inverter has it.",
         "An arc in series with a string carries no more than the string's own current: no fuse "
         "opens, and a direct current does not put it out. It is how roofs catch fire.",
         "inverters.arc_fault_protection as stated, from the edition's voltage on. Where the highest "
         "voltage is not known, that at 25 °C is taken: cold only raises it. In 2011 only on or in "
         "buildings; whether circuits of a ground-mounted site enter one is a query. The exception since "
         "2017 for output circuits off buildings "
         "in metal raceway or underground leaves the strings protected."},
    .remedy = "Provide listed arc-fault protection for the circuits of the box.",
    .uses = {"protection.arc_fault", "voltage.cold_table"},
    .judge = judge_arc_fault};

}  // namespace boxproof
