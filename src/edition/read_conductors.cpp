// Ampacities, corrections, grounding conductors, resistances, insulations.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "src/edition/group.hpp"
#include "src/edition/read_groups.hpp"

namespace boxproof::read {
namespace {

constexpr std::array<std::string_view, 2> method_words{"table", "formula"};
constexpr std::array<std::string_view, 3> sunlight_words{"no", "yes", "if marked"};

std::vector<int> columns(const Group& g) {
  std::vector<int> out;
  constexpr Measure temperature{0, 1000, "degrees Celsius", false, true};
  for (const Value& v : g.items("columns_c"))
    out.push_back(static_cast<int>(to_number(v, temperature, g.reading()).value_or(0)));
  return out;
}

AmpacityTable ampacity(const Group& g) {
  AmpacityTable table;
  table.section = g.text("section");
  table.columns = columns(g);
  for (std::size_t material = 0; material < material_names.size(); ++material) {
    if (!g.has(material_names[material])) continue;
    const Group rows = g.group(material_names[material]);
    for (std::string_view key : rows.field().keys()) {
      const auto size = Size::parse(key);
      if (!size) {
        g.reading().problem(rows.field().find(key).top(),
                            fmt::format("found the size \"{}\", expected one of \"{}\"", key,
                                        fmt::join(Size::names, "\", \"")));
        continue;
      }
      table.rows[material][size->index()] = rows.numbers(key);
      if (table.rows[material][size->index()].size() != table.columns.size())
        g.reading().problem(rows.field().find(key).top(),
                            fmt::format("found another number of values, expected one for each of {} columns",
                                        table.columns.size()));
    }
  }
  return table;
}

CorrectionTable correction(const Group& g) {
  CorrectionTable table{g.text("section"), columns(g), {}};
  for (const Value& v : g.items("bands")) {
    const Group band(Field(v), g.reading());
    CorrectionTable::Band& out = table.bands.emplace_back();
    out.up_to = Celsius(band.number("up_to_c"));
    for (const Value& factor : band.items("factors"))
      out.factors.push_back(factor.kind() == Kind::null ? std::nullopt
                                                        : to_number(factor, positive(""), g.reading()));
    if (out.factors.size() != table.columns.size())
      g.reading().problem(v, fmt::format("found {} factors, expected one for each of {} columns",
                                         out.factors.size(), table.columns.size()));
  }
  return table;
}

void grounding(const Group& g, GroundingTable& table) {
  table.section = g.text("section");
  table.table_section = g.text("table_section");
  for (const Value& v : g.items("rows")) {
    const Group row(Field(v), g.reading());
    table.rows.push_back({Amps(row.number("up_to_a")), row.size("copper"), row.size("aluminum")});
  }
  table.least_copper = g.size("least_copper");
  table.least_aluminum = g.size("least_aluminum");
  table.assumed_factor = g.factor("assumed_factor");
  table.assumed_section = g.text("assumed_section");
}

}  // namespace

void read_conductors(const Group& g, Edition& e) {
  e.raceway = ampacity(g.group("raceway"));
  e.free_air = ampacity(g.group("free_air"));
  if (g.has("pv_wire_raceway")) e.pv_wire_raceway = ampacity(g.group("pv_wire_raceway"));
  const Group factors = g.group("correction");
  e.correction_method = static_cast<CorrectionMethod>(factors.word("method", method_words));
  e.correction_reference = Celsius(factors.number("reference_c"));
  e.correction = correction(factors);
  if (g.has("pv_wire_correction")) e.pv_wire_correction = correction(g.group("pv_wire_correction"));

  const Group adjustment = g.group("adjustment");
  e.adjustment.section = adjustment.text("section");
  for (const Value& v : adjustment.items("bands")) {
    const Group band(Field(v), g.reading());
    AdjustmentTable::Band& out = e.adjustment.bands.emplace_back();
    if (band.has("up_to")) out.up_to = static_cast<unsigned>(band.whole("up_to", 0, 1'000'000));
    out.factor = band.factor("factor");
  }
  const Group roof = g.group("roof_adder");
  e.roof_adder.section = roof.text("section");
  e.roof_adder.limit_included = roof.boolean("limit_included");
  for (const Value& v : roof.items("bands")) {
    const Group band(Field(v), g.reading());
    e.roof_adder.bands.push_back({Millimetres(band.number("up_to_mm")), Kelvin(band.number("adder_k"))});
  }
  for (const Value& v : roof.items("exempt"))
    if (const auto text = to_text_value(v, g.reading())) e.roof_adder.exempt.emplace_back(*text);

  const Group terminal = g.group("terminal_default");
  e.terminal_default = {terminal.text("section"), terminal.whole("small_c", 0, 1000),
                        terminal.whole("large_c", 0, 1000), Amps(terminal.number("up_to_a")),
                        terminal.size("up_to_size")};
  grounding(g.group("grounding"), e.grounding);

  const Group resistance = g.group("resistance");
  e.resistance.section = resistance.text("section");
  e.resistance.at = Celsius(resistance.number("at_c"));
  const Group stranded = resistance.group("stranded_ohm_per_km"),
              solid = resistance.group("solid_ohm_per_km");
  for (std::size_t m = 0; m < material_names.size(); ++m) {
    by_size(stranded.group(material_names[m]), e.resistance.stranded_ohm_per_km[m]);
    by_size(solid.group(material_names[m]), e.resistance.solid_ohm_per_km[m]);
  }
  e.voltage_drop_max_pct = g.group("voltage_drop").number("max_pct");
  const Group insulations = g.group("insulations");
  if (insulations.has("ungrounded_exposed")) {
    const Group exposed = insulations.group("ungrounded_exposed");
    e.ungrounded_exposed = {exposed.text("section"), {}};
    for (const Value& v : exposed.items("types"))
      if (const auto text = to_text_value(v, g.reading()))
        e.ungrounded_exposed->insulations.emplace_back(*text);
  }
  const Group types = insulations.group("types");
  for (std::string_view key : types.field().keys()) {
    const Group type = types.group(key);
    const std::size_t sunlight = type.word("sunlight", sunlight_words);
    e.insulations[std::string(key)] = {sunlight == 1, sunlight == 2, type.boolean("wet")};
  }
  e.smallest_aluminum = g.group("aluminum").size("smallest");
}

}  // namespace boxproof::read
