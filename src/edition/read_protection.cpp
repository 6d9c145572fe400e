// What an edition asks of the system behind the boxes: ground-fault and arc-fault protection, rapid shutdown.
#include "src/edition/read_groups.hpp"

namespace boxproof::read {
namespace {

void ground_fault(const Group& g, GroundFaultRules& rules) {
  rules.section = g.text_if("section");
  rules.exempt_up_to_strings = static_cast<unsigned>(g.whole("exempt_up_to_strings", 0, 1'000'000));
  rules.ungrounded_section = g.text_if("ungrounded_section");
  if (!g.has("larger_grounding")) return;
  const Group larger = g.group("larger_grounding");
  rules.larger_grounding_factor = larger.factor("ampacity_factor");
  rules.larger_grounding_section = larger.text("section");
}

void arc_fault(const Group& g, ArcFaultRules& rules) {
  rules.section = g.text_if("section");
  rules.from = Volts(g.number("from_v"));
  rules.on_buildings_only = g.boolean("on_buildings_only");
  rules.outputs_off_buildings_exempt = g.boolean("outputs_off_buildings_exempt");
}

RapidShutdownRules::Limit shutdown_limit(const Group& g) {
  return {Volts(g.number("max_v")), g.number_if("max_va"), g.number("within_s"), g.text_if("or")};
}

void rapid_shutdown(const Group& g, RapidShutdownRules& rules) {
  rules.section = g.text_if("section");
  rules.beyond = Metres(g.number("beyond_m"));
  if (const auto beyond = g.number_if("beyond_in_building_m")) rules.beyond_in_building = Metres(*beyond);
  rules.outside = shutdown_limit(g.group("outside"));
  if (g.has("inside")) rules.inside = shutdown_limit(g.group("inside"));
  rules.proposed_seconds = g.number_if("proposed_within_s");
  rules.exempt_structures = g.text_if("exempt_structures");
}

}  // namespace

void read_protection(const Group& g, Edition& e) {
  ground_fault(g.group("ground_fault"), e.ground_fault);
  arc_fault(g.group("arc_fault"), e.arc_fault);
  rapid_shutdown(g.group("rapid_shutdown"), e.rapid_shutdown);
}

}  // namespace boxproof::read
