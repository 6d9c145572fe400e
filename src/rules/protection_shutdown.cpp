// Rapid shutdown of the circuits of a box on a building.
#include "src/rules/common.hpp"
#include "src/rules/protection.hpp"

namespace boxproof {
namespace {

// "30 V and 240 VA within 10 s"
std::string limit_words(const RapidShutdownRules::Limit& limit) {
  return fmt::format(
      "{} V{} within {} s", shown(limit.max),
      limit.max_voltamperes ? fmt::format(" and {} VA", shown(*limit.max_voltamperes)) : std::string(),
      shown(limit.within_seconds));
}

// "more than 3 m from the array (1.5 m inside a building)"
std::string beyond_words(const RapidShutdownRules& rules) {
  return fmt::format("more than {} m from the array{}", shown(rules.beyond),
                     rules.beyond_in_building
                         ? fmt::format(" ({} m inside a building)", shown(*rules.beyond_in_building))
                         : std::string());
}

std::string what_to_do(const BoxCase& c) {
  const RapidShutdownRules& rules = c.edition.rapid_shutdown;
  std::string out = "Provide rapid shutdown.";
  if (rules.inside && !rules.inside->instead.empty())
    out +=
        fmt::format(" In place of the {} V may stand {}.", shown(rules.inside->max), rules.inside->instead);
  if (rules.proposed_seconds)
    out += fmt::format(
        " A proposed amendment of 2016 to this edition said {} s; a local adoption may follow it.",
        shown(*rules.proposed_seconds));
  if (!rules.exempt_structures.empty())
    out += fmt::format(" Excepted are {}: show it if the array is on one.", rules.exempt_structures);
  out += fmt::format(" Where the box is {} its incoming {}s are controlled too.", beyond_words(rules),
                     c.edition.terms.string_circuit);
  return out;
}

void judge_rapid_shutdown(const BoxCase& c, Notes& out) {
  if (c.design.site.use == Use::ground) return;
  const RapidShutdownRules& rules = c.edition.rapid_shutdown;
  const Inverter& inverter = *c.box.inverter;
  if (!inverter.rapid_shutdown) return out.lacks(key_of(inverter, "rapid_shutdown"));
  if (*inverter.rapid_shutdown) return;
  out.find("inverter " + inverter.id)
      .found(std::string("none"))
      .required(fmt::format("{}, {}{}", limit_words(rules.outside), beyond_words(rules),
                            rules.inside ? "; nearer, " + limit_words(*rules.inside) : std::string()))
      .at_design(key_of(inverter, "rapid_shutdown"))
      .ask(what_to_do(c))
      .say(
          "Inverter {}, to which {} belongs, has no rapid shutdown; on a building conductors {} must come "
          "down to {}{}.",
          inverter.id, c.box.id, beyond_words(rules), limit_words(rules.outside),
          rules.inside ? ", nearer ones to " + limit_words(*rules.inside) : std::string());
}

}  // namespace

const Rule protection_rapid_shutdown{
    .id = "protection/rapid-shutdown",
    .severity = Severity::correction,
    .title = "No rapid shutdown on a building",
    .explain = {"Asks, for sites on or in buildings, whether the system of the inverter has rapid shutdown.",
                "A fire crew cuts and walks where the conductors lie. Opening every switch leaves them live "
                "as long as there is light; rapid shutdown does not.",
                "inverters.rapid_shutdown as stated. Distances, voltages and times are the edition's, and "
                "the finding names them; whether the equipment keeps them is for its listing to show. Where "
                "the box stands matters: outside the array boundary the circuits that come into it are "
                "controlled too."},
    .remedy = "Provide rapid shutdown.",
    .uses = {"protection.rapid_shutdown"},
    .judge = judge_rapid_shutdown};

}  // namespace boxproof
