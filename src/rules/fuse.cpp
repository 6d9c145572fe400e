// Fuses: whether they are needed, how large they must be and may be.
#include <algorithm>

#include "src/rules/common.hpp"
#include "src/rules/list.hpp"

namespace boxproof {
namespace {

bool rated_100_pct(const BoxCase& c) {
  return c.box.enclosure && c.box.enclosure->rated_100_pct;
}

std::string suggestion(Amps least, const Edition& e) {
  const auto standard = standard_rating(least, e);
  return standard ? fmt::format("; the smallest standard rating is {} A", shown(*standard)) : std::string();
}

}  // namespace

const Rule fuse_missing{
    .id = "fuse/missing",
    .severity = Severity::hazard,
    .title = "Overcurrent protection needed and none there",
    .explain =
        {"For a box without fuses: adds up the current that all other circuits, and the inverter, can push "
         "backwards into a faulted string, and compares it with what the module and the string's conductor "
         "may carry.",
         "A shorted string is fed by all its neighbours. Without a fuse nothing stops that current until a "
         "module or a cable burns through.",
         "The maximum currents of the other inputs, plus the inverter's backfeed, plus that of strings "
         "joined on the same input. Protection is needed where that exceeds the module's maximum series "
         "fuse or the conductor's ampacity in its conditions of use; the conductor is left out, with a "
         "query, where its run is not stated."},
    .remedy = "Provide a listed DC fuse for each input.",
    .uses = {"current.maximum", "overcurrent.omission", "conductor"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (c.box.fuse) return;
      for (std::size_t i = 0; i < c.box.circuits.size(); ++i) {
        const CircuitFacts& f = c.facts.circuits[i];
        const Module& m = *f.circuit->module;
        if (f.run.lack != Lack::nothing) lacks_of_run(c, out, source_run(c, i), false);
        if (!f.fuse_needed) out.lacks(key_of(m, "max_fuse_a"));
        if (!f.fuse_needed.value_or(false)) continue;
        const bool conductor_first = f.run.in_use && (!m.max_fuse || *f.run.in_use < *m.max_fuse);
        const Amps limit = conductor_first ? *f.run.in_use : *m.max_fuse;
        out.find(circuit_part(*f.circuit))
            .found(f.back.value())
            .required(limit.value())
            .unit("A")
            .at("")
            .say(
                "The other inputs of {} can push {} A into a faulted string of circuit {}; its {} may "
                "carry {} A, and the box has no fuses.",
                c.box.id, shown(f.back, limit), f.circuit->id, conductor_first ? "conductor" : "module",
                shown(limit, f.back))
            .work([&](Working& w) { back_current(c.box, *f.circuit, c.edition, &w); });
      }
    }};

const Rule fuse_too_small{
    .id = "fuse/too-small",
    .severity = Severity::correction,
    .title = "Overcurrent device below the least rating",
    .explain =
        {"Holds the rating of the string fuse, and of the device at the far end of the output, against the "
         "least rating for the current that they carry for hours.",
         "A device that is too small opens on a bright day, again and again; heat ages it, its holder "
         "chars, and somebody replaces it by one that is too large.",
         "The maximum current of the input (or output) times the duty factor: 1.25 · 1.25 = 1.5625 times "
         "the short-circuit current in all, never rounded to 1.56. Without the second 1.25 where the "
         "assembly is listed for 100 %; divided by the maker's re-rating factor where the inside of the "
         "box is hot."},
    .remedy = "Fit the next standard rating that the module and the conductor allow.",
    .uses = {"current.maximum", "current.overcurrent", "current.rated_100_pct"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (c.box.fuse) {
        const auto rating = smallest_fuse(c.box);
        if (!rating) out.lacks_in_box("/fuse/a");
        for (std::size_t i = 0; rating && i < c.facts.circuits.size(); ++i) {
          const CircuitFacts& f = c.facts.circuits[i];
          if (!exceeds(f.fuse_least, *rating)) continue;
          out.find(circuit_part(*f.circuit))
              .found(rating->value())
              .required(f.fuse_least.value())
              .unit("A")
              .at("/fuse/a")
              .say("The {} A fuse of {} is below the {} A that circuit {} needs{}.",
                   shown(*rating, f.fuse_least), c.box.id, shown(f.fuse_least, *rating), f.circuit->id,
                   suggestion(f.fuse_least, c.edition))
              .work([&](Working& w) {
                const Amps max = input_current(*f.circuit, c.edition, &w);
                least_rating(max, rated_100_pct(c), c.box.fuse->ambient_factor, c.edition, &w);
              });
        }
      }
      if (c.box.output && c.box.output->ocpd) {
        const bool full = c.box.output->ocpd_rated_100_pct.value_or(false);
        const Amps rating = *c.box.output->ocpd;
        const Amps least = least_rating(c.facts.output_max, full, std::nullopt, c.edition);
        if (!exceeds(least, rating)) return;
        out.find("output device")
            .found(rating.value())
            .required(least.value())
            .unit("A")
            .at("/output/ocpd_a")
            .say("The {} A device at the far end of the output of {} is below the {} A that it needs{}.",
                 shown(rating, least), c.box.id, shown(least, rating), suggestion(least, c.edition))
            .work([&](Working& w) {
              const Amps max = output_current(c.box, c.edition, &w);
              least_rating(max, full, std::nullopt, c.edition, &w);
            });
      }
    }};

const Rule fuse_over_module_limit{
    .id = "fuse/over-module-limit",
    .severity = Severity::hazard,
    .title = "Fuse larger than the module allows",
    .explain =
        {"Holds what can flow backwards through a module before its fuse opens against the maximum series "
         "fuse rating on the module's label.",
         "The module is tested to survive reverse current up to that rating, for hours, and no more. "
         "Behind a larger fuse a shorted module is heated by its neighbours until the glass breaks or the "
         "roof burns.",
         "The fuse's rating, plus 1.25 times the short-circuit current of every further string that is "
         "joined ahead of the same fuse."},
    .remedy =
        "Fit a smaller fuse; where that is too small for the circuit, join fewer strings ahead of it or "
        "change the module.",
    .uses = {"current.maximum"},
    .judge = [](const BoxCase& c, Notes& out) {
      const auto rating = largest_fuse(c.box);
      if (!c.box.fuse) return;
      if (!rating) return out.lacks_in_box("/fuse/a");
      for (const CircuitFacts& f : c.facts.circuits) {
        const Module& m = *f.circuit->module;
        const Amps joined = joined_current(*f.circuit, c.edition);
        if (!m.max_fuse) {
          out.lacks(key_of(m, "max_fuse_a"));
        } else if (exceeds(*rating + joined, *m.max_fuse)) {
          const double p = f.circuit->strings_per_fuse;
          out.find(circuit_part(*f.circuit))
              .found((*rating + joined).value())
              .required(m.max_fuse->value())
              .unit("A")
              .at("/fuse/a")
              .say("Behind the {} A fuse of {} a module of circuit {} can see {} A; module {} allows {} A.",
                   shown(*rating), c.box.id, f.circuit->id, shown(*rating + joined, *m.max_fuse), m.id,
                   shown(*m.max_fuse, *rating + joined))
              .work([&](Working& w) {
                w.push_back(computed("Imod", "If + k · (p − 1) · Isc",
                                     {{"If", rating->value()},
                                      {"k", c.edition.maximum_current_factor},
                                      {"p", p},
                                      {"Isc", m.isc_for_circuits().value()}},
                                     (*rating + joined).value(), "A", c.edition.omission_section));
              });
        }
      }
    }};

const Rule fuse_not_standard{
    .id = "fuse/not-standard",
    .severity = Severity::advice,
    .title = "Fuse rating neither standard nor customary",
    .explain = {"Looks for the fuse's rating in the edition's list of standard ratings, its additional "
                "fuse ratings, and the sizes that PV fuses are customarily made in.",
                "Other ratings are allowed, but an odd number on a plan is more often a typing error than "
                "a part that anybody stocks.",
                "The rating is looked up in the three lists of the edition's data; there is no calculation."},
    .remedy = "Check the rating against the data sheet of the fuse.",
    .uses = {"overcurrent.standard", "overcurrent.additional_fuses", "overcurrent.customary_pv_fuses"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.fuse || !c.box.fuse->rating) return;  // the missing rating is told by fuse/too-small
      const double rating = c.box.fuse->rating->value();
      const auto holds = [rating](const std::vector<double>& list) {
        return std::any_of(list.begin(), list.end(),
                           [rating](double r) { return !exceeds(r, rating) && !exceeds(rating, r); });
      };
      const Edition& e = c.edition;
      if (holds(e.standard_ratings) || holds(e.additional_fuse_ratings) || holds(e.customary_fuse_ratings))
        return;
      out.find("fuse").found(rating).unit("A").at("/fuse/a").say(
          "{} A, the fuse of {}, is neither a standard rating nor a customary size of PV fuses.",
          shown(rating), c.box.id);
    }};

}  // namespace boxproof
