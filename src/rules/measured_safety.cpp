// What measurements show of danger to those who work on the box: swapped poles, poor insulation.
#include <fmt/format.h>

#include <algorithm>

#include "boxproof/measured.hpp"
#include "src/rules/measured.hpp"
#include "src/rules/measured_strings.hpp"

namespace boxproof {
namespace {

bool is_reversed(const MeasuredString& s) {
  return s.reversed == true || (s.voc && *s.voc < Volts(0));
}
bool has_insulation(const MeasuredString& s) {
  return s.insulation_megohm.has_value();
}

// Open-circuit voltage at 25 °C of the longest string of the box as found.
Volts highest_string(const VisitCase& c) {
  Volts highest;
  for (const CircuitFacts& f : c.as_built.circuits)
    if (f.circuit->strings > 0)
      highest = std::max(highest, static_cast<double>(f.circuit->series) * f.circuit->module->voc);
  return highest;
}

}  // namespace

const Rule measured_reversed{
    .id = "measured/reversed",
    .severity = Severity::hazard,
    .title = "String connected with its poles swapped",
    .explain =
        {"Names each string that was found reversed, or whose voltage was read below zero.",
         "A reversed string beside right ones doubles the voltage between them and drives the current of "
         "all others through itself as soon as the fuses are in; fuses and modules then burn.",
         "The record says so, or the reading has a minus sign. Neither light nor temperature matter."},
    .remedy =
        "Leave the fuse of the string out and the box switched off, and have the poles of the string put "
        "right.",
    .judge_visit = [](const VisitCase& c, Notes& out) {
      for (const Reading& r : readings(c, is_reversed)) {
        const bool below_zero = r.string->voc && *r.string->voc < Volts(0);
        Note note = out.find(r.part());
        if (below_zero)
          note.found(r.string->voc->value())
              .required(0.0)
              .unit("V")
              .at_record(reading_pointer(c, r, "voc_v"))
              .say("{} of {} reads {} V, below 0 V: its poles are swapped.", r.name(), c.plan.id,
                   shown(*r.string->voc));
        else
          note.found(std::string("reversed"))
              .required(std::string("right way round"))
              .at_record(reading_pointer(c, r, "reversed"))
              .say("{} of {} was found with its poles swapped.", r.name(), c.plan.id);
      }
    }};

const Rule measured_insulation{
    .id = "measured/insulation",
    .severity = Severity::correction,
    .title = "Insulation resistance of a string too low",
    .explain =
        {"Holds the insulation resistance measured on each string against the least one for the voltage of "
         "the system.",
         "Low resistance is a conductor chafed through, a wet connector or a cracked module: a first fault "
         "to ground that nobody sees, until the second one makes an arc or somebody touches the frame.",
         "The voltage of the system is that of the longest string as found at 25 °C with a margin for the "
         "cold; it decides between two least values."},
    .remedy =
        "Find the damaged or wet part of the string, replace it, and measure again before closing the fuse.",
    .uses = {"measured.insulation"},
    .judge_visit = [](const VisitCase& c, Notes& out) {
      const std::vector<Reading> all = readings(c, has_insulation);
      if (all.empty()) return;
      const Volts string = highest_string(c);
      const double least = least_insulation_megohm(string, c.edition);
      const double system = c.edition.measured.system_voltage_factor * string.value();
      for (const Reading& r : all) {
        const double measured = *r.string->insulation_megohm;
        if (!exceeds(least, measured)) continue;
        out.find(r.part())
            .found(measured)
            .required(least)
            .unit("MΩ")
            .at_record(reading_pointer(c, r, "insulation_mohm"))
            .say("{} of {} has an insulation resistance of {} MΩ; a system of {} V needs at least {} MΩ.",
                 r.name(), c.plan.id, shown(measured, least), shown(system), shown(least, measured))
            .work([&](Working& w) { least_insulation_megohm(string, c.edition, &w); });
      }
    }};

}  // namespace boxproof
