#include "src/edition/read_edition.hpp"

#include "src/edition/group.hpp"
#include "src/edition/read_groups.hpp"

namespace boxproof::read {
namespace {

constexpr std::array<std::string_view, 2> limit_kinds{"ban", "threshold"};
constexpr std::array<std::string_view, 3> disconnect_kinds{"none", "isolating", "load-break"};

VoltageLimit limit(const Group& g) {
  return {Volts(g.number("max_v")), g.word("kind", limit_kinds) == 0, g.text("section")};
}

DisconnectCase disconnect_case(const Group& g) {
  DisconnectCase c;
  c.kind = static_cast<DisconnectKind>(g.word("kind", disconnect_kinds));
  c.only_if_fused = g.boolean_if("only_if_fused");
  if (const auto within = g.number_if("within_m")) c.within = Metres(*within);
  c.unless_output_up_to = Metres(g.number_if("unless_output_up_to_m").value_or(0));
  c.or_lockable = g.boolean_if("or_lockable");
  c.external_handle = g.boolean_if("external_handle");
  c.lockable = g.boolean_if("lockable");
  c.section = g.text_if("section");
  return c;
}

void voltage(const Group& g, Edition& e) {
  e.voltage_section = g.group("maximum").text("section");
  const Group limits = g.group("limits");
  for (std::size_t use = 0; use < use_names.size(); ++use)
    e.limits[use] = limit(limits.group(use_names[use]));
  const Group cold = g.group("cold_table");
  e.cold = {cold.text("section"), Celsius(cold.number("reference_c")), {}};
  for (const Value& v : cold.items("bands")) {
    const Group band(Field(v), g.reading());
    e.cold.bands.push_back({Celsius(band.number("down_to_c")), band.factor("factor")});
  }
  e.design_low_at_most = Celsius(g.group("design_low").number("at_most_c"));
  e.unequal_vmp_pct = g.group("unequal_strings").number("vmp_max_pct");
  e.cell_rise = Kelvin(g.group("tracking").number("cell_rise_k"));
}

void current(const Group& g, Edition& e) {
  const Group maximum = g.group("maximum");
  e.maximum_current_factor = maximum.factor("factor");
  e.maximum_current_section = maximum.text("section");
  e.output_current_section = maximum.text("output_section");
  const Group overcurrent = g.group("overcurrent");
  e.overcurrent_factor = overcurrent.factor("factor");
  e.overcurrent_section = overcurrent.text("section");
  const Group conductor = g.group("conductor");
  e.before_factor = conductor.factor("before_factor");
  e.before_section = conductor.text("before_section");
  e.after_factor = conductor.factor("after_factor");
  e.after_section = conductor.text("after_section");
  e.strict_after_factor = conductor.factor_if("strict_after_factor");
  e.rated_100_section = g.group("rated_100_pct").text_if("section");
}

void overcurrent(const Group& g, Edition& e) {
  const Group standard = g.group("standard");
  e.standard_ratings = standard.numbers("ratings_a");
  e.standard_section = standard.text("section");
  e.additional_fuse_ratings = g.group("additional_fuses").numbers("ratings_a");
  e.customary_fuse_ratings = g.group("customary_pv_fuses").numbers("ratings_a");
  const Group next = g.group("next_size_up");
  e.next_size_up_to = Amps(next.number("up_to_a"));
  e.next_size_section = next.text("section");
  const Group small = g.group("small_conductors");
  e.small_conductor_section = small.text("section");
  by_size(small.group("copper_a"), e.small_conductor_limit[0]);
  by_size(small.group("aluminum_a"), e.small_conductor_limit[1]);
  e.omission_section = g.group("omission").text("section");
  e.both_poles_if_ungrounded = g.group("poles").boolean("both_if_ungrounded");
  e.pv_listed = g.group("pv_listing").boolean("asked");
  e.fuse_heat_above = Celsius(g.group("heat").number("above_c"));
}

void disconnect(const Group& g, DisconnectRules& rules) {
  if (g.has("roof")) rules.roof = disconnect_case(g.group("roof"));
  rules.large_above = Amps(g.number("large_above_a"));
  rules.large = disconnect_case(g.group("large"));
  rules.small = disconnect_case(g.group("small"));
  const Group current = g.group("current");
  rules.current_factor = current.factor("factor");
  rules.current_section = current.text_if("section");
}

}  // namespace

Edition read_edition(const Field& data, Problems& problems) {
  const Reading reading{problems, nullptr, data.top().tree()};
  const Group g(data, reading);
  Edition e;
  e.name = g.text("edition");
  e.title = g.text("title");
  const Group terms = g.group("terms");
  e.terms = {terms.text("string_circuit"), terms.text("output_circuit")};
  voltage(g.group("voltage"), e);
  current(g.group("current"), e);
  overcurrent(g.group("overcurrent"), e);
  e.knows_functional_grounding = g.group("grounding_terms").boolean("knows_functional");
  read_conductors(g.group("conductor"), e);
  disconnect(g.group("disconnect"), e.disconnect);
  read_labels(g.group("labels"), e.labels);
  read_enclosure(g.group("enclosure"), e.enclosure);
  read_protection(g.group("protection"), e);
  e.dc_power_tolerance_pct = g.group("site").group("totals").number("dc_power_tolerance_pct");
  read_measured(g.group("measured"), e);
  const Group rules = g.group("rules");
  for (std::string_view id : rules.field().keys()) {
    const Group rule = rules.group(id);
    e.rules[std::string(id)] = {rule.text("section"), from_memory(rule)};
  }
  return e;
}

}  // namespace boxproof::read
