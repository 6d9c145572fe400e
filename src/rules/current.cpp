// Current: what the box and the inverter must carry, and how many inputs are used.
#include "src/rules/common.hpp"
#include "src/rules/list.hpp"

namespace boxproof {

const Rule current_box_rating{
    .id = "current/box-rating",
    .severity = Severity::hazard,
    .title = "Output current above the rating of the box",
    .explain =
        {"Holds the continuous output current of the box against the rated current of its enclosure and bus.",
         "A bus that carries more than its rating for hours runs hot, loosens its own terminals and burns.",
         "The maximum currents of all inputs added up, times the duty factor for continuous current; "
         "without that factor only where the assembly is listed for continuous operation at 100 % of its "
         "rating."},
    .remedy = "Bring fewer strings to the box, or choose one with a higher rating.",
    .uses = {"current.maximum", "current.overcurrent"},
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.enclosure || !c.box.enclosure->rated_current)
        return out.lacks_in_box("/enclosure/rated_a", true);
      const Amps rated = *c.box.enclosure->rated_current;
      if (!exceeds(c.facts.output_continuous, rated)) return;
      out.find("enclosure")
          .found(c.facts.output_continuous.value())
          .required(rated.value())
          .unit("A")
          .at("/enclosure/rated_a")
          .say("{} carries {} A continuously ({} A at most); the box is rated {} A.", c.box.id,
               shown(c.facts.output_continuous, rated), shown(c.facts.output_max),
               shown(rated, c.facts.output_continuous))
          .work([&](Working& w) {
            const Amps max = output_current(c.box, c.edition, &w);
            least_rating(max, c.box.enclosure->rated_100_pct, std::nullopt, c.edition, &w);
          });
    }};

const Rule current_inverter_input{
    .id = "current/inverter-input",
    .severity = Severity::correction,
    .title = "Boxes together above the inverter's short-circuit current",
    .explain =
        {"Adds up the maximum output currents of all boxes of one inverter and holds the sum against the "
         "short-circuit current that its DC input may be connected to.",
         "The inverter's own parts are tested to break or withstand no more than that; and its listing, on "
         "which the approval rests, ends there.",
         "The sum over the boxes of Iout (1.25 times the short-circuit currents), without the duty factor."},
    .remedy = "Move boxes to another inverter, or show the inverter's listing for the higher current.",
    .uses = {"current.maximum"},
    .judge_site = [](const SiteCase& c, Notes& out) {
      for (const SiteTotals::PerInverter& i : c.totals.inverters) {
        if (!i.inverter->max_dc_isc) {
          out.lacks(key_of(*i.inverter, "max_dc_isc_a"));
        } else if (exceeds(i.output_max, *i.inverter->max_dc_isc)) {
          out.find("inverter " + i.inverter->id)
              .found(i.output_max.value())
              .required(i.inverter->max_dc_isc->value())
              .unit("A")
              .at_design(key_of(*i.inverter, "max_dc_isc_a"))
              .say("The {} of inverter {} {} {} A together; its DC input may see {} A.",
                   counted(i.boxes, "box", "boxes"), i.inverter->id, i.boxes == 1 ? "brings" : "bring",
                   shown(i.output_max, *i.inverter->max_dc_isc),
                   shown(*i.inverter->max_dc_isc, i.output_max));
        }
      }
    }};

const Rule current_inputs{
    .id = "current/inputs",
    .severity = Severity::correction,
    .title = "More inputs used than the box has",
    .explain =
        {"Counts the inputs that the circuits take (strings, divided by the strings joined ahead of one "
         "fuse) and compares with the inputs of the box.",
         "Two strings under one terminal share one fuse that was sized for one, on a clamp listed for one "
         "wire.",
         "Sum over the groups of strings / strings_per_fuse, against enclosure.inputs."},
    .remedy = "Move the surplus circuits to another box, or choose one with enough inputs.",
    .judge = [](const BoxCase& c, Notes& out) {
      if (!c.box.enclosure || !c.box.enclosure->inputs) return out.lacks_in_box("/enclosure/inputs");
      if (c.facts.inputs <= *c.box.enclosure->inputs) return;
      out.find("inputs")
          .found(static_cast<double>(c.facts.inputs))
          .required(static_cast<double>(*c.box.enclosure->inputs))
          .unit("inputs")
          .at("/circuits")
          .say("{} takes {} inputs; the box has {}.", c.box.id, c.facts.inputs, *c.box.enclosure->inputs);
    }};

}  // namespace boxproof
