#include "src/read/named_parts.hpp"

#include <fmt/format.h>

#include <cmath>

namespace boxproof::read {
namespace {

// Ranges that no real part reaches; beyond them a value is a unit or typing mistake (judged on public module
// lists).
constexpr Measure module_voltage = between(0.1, 400, "volts");
constexpr Measure module_current{0, 100, "amperes", true};
constexpr Measure falling_coefficient = between(-1, 0, "percent per degree Celsius");
constexpr Measure any_coefficient = between(-1, 1, "percent per degree Celsius");
constexpr double power_tolerance = 0.10;  // of Pmax from Imp · Vmp (our judgement)

// What the values of one module say about each other.
void check_module(const Value& value, const Module& m, const Reading& reading) {
  if (m.voc_coefficient && m.voc_coefficient_absolute)
    reading.problem(
        value.find("voc_coeff_v_per_c"),
        "found the coefficient of Voc both in %/°C and in V/°C, expected one of them; remove one");
  const bool has_voc = m.voc > Volts(0), has_isc = m.isc > Amps(0);  // else told already
  if (has_voc && m.vmp && *m.vmp > m.voc)
    reading.problem(value.find("vmp_v"),
                    fmt::format("found Vmp {} V above Voc {} V, expected it below; check for swapped values",
                                m.vmp->value(), m.voc.value()));
  if (has_isc && m.imp && *m.imp > m.isc)
    reading.problem(value.find("imp_a"),
                    fmt::format("found Imp {} A above Isc {} A, expected it below; check for swapped values",
                                m.imp->value(), m.isc.value()));
  if (has_isc && m.isc_front_and_rear && *m.isc_front_and_rear < m.isc)
    reading.problem(
        value.find("isc_rear_a"),
        fmt::format("found {} A for front and rear together, expected at least isc_a, {} A; it is the "
                    "total, not the rear's share",
                    m.isc_front_and_rear->value(), m.isc.value()));
  if (m.pmax && m.vmp && m.imp) {
    const double power = m.vmp->value() * m.imp->value();
    if (exceeds(std::abs(m.pmax->value() - power), power_tolerance * power))
      reading.problem(
          value.find("pmax_w"),
          fmt::format("found Pmax {} W, expected within 10 % of Imp · Vmp = {:.1f} W; check the three "
                      "values",
                      m.pmax->value(), power));
  }
}

}  // namespace

void read_label_values(ObjectReader& reader, const Reading& reading,
                       std::vector<std::pair<std::string, double>>& numbers,
                       std::vector<std::pair<std::string, std::string>>& texts) {
  const Field values = reader.take("values");
  if (!values || !expect(values.top(), Kind::object, reading)) return;
  for (Value v = values.top().first(); v; v = v.next_within(values.top())) {
    if (v.key() == "note") continue;
    if (v.kind() == Kind::number)
      numbers.emplace_back(std::string(v.key()), v.number());
    else if (v.kind() == Kind::text)
      texts.emplace_back(std::string(v.key()), std::string(v.text()));
    else
      reading.problem(v, fmt::format("found {}, expected the number or text on the label", describe(v)));
  }
}

std::optional<Size> read_size(ObjectReader& reader) {
  const auto index = reader.word("size", Size::names);
  return index ? std::optional<Size>(Size(*index)) : std::nullopt;
}

void read_module(const Value& value, Module& m, const Reading& reading) {
  ObjectReader r(Field(value), reading);
  if (!r.ok()) return;
  const auto required = [&](std::string_view key, const Measure& measure) {
    const Field field = r.required(key);
    return field ? to_number(field.top(), measure, reading) : std::nullopt;
  };
  const auto voc = required("voc_v", module_voltage);
  const auto isc = required("isc_a", module_current);
  m.voc = Volts(voc.value_or(0));
  m.isc = Amps(isc.value_or(0));
  m.vmp = r.quantity<Volts>("vmp_v", module_voltage);
  m.imp = r.quantity<Amps>("imp_a", module_current);
  m.pmax = r.quantity<Watts>("pmax_w", positive("watts"));
  m.voc_coefficient = r.quantity<PercentPerKelvin>("voc_coeff_pct_per_c", falling_coefficient);
  const double steepest = voc ? -0.01 * *voc : -4.0;  // the same −1 %/°C
  m.voc_coefficient_absolute =
      r.quantity<VoltsPerKelvin>("voc_coeff_v_per_c", between(steepest, 0, "volts per degree Celsius"));
  m.vmp_coefficient = r.quantity<PercentPerKelvin>("vmp_coeff_pct_per_c", falling_coefficient);
  m.isc_coefficient = r.quantity<PercentPerKelvin>("isc_coeff_pct_per_c", any_coefficient);
  m.cell = r.choice<boxproof::Cell>("cell", cell_names);
  m.isc_front_and_rear = r.quantity<Amps>("isc_rear_a", module_current);
  m.max_fuse = r.quantity<Amps>("max_fuse_a", positive("amperes"));
  m.max_system = r.quantity<Volts>("max_system_v", positive("volts"));
  m.listed = r.boolean("listed");
  r.finish();
  check_module(value, m, reading);
}

void read_inverter(const Value& value, Inverter& i, const Reading& reading) {
  ObjectReader r(Field(value), reading);
  if (!r.ok()) return;
  i.max_dc = r.quantity<Volts>("max_dc_v", positive("volts"));
  i.max_dc_isc = r.quantity<Amps>("max_dc_isc_a", positive("amperes"));
  i.tracking_min = r.quantity<Volts>("mppt_min_v", not_negative("volts"));
  i.tracking_max = r.quantity<Volts>("mppt_max_v", positive("volts"));
  i.grounding = r.choice<Grounding>("grounding", grounding_names);
  i.ground_fault_protection = r.boolean("ground_fault_protection");
  i.arc_fault_protection = r.boolean("arc_fault_protection");
  i.rapid_shutdown = r.boolean("rapid_shutdown");
  i.backfeed = r.quantity<Amps>("backfeed_a", not_negative("amperes")).value_or(Amps(0));
  r.finish();
}

void read_conductor(const Value& value, Conductor& c, const Reading& reading) {
  ObjectReader r(Field(value), reading);
  if (!r.ok()) return;
  c.size = read_size(r);
  c.material = r.choice<Material>("material", material_names);
  c.insulation = r.text("insulation").value_or("");
  c.insulation_temperature = r.number("insulation_c", between(60, 250, "degrees Celsius"));
  if (const auto t = c.insulation_temperature; t && *t < 90 && *t != 60 && *t != 75)
    reading.problem(value.find("insulation_c"),
                    fmt::format("found {}, expected 60, 75, 90 or a higher rating", *t));
  c.rated = r.quantity<Volts>("rated_v", positive("volts"));
  c.stranding = r.choice<Stranding>("stranding", stranding_names);
  r.finish();
}

}  // namespace boxproof::read
