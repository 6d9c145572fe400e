// What an edition holds, laid out like tables in a book.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "src/report/layout.hpp"
#include "src/report/rules.hpp"
#include "src/report/tables.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {
namespace {

std::string cell(std::optional<double> value, std::size_t width = 8) {
  return right(value ? fmt::format("{}", *value) : "–", width);
}

std::string column_heads(const std::vector<int>& columns, std::size_t width = 8) {
  std::string out;
  for (int c : columns) out += right(fmt::format("{} °C", c), width);
  return out;
}

void voltage_limits(const Edition& e, const Write& write) {
  write("VOLTAGE LIMITS\n");
  for (std::size_t use = 0; use < use_names.size(); ++use)
    write(fmt::format("  {}{} V  {}  [{}]\n", left(use_names[use], 12),
                      right(boxproof::shown(e.limits[use].max), 6),
                      left(e.limits[use].ban ? "ban" : "threshold", 10), e.limits[use].section));
  write("\nFACTORS\n");
  const auto factor = [&](std::string_view what, double value, std::string_view section) {
    write(fmt::format("  {}{}  [{}]\n", left(what, 50), right(fmt::format("{}", value), 6), section));
  };
  factor("maximum current, on Isc", e.maximum_current_factor, e.maximum_current_section);
  factor("overcurrent device, on the maximum current", e.overcurrent_factor, e.overcurrent_section);
  factor("conductor before conditions of use", e.before_factor, e.before_section);
  factor("conductor after conditions of use", e.after_factor, e.after_section);
  if (e.strict_after_factor)
    factor("the same, stricter reading of the text", *e.strict_after_factor, e.after_section);
  factor("disconnect, on the output's maximum current", e.disconnect.current_factor,
         e.disconnect.current_section);
  if (e.design_low_at_most < Celsius(30))
    factor("design temperature at most, °C", e.design_low_at_most.value(), "local amendment");
  factor("voltage drop accepted, %", e.voltage_drop_max_pct, "common practice");
}

void cold(const Edition& e, const Write& write) {
  write(fmt::format("COLD FACTORS on Voc of crystalline silicon  [{}]\n  {} °C and above  1\n",
                    e.cold.section, boxproof::shown(e.cold.reference)));
  for (const ColdTable::Band& b : e.cold.bands)
    write(fmt::format("  down to {} °C  {:.2f}\n", right(boxproof::shown(b.down_to), 4), b.factor));
}

void ampacity_table(const AmpacityTable& table, std::string_view title, const Write& write) {
  const auto has = [&](std::size_t m) {
    return std::any_of(table.rows[m].begin(), table.rows[m].end(),
                       [](const auto& row) { return !row.empty(); });
  };
  write(fmt::format("AMPACITY in A, {}  [{}]\n  {}", title, table.section, left("", 12)));
  for (std::size_t m = 0; m < material_names.size(); ++m)
    if (has(m)) write(right(std::string(material_names[m]), 8 * table.columns.size()));
  write("\n  " + left("", 12));
  for (std::size_t m = 0; m < material_names.size(); ++m)
    if (has(m)) write(column_heads(table.columns));
  write("\n");
  for (std::size_t s = 0; s < Size::count; ++s) {
    if (table.rows[0][s].empty() && table.rows[1][s].empty()) continue;
    std::string row = "  " + left(Size::names[s], 12);
    for (std::size_t m = 0; m < material_names.size(); ++m)
      for (std::size_t c = 0; has(m) && c < table.columns.size(); ++c)
        row += cell(table.rows[m][s].empty() ? std::nullopt : std::optional(table.rows[m][s][c]));
    write(row + "\n");
  }
}

void ampacity(const Edition& e, const Write& write) {
  ampacity_table(e.raceway, "raceway or cable, 30 °C", write);
  write("\n");
  ampacity_table(e.free_air, "single conductor in free air, 30 °C", write);
  if (!e.pv_wire_raceway) return;
  write("\n");
  ampacity_table(*e.pv_wire_raceway, "PV wire in raceway, 30 °C", write);
}

void correction_table(const CorrectionTable& table, std::string_view title, const Write& write) {
  write(fmt::format("CORRECTION FOR AMBIENT, {}  [{}]\n  {}{}\n", title, table.section, left("up to °C", 12),
                    column_heads(table.columns)));
  for (const CorrectionTable::Band& b : table.bands) {
    std::string row = "  " + left(boxproof::shown(b.up_to), 12);
    for (const auto& factor : b.factors) row += cell(factor);
    write(row + "\n");
  }
}

void correction(const Edition& e, const Write& write) {
  correction_table(e.correction,
                   e.correction_method == CorrectionMethod::table ? "30 °C base, read by band"
                                                                  : "30 °C base, computed by formula",
                   write);
  if (!e.pv_wire_correction) return;
  write("\n");
  correction_table(*e.pv_wire_correction, "PV wire", write);
}

void adjustment(const Edition& e, const Write& write) {
  write(fmt::format("ADJUSTMENT for conductors that carry current  [{}]\n", e.adjustment.section));
  for (const AdjustmentTable::Band& b : e.adjustment.bands)
    write(fmt::format("  {}{}\n", left(b.up_to ? fmt::format("up to {}", *b.up_to) : "more", 12), b.factor));
}

void roof(const Edition& e, const Write& write) {
  write(fmt::format("ROOF ADDER over a sunlit roof  [{}]\n", e.roof_adder.section));
  for (const RoofAdder::Band& b : e.roof_adder.bands)
    write(fmt::format("  {} {} mm: {} °C\n", e.roof_adder.limit_included ? "up to" : "below",
                      right(boxproof::shown(b.up_to), 4), boxproof::shown(b.adder)));
  write(fmt::format("  exempt: {}\n", e.roof_adder.exempt.empty()
                                          ? "none"
                                          : fmt::format("{}", fmt::join(e.roof_adder.exempt, ", "))));
}

void ratings(const Edition& e, const Write& write) {
  write(fmt::format("STANDARD RATINGS, A  [{}]\n{}", e.standard_section,
                    wrap(fmt::format("{}", fmt::join(e.standard_ratings, " ")), 2, "  ")));
  write("  additional fuse ratings:\n" +
        wrap(fmt::format("{}", fmt::join(e.additional_fuse_ratings, " ")), 4, "    "));
  write("  customary PV fuses, accepted as installed:\n" +
        wrap(fmt::format("{}", fmt::join(e.customary_fuse_ratings, " ")), 4, "    "));
  write(fmt::format("  next size up allowed to {} A  [{}]\n", boxproof::shown(e.next_size_up_to),
                    e.next_size_section));
  write(fmt::format("\nSMALL CONDUCTORS, largest device in A  [{}]\n", e.small_conductor_section));
  for (std::size_t s = 0; s < Size::count; ++s)
    if (e.small_conductor_limit[0][s] || e.small_conductor_limit[1][s])
      write(fmt::format("  {}copper{}   aluminum{}\n", left(Size::names[s], 12),
                        cell(e.small_conductor_limit[0][s], 5), cell(e.small_conductor_limit[1][s], 5)));
}

void grounding(const Edition& e, const Write& write) {
  write(fmt::format("EQUIPMENT GROUNDING CONDUCTORS  [{}, {}]\n  {}{}aluminum\n", e.grounding.section,
                    e.grounding.table_section, left("device to A", 14), left("copper", 12)));
  for (const GroundingTable::Row& row : e.grounding.rows)
    write(fmt::format("  {}{}{}\n", left(boxproof::shown(row.up_to), 14), left(row.copper.name(), 12),
                      row.aluminum.name()));
  write(fmt::format("  without a device: {} times Isc is assumed  [{}]\n", e.grounding.assumed_factor,
                    e.grounding.assumed_section));
}

void resistance(const Edition& e, const Write& write) {
  write(fmt::format("RESISTANCE, DC, uncoated, {} °C, ohm per km  [{}]\n  {}{}{}{}{}\n",
                    boxproof::shown(e.resistance.at), e.resistance.section, left("", 12), right("copper", 10),
                    right("aluminum", 10), right("solid Cu", 10), right("solid Al", 10)));
  for (std::size_t s = 0; s < Size::count; ++s)
    write(fmt::format(
        "  {}{}{}{}{}\n", left(Size::names[s], 12), cell(e.resistance.stranded_ohm_per_km[0][s], 10),
        cell(e.resistance.stranded_ohm_per_km[1][s], 10), cell(e.resistance.solid_ohm_per_km[0][s], 10),
        cell(e.resistance.solid_ohm_per_km[1][s], 10)));
}

void disconnect_case(std::string_view when, const DisconnectCase& c, const Write& write) {
  if (c.kind == DisconnectKind::none) return write(fmt::format("  {}: none asked for\n", when));
  std::string text =
      fmt::format("{}: {}", when, c.kind == DisconnectKind::load_break ? "load-break" : "isolating device");
  if (c.only_if_fused) text += ", for fused boxes";
  if (c.within) text += fmt::format(", in the box or within {} m", boxproof::shown(*c.within));
  if (c.or_lockable) text += ", in the box, or in sight and readily accessible, or lockable";
  if (c.external_handle) text += ", external handle";
  if (c.lockable) text += ", lockable";
  write(wrap(fmt::format("{}  [{}]", text, c.section), 4, "  "));
}

void disconnect(const Edition& e, const Write& write) {
  write("DISCONNECT AT THE OUTPUT OF A BOX\n");
  if (e.disconnect.roof) disconnect_case("on a roof", *e.disconnect.roof, write);
  if (e.disconnect.large_above > Amps(0)) {
    disconnect_case(fmt::format("output above {} A", boxproof::shown(e.disconnect.large_above)),
                    e.disconnect.large, write);
    disconnect_case("smaller output", e.disconnect.small, write);
  } else {
    disconnect_case("any output", e.disconnect.large, write);
  }
}

void insulation(const Edition& e, const Write& write) {
  write(fmt::format("INSULATIONS\n  {}{}wet location\n", left("", 12), left("exposed in sunlight", 22)));
  for (const auto& [name, fit] : e.insulations)
    write(fmt::format("  {}{}{}\n", left(name, 12),
                      left(fit.sunlight                  ? "yes"
                           : fit.sunlight_only_if_marked ? "if marked"
                                                         : "no",
                           22),
                      fit.wet ? "yes" : "no"));
  if (e.ungrounded_exposed)
    write(fmt::format("  exposed strings of ungrounded arrays: {}  [{}]\n",
                      fmt::join(e.ungrounded_exposed->insulations, ", "), e.ungrounded_exposed->section));
}

void measured(const Edition& e, const Write& write) {
  const MeasuredRules& m = e.measured;
  const auto line = [&](std::string_view what, double value, std::string_view unit,
                        std::string_view section) {
    write(fmt::format("  {}{} {} [{}]\n", left(what, 48), right(fmt::format("{}", value), 6), left(unit, 5),
                      section));
  };
  constexpr std::string_view judgement = "our judgement";
  write("MEASUREMENTS OF STRINGS\n");
  line("irradiance from which readings are judged", m.irradiance_min, "W/m²", judgement);
  line("irradiance up to which they are", m.irradiance_max, "W/m²", judgement);
  line("Voc, share by the logarithm of the irradiance", m.log_factor, "", m.voltage_section);
  line("that may be off by", m.log_uncertainty, "", m.voltage_section);
  line("modules in series off by", m.mismatch, "", judgement);
  line("voltages per module within", m.spread_max_pct, "%", m.spread_section);
  line("current, of the neighbours' median, at least", m.current_min_pct, "%", m.current_section);
  line("system voltage, on n · Voc", m.system_voltage_factor, "", m.insulation_section);
  line(fmt::format("insulation above {} V, at least", boxproof::shown(m.insulation_above)),
       m.insulation_megohm, "MΩ", m.insulation_section);
  line("insulation otherwise, at least", m.insulation_low_megohm, "MΩ", m.insulation_section);
}

struct TableTopic {
  std::string_view name;
  void (*write)(const Edition&, const Write&);
};
constexpr std::array topics_of_tables{TableTopic{"limits", voltage_limits},
                                      TableTopic{"cold", cold},
                                      TableTopic{"ampacity", ampacity},
                                      TableTopic{"correction", correction},
                                      TableTopic{"adjustment", adjustment},
                                      TableTopic{"roof", roof},
                                      TableTopic{"ratings", ratings},
                                      TableTopic{"grounding", grounding},
                                      TableTopic{"resistance", resistance},
                                      TableTopic{"disconnect", disconnect},
                                      TableTopic{"insulation", insulation},
                                      TableTopic{"enclosure", write_enclosures},
                                      TableTopic{"protection", write_protection},
                                      TableTopic{"labels", write_labels},
                                      TableTopic{"measured", measured}};

}  // namespace

std::span<const std::string_view> table_topics() {
  static constexpr auto names = [] {
    std::array<std::string_view, topics_of_tables.size()> out;
    for (std::size_t i = 0; i < topics_of_tables.size(); ++i) out[i] = topics_of_tables[i].name;
    return out;
  }();
  return names;
}

void write_tables(const Edition& e, const std::vector<std::string>& chosen, const Write& write) {
  write(e.title + "\n\n");
  for (const TableTopic& topic : topics_of_tables) {
    if (!chosen.empty() && std::find(chosen.begin(), chosen.end(), topic.name) == chosen.end()) continue;
    topic.write(e, write);
    write("\n");
  }
  write(
      wrap("Sources, and which values are from memory and unverified, stand beside each number in "
           "data/editions. Hold them against the adopted book.",
           0));
}

}  // namespace boxproof::report
