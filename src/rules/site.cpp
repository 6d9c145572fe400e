// The site as a whole: totals against the permit, and what the plan must state once.
#include <cmath>

#include "src/rules/common.hpp"
#include "src/rules/list.hpp"

namespace boxproof {

const Rule site_totals{
    .id = "site/totals",
    .severity = Severity::correction,
    .title = "Totals differ from the permit",
    .explain =
        {"Compares the boxes, strings and modules of the design, and its DC power, with the totals that "
         "the permit was issued for.",
         "An approval covers what was reviewed. Two strings more are two strings that nobody checked.",
         "Counts must agree exactly; the power (sum of the modules' rated power, in kilowatts) within half "
         "a percent. Totals that the permit does not state are not compared."},
    .remedy = "Correct the design, or have the permit amended.",
    .uses = {"site.totals"},
    .judge_site = [](const SiteCase& c, Notes& out) {
      const Permit& permit = c.design.site.permit;
      const auto compare = [&](std::string_view part, std::string_view key, std::optional<double> approved,
                               double found) {
        if (!approved || found == *approved) return;
        out.find(std::string(part))
            .found(found)
            .required(*approved)
            .unit(part)
            .at_design(fmt::format("/site/permit/{}", key))
            .say("{} {} {}; the permit says {}.",
                 c.basis == Basis::design ? "The design has" : "The site as found has",
                 shown(found, *approved), part, shown(*approved, found));
      };
      compare("combiners", "combiners", permit.combiners, static_cast<double>(c.totals.combiners));
      compare("strings", "strings", permit.strings, c.totals.strings);
      compare("modules", "modules", permit.modules, c.totals.modules);
      if (!permit.dc_kilowatts) return;
      for (const Module* module : c.totals.without_power) out.lacks(key_of(*module, "pmax_w"));
      if (!c.totals.dc_kilowatts) return;
      const double off = std::abs(*c.totals.dc_kilowatts - *permit.dc_kilowatts);
      if (!exceeds(off, c.edition.dc_power_tolerance_pct / 100 * *permit.dc_kilowatts)) return;
      out.find("DC power")
          .found(*c.totals.dc_kilowatts)
          .required(*permit.dc_kilowatts)
          .unit("kW")
          .at_design("/site/permit/dc_kw")
          .say("The modules of {} have {} kW together; the permit says {} kW, more than {} % off.",
               c.basis == Basis::design ? "the design" : "the site as found",
               shown(*c.totals.dc_kilowatts, *permit.dc_kilowatts),
               shown(*permit.dc_kilowatts, *c.totals.dc_kilowatts), shown(c.edition.dc_power_tolerance_pct));
    }};

const Rule site_grounding_term{
    .id = "site/grounding-term",
    .severity = Severity::query,
    .title = "Functional grounding under an edition that does not know it",
    .explain =
        {"Under an edition that knows only solidly grounded and ungrounded arrays: asks which of the two "
         "an inverter called functionally grounded is.",
         "Which poles are fused, and which labels are needed, hangs on it in those editions.",
         "inverters.grounding as stated; the edition's data says whether it has the term."},
    .remedy = "State solid or ungrounded for the inverter, as this edition uses the words.",
    .uses = {"grounding_terms"},
    .judge_site = [](const SiteCase& c, Notes& out) {
      if (c.edition.knows_functional_grounding) return;
      for (const SiteTotals::PerInverter& i : c.totals.inverters) {
        // A box with fuses asks for it by itself (fuse/poles).
        if (!i.inverter->grounding && !i.fused) out.lacks(key_of(*i.inverter, "grounding"));
        if (!is_unknown_word(i.inverter->grounding, c.edition)) continue;
        out.find("inverter " + i.inverter->id)
            .found(std::string("functional"))
            .required(std::string("solid or ungrounded"))
            .at_design(key_of(*i.inverter, "grounding"))
            .say(
                "Inverter {} is called functionally grounded, which the {} edition does not know; is its "
                "array solidly grounded or ungrounded?",
                i.inverter->id, c.edition.name);
      }
    }};

const Rule site_temperature_source{
    .id = "site/temperature-source",
    .severity = Severity::query,
    .title = "No source for the design temperatures",
    .explain = {"Asks where the lowest and highest design temperatures come from.",
                "Every voltage on the plan hangs on the low one. A reviewer can check it only against a "
                "named station and data set.",
                "site.temperature_source must be stated; its content is for the reviewer to judge."},
    .remedy =
        "Name the weather station and the data set (for instance the extreme annual mean minimum of the "
        "ASHRAE Handbook).",
    .judge_site = [](const SiteCase& c, Notes& out) {
      if (!c.design.site.temperature_source.empty()) return;
      out.find("temperature_source")
          .found(std::string("not stated"))
          .at_design("/site/temperature_source")
          .say("The design temperatures ({} and {}) have no source.",
               c.design.site.low ? shown(*c.design.site.low) + " °C" : "low not stated",
               c.design.site.high ? shown(*c.design.site.high) + " °C" : "high not stated");
    }};

}  // namespace boxproof
