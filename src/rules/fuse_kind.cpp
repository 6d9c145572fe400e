// Fuses: what kind they are, in which poles, and how hot they sit.
#include "src/rules/common.hpp"
#include "src/rules/list.hpp"

namespace boxproof {

const Rule fuse_not_dc{
    .id = "fuse/not-dc",
    .severity = Severity::hazard,
    .title = "Fuse not rated for direct current",
    .explain =
        {"Asks whether the string fuse is rated for direct current.",
         "Alternating current goes through zero many times a second and lets an arc die; direct current "
         "does not. A fuse for alternating current that opens on a string keeps burning.",
         "By what the plan states of the fuse (fuse.dc); there is no calculation."},
    .remedy = "Replace the fuses by ones rated for DC at the string's voltage.",
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.fuse) return;
      if (!c.box.fuse->dc) return out.lacks_in_box("/fuse/dc");
      if (*c.box.fuse->dc) return;
      out.find("fuse")
          .found(std::string("not rated for DC"))
          .required(std::string("rated for DC"))
          .at("/fuse/dc")
          .say("The fuses of {} are not rated for direct current.", c.box.id);
    }};

const Rule fuse_not_pv_listed{
    .id = "fuse/not-pv-listed",
    .severity = Severity::correction,
    .title = "Fuse not listed for photovoltaic systems",
    .explain =
        {"In editions that ask for it: whether the string fuse is listed for use in photovoltaic systems.",
         "A PV fuse opens on the low overcurrents that a string can deliver, little above its rated "
         "current; a general-purpose fuse may carry them for ever and overheat its holder.",
         "By what the plan states of the fuse (fuse.pv_listed); there is no calculation."},
    .remedy = "Use fuses listed for PV (UL 248-19), and show the listing.",
    .uses = {"overcurrent.pv_listing"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.fuse || !c.edition.pv_listed) return;
      if (!c.box.fuse->pv_listed) return out.lacks_in_box("/fuse/pv_listed");
      if (*c.box.fuse->pv_listed) return;
      out.find("fuse")
          .found(std::string("not listed for PV"))
          .required(std::string("listed for PV"))
          .at("/fuse/pv_listed")
          .say("The fuses of {} are not listed for use in PV systems.", c.box.id);
    }};

const Rule fuse_poles{
    .id = "fuse/poles",
    .severity = Severity::hazard,
    .title = "Fuses in the wrong poles",
    .explain =
        {"Compares the poles that are fused with how the array is grounded.",
         "A fuse in a solidly grounded conductor can open and leave the array ungrounded and unnoticed. On "
         "an ungrounded array under the older editions, a fault in the unfused pole meets no fuse at all.",
         "Solidly grounded: a fuse in the ungrounded conductor only; both is a hazard in every edition. "
         "Ungrounded: both poles in editions up to 2014, a correction where one is missing; one pole, the "
         "same throughout, is enough from 2017 on, as for functionally grounded arrays."},
    .remedy = "Fuse the poles that the edition asks for, in the same polarity throughout the system.",
    .uses = {"overcurrent.poles"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.fuse) return;
      const auto& grounding = c.box.inverter->grounding;
      if (!grounding) return out.lacks(key_of(*c.box.inverter, "grounding"));
      if (*grounding == Grounding::functional)
        return;  // either is allowed; older editions ask by site/grounding-term
      if (*grounding == Grounding::ungrounded && !c.edition.both_poles_if_ungrounded) return;
      if (!c.box.fuse->poles) return out.lacks_in_box("/fuse/poles");
      if (*grounding == Grounding::solid && *c.box.fuse->poles == Poles::both)
        out.find(Severity::hazard, "fuse")
            .found(std::string("both poles"))
            .required(std::string("the ungrounded pole only"))
            .at("/fuse/poles")
            .say("{} has fuses in both poles, so also in the solidly grounded conductor of {}.", c.box.id,
                 c.box.inverter->id);
      if (*grounding == Grounding::ungrounded && *c.box.fuse->poles == Poles::one)
        out.find(Severity::correction, "fuse")
            .found(std::string("one pole"))
            .required(std::string("both poles"))
            .at("/fuse/poles")
            .say(
                "{} has fuses in one pole; the array of {} is ungrounded, and this edition wants both fused.",
                c.box.id, c.box.inverter->id);
    }};

const Rule fuse_heat{
    .id = "fuse/heat",
    .severity = Severity::query,
    .title = "Hot box without a re-rating factor for its fuses",
    .explain =
        {"Asks for the fuse maker's re-rating factor where the air inside the box is expected above the "
         "temperature that fuses are rated for.",
         "A box in the sun is an oven; a fuse in it opens below its rating, or ages until it does.",
         "enclosure.inside_c against the edition's value (40 °C). With fuse.ambient_factor stated the "
         "least rating takes it into account and there is nothing to ask."},
    .remedy = "State the maker's factor at the temperature inside the box, or shade and ventilate the box.",
    .uses = {"overcurrent.heat"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.fuse || c.box.fuse->ambient_factor) return;
      if (!c.box.enclosure || !c.box.enclosure->inside) return out.lacks_in_box("/enclosure/inside_c");
      const Celsius inside = *c.box.enclosure->inside;
      if (!exceeds(inside.value(), c.edition.fuse_heat_above.value())) return;
      out.find("fuse")
          .found(inside.value())
          .required(c.edition.fuse_heat_above.value())
          .unit("°C")
          .at("/enclosure/inside_c")
          .say(
              "The air in {} is expected at {} °C, above the {} °C that fuses are rated for, and no "
              "re-rating factor is stated.",
              c.box.id, shown(inside), shown(c.edition.fuse_heat_above));
    }};

}  // namespace boxproof
