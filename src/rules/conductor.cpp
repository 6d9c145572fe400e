// Conductors: whether the wire carries the current where it lies, and whether the device ahead of it protects
// it.
#include <algorithm>

#include "src/rules/common.hpp"
#include "src/rules/list.hpp"

namespace boxproof {
namespace {

std::string smallest(const BoxCase& c, const LaidRun& laid) {
  const auto size = smallest_size(*laid.run, laid.max, c.design.site.high, c.edition);
  return size ? fmt::format("; the smallest size that would do is {}", size->name())
              : std::string("; no size of this wire would do where it lies");
}

}  // namespace

const Rule conductor_before_conditions{
    .id = "conductor/before-conditions",
    .severity = Severity::correction,
    .title = "Conductor too small at its terminals",
    .explain =
        {"Holds the ampacity of each conductor at the temperature of its terminals against the current "
         "that it carries for hours, with the duty factor.",
         "The terminal is the hottest place of a circuit. A wire that is thick enough for its own "
         "insulation may still bring more heat to the lug than the lug can shed.",
         "The table's value at the lower of the terminals' rating and the insulation's, times the "
         "conductors in parallel, must be at least 1.25 times the maximum current. Unmarked terminals "
         "count as 60 °C up to 100 A or 1 AWG, as 75 °C above. The conductor keeps the factor where the "
         "assembly is listed for 100 %: the stricter reading."},
    .remedy = "Use a larger conductor, or show terminals with a higher rating.",
    .uses = {"conductor.raceway", "conductor.free_air", "conductor.terminal_default", "current.conductor",
             "current.maximum"},
    .judge = [](const BoxCase& c, Notes& out) {
      each_run(c, [&](const LaidRun& laid) {
        if (laid.ampacity->lack != Lack::nothing) return lacks_of_run(c, out, laid, false);
        const Amps duty = c.edition.before_factor * laid.max;
        if (!exceeds(duty, *laid.ampacity->terminal)) return;
        out.find(laid.part())
            .found(laid.ampacity->terminal->value())
            .required(duty.value())
            .unit("A")
            .section(c.edition.before_section)
            .at(laid.pointer() + "/conductor")
            .say("The {} of {}, {}, carries {} A at {} °C terminals; it needs {} A ({} A for hours){}.",
                 laid.name(c.edition.terms), c.box.id, wire(*laid.conductor()),
                 shown(*laid.ampacity->terminal, duty), laid.ampacity->terminal_column,
                 shown(duty, *laid.ampacity->terminal), shown(laid.max), smallest(c, laid))
            .work([&](Working& w) {
              work_ampacity(w, c, laid);
              w.push_back(computed("Iduty", "kb · I",
                                   {{"kb", c.edition.before_factor}, {"I", laid.max.value()}}, duty.value(),
                                   "A", c.edition.before_section));
            });
      });
    }};

const Rule conductor_after_conditions{
    .id = "conductor/after-conditions",
    .severity = Severity::hazard,
    .title = "Conductor too small for the heat and company it lies in",
    .explain =
        {"Holds the ampacity of each conductor in its conditions of use (ambient heat, sun on the roof, "
         "other loaded conductors beside it) against the maximum current of its circuit.",
         "Above that ampacity the insulation cooks: it hardens, cracks and lets go, in a raceway where "
         "nobody looks, years after the inspection.",
         "Table value at the insulation's rating, times the correction factor at the hot ambient (with the "
         "roof adder where the run lies over a sunlit roof), times the adjustment factor for more than "
         "three conductors that carry current, times the conductors in parallel. A temperature between two "
         "bands takes the hotter; past the table's end the ampacity is zero. Under the 2008 edition a "
         "conductor that passes this reading and fails the stricter one of the same text gets a query."},
    .remedy = "Use a larger conductor, lift the run off the roof, or put fewer conductors together.",
    .uses = {"conductor.raceway", "conductor.free_air", "conductor.pv_wire_raceway", "conductor.correction",
             "conductor.pv_wire_correction", "conductor.adjustment", "conductor.roof_adder",
             "current.conductor", "current.maximum"},
    .judge = [](const BoxCase& c, Notes& out) {
      each_run(c, [&](const LaidRun& laid) {
        if (laid.ampacity->lack != Lack::nothing) return lacks_of_run(c, out, laid, true);
        const Amps in_use = *laid.ampacity->in_use;
        const Amps needed = c.edition.after_factor * laid.max;
        const auto strict = c.edition.strict_after_factor;
        const bool fails = exceeds(needed, in_use);
        const bool fails_strict = !fails && strict && exceeds(*strict * laid.max, in_use);
        if (!fails && !fails_strict) return;
        const Amps required = fails ? needed : *strict * laid.max;
        Note note = out.find(fails ? Severity::hazard : Severity::query, laid.part());
        note.found(in_use.value())
            .required(required.value())
            .unit("A")
            .section(c.edition.after_section)
            .at(laid.pointer() + "/conductor")
            .work([&](Working& w) { work_ampacity(w, c, laid); });
        if (fails)
          note.say(
              "The {} of {}, {}, may carry {} A where it lies ({} °C, {} conductors); its circuit carries "
              "{} A{}.",
              laid.name(c.edition.terms), c.box.id, wire(*laid.conductor()), shown(in_use, needed),
              shown(laid.ampacity->ambient), laid.run->current_carrying, shown(needed, in_use),
              smallest(c, laid));
        else
          note.say(
              "The {} of {}, {}, may carry {} A where it lies: enough for {} A, the reading that later "
              "editions took up, but not for the {} A of the stricter reading of this edition; which one "
              "applies here?",
              laid.name(c.edition.terms), c.box.id, wire(*laid.conductor()), shown(in_use, required),
              shown(needed), shown(required, in_use));
      });
    }};

const Rule conductor_unprotected{
    .id = "conductor/unprotected",
    .severity = Severity::hazard,
    .title = "Overcurrent device larger than the conductor allows",
    .explain =
        {"Compares the string fuse with the string's conductor, and the device at the far end of the "
         "output with the output's conductor.",
         "A device above the ampacity of its conductor lets the conductor melt first.",
         "The rating may be at most the ampacity in conditions of use, or, where that is no standard "
         "rating, the next standard rating above it, up to 800 A. An output without a device at its far "
         "end is queried where the other boxes of the inverter, and its backfeed, can push more into it "
         "than it may carry."},
    .remedy = "Fit a smaller device, or a larger conductor.",
    .uses = {"overcurrent.next_size_up", "overcurrent.standard", "conductor.raceway", "conductor.free_air",
             "conductor.correction", "conductor.adjustment", "conductor.roof_adder"},
    .judge = [](const BoxCase& c, Notes& out) {
      each_run(c, [&](const LaidRun& laid) {
        if (laid.ampacity->lack != Lack::nothing) {
          if (laid.device) lacks_of_run(c, out, laid, false);
          return;
        }
        const Amps in_use = *laid.ampacity->in_use;
        if (laid.circuit && lacks_fuse_rating(c)) return out.lacks_in_box("/fuse/a");
        if (!laid.device) {
          if (laid.circuit) return;  // fuse/missing judges strings without fuses
          const auto& inverter = c.totals.of(c.box.inverter);
          const Amps others = inverter.output_max - c.facts.output_max + c.box.inverter->backfeed;
          if (!exceeds(others, in_use)) return;
          out.find(Severity::query, "output device")
              .found(std::string("not stated"))
              .required(in_use.value())
              .unit("A")
              .at("/output")
              .say(
                  "No overcurrent device is stated at the far end of the output of {}; {} can push {} A "
                  "into it and its conductor may carry {} A.",
                  c.box.id,
                  inverter.boxes > 1
                      ? fmt::format("{} of {}", counted(inverter.boxes - 1, "other box", "other boxes"),
                                    inverter.inverter->id)
                      : fmt::format("inverter {}", inverter.inverter->id),
                  shown(others, in_use), shown(in_use, others));
          return;
        }
        if (protects(*laid.device, in_use, c.edition)) return;
        out.find(laid.part())
            .found(laid.device->value())
            .required(in_use.value())
            .unit("A")
            .at(laid.circuit ? "/fuse/a" : "/output/ocpd_a")
            .say(
                "The {} A device of the {} of {} is above the {} A that {} may carry where it lies, and "
                "above the next standard rating.",
                shown(*laid.device, in_use), laid.name(c.edition.terms), c.box.id,
                shown(in_use, *laid.device), wire(*laid.conductor()))
            .work([&](Working& w) { work_ampacity(w, c, laid); });
      });
    }};

const Rule conductor_small_size_limit{
    .id = "conductor/small-size-limit",
    .severity = Severity::correction,
    .title = "Overcurrent device above the limit for a small conductor",
    .explain =
        {"For 14, 12 and 10 AWG: holds the overcurrent device against the limit that the code sets for "
         "small conductors, whatever their ampacity.",
         "Thin wires have little mass: in a fault they heat before a larger device has opened.",
         "The limit is looked up by size and material and compared with the device's rating."},
    .remedy = "Fit a smaller device, or a larger conductor.",
    .uses = {"overcurrent.small_conductors"},
    .judge = [](const BoxCase& c, Notes& out) {
      each_run(c, [&](const LaidRun& laid) {
        if (laid.circuit && lacks_fuse_rating(c)) return out.lacks_in_box("/fuse/a");
        const Conductor* wire_used = laid.conductor();
        if (!laid.device) return;
        if (wire_used == nullptr || !wire_used->size || !wire_used->material)
          return lacks_of_run(c, out, laid, false);
        const auto limit = c.edition.small_conductor_limit[static_cast<std::size_t>(*wire_used->material)]
                                                          [wire_used->size->index()];
        if (!limit || !exceeds(laid.device->value(), *limit)) return;
        out.find(laid.part())
            .found(laid.device->value())
            .required(*limit)
            .unit("A")
            .section(c.edition.small_conductor_section)
            .at(laid.circuit ? "/fuse/a" : "/output/ocpd_a")
            .say("The {} A device of the {} of {} is above the {} A that {} may have.", shown(*laid.device),
                 laid.name(c.edition.terms), c.box.id, shown(*limit), wire(*wire_used));
      });
    }};

}  // namespace boxproof
