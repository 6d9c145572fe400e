#include "src/edition/read_edition.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace boxproof::read {
namespace {

constexpr Measure any_number = between(-no_end, no_end, "");
constexpr std::array<std::string_view, 2> limit_kinds{"ban", "threshold"};
constexpr std::array<std::string_view, 2> method_words{"table", "formula"};
constexpr std::array<std::string_view, 3> disconnect_kinds{"none", "isolating", "load-break"};
constexpr std::array<std::string_view, 3> sunlight_words{"no", "yes", "if marked"};

// A group of an edition's data. Every member asked for must be there unless it is asked for as optional.
class Group {
 public:
  Group(Field field, const Reading& reading) : field_(std::move(field)), reading_(reading) {
    if (field_ && !expect(field_.top(), Kind::object, reading_)) field_ = {};
  }

  explicit operator bool() const { return static_cast<bool>(field_); }
  const Field& field() const { return field_; }
  const Reading& reading() const { return reading_; }
  bool has(std::string_view key) const { return static_cast<bool>(present(key)); }
  Group group(std::string_view key) const { return {need(key), reading_}; }

  double number(std::string_view key) const {
    const Field f = need(key);
    return f ? to_number(f.top(), any_number, reading_).value_or(0) : 0;
  }
  int whole(std::string_view key, int least, int most) const {
    const Field f = need(key);
    const Measure measure{static_cast<double>(least), static_cast<double>(most), "", false, true};
    return f ? static_cast<int>(to_number(f.top(), measure, reading_).value_or(least)) : least;
  }
  std::optional<double> number_if(std::string_view key) const {
    const Field f = present(key);
    return f ? to_number(f.top(), any_number, reading_) : std::nullopt;
  }
  std::string text(std::string_view key) const { return text_of(need(key)); }
  std::string text_if(std::string_view key) const { return text_of(present(key)); }
  bool boolean(std::string_view key) const {
    const Field f = need(key);
    return f && expect(f.top(), Kind::boolean, reading_) && f.top().boolean();
  }
  bool boolean_if(std::string_view key) const { return has(key) && boolean(key); }
  std::size_t word(std::string_view key, std::span<const std::string_view> words) const {
    const Field f = need(key);
    return f ? to_word(f.top(), words, reading_).value_or(0) : 0;
  }
  Size size(std::string_view key) const { return Size(word(key, Size::names)); }
  std::vector<double> numbers(std::string_view key) const {
    std::vector<double> out;
    for (const Value& v : items(key)) out.push_back(to_number(v, any_number, reading_).value_or(0));
    return out;
  }
  std::vector<Value> items(std::string_view key) const {
    std::vector<Value> out;
    const Field f = need(key);
    if (!f || !expect(f.top(), Kind::array, reading_)) return out;
    for (Value v = f.top().first(); v; v = v.next_within(f.top())) out.push_back(v);
    return out;
  }

 private:
  Field present(std::string_view key) const {
    Field f = field_.find(key);
    return f && f.kind() == Kind::null ? Field() : f;
  }
  Field need(std::string_view key) const {
    Field f = present(key);
    if (!f && field_)
      reading_.problem(field_.top(), fmt::format("found no \"{}\", expected it: the edition needs it", key));
    return f;
  }
  std::string text_of(const Field& f) const {
    return f && to_text_value(f.top(), reading_) ? std::string(f.top().text()) : std::string();
  }

  Field field_;
  const Reading& reading_;
};

VoltageLimit limit(const Group& g) {
  return {Volts(g.number("max_v")), g.word("kind", limit_kinds) == 0, g.text("section")};
}

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
                                                        : to_number(factor, any_number, g.reading()));
    if (out.factors.size() != table.columns.size())
      g.reading().problem(v, fmt::format("found {} factors, expected one for each of {} columns",
                                         out.factors.size(), table.columns.size()));
  }
  return table;
}

template <class T>
void by_size(const Group& g, std::array<T, Size::count>& out) {
  for (std::string_view key : g.field().keys())
    if (const auto size = Size::parse(key)) out[size->index()] = g.number(key);
}

DisconnectCase disconnect_case(const Group& g) {
  DisconnectCase c;
  c.kind = static_cast<DisconnectKind>(g.word("kind", disconnect_kinds));
  c.only_if_fused = g.boolean_if("only_if_fused");
  if (const auto within = g.number_if("within_m")) c.within = Metres(*within);
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
    e.cold.bands.push_back({Celsius(band.number("down_to_c")), band.number("factor")});
  }
  e.unequal_vmp_pct = g.group("unequal_strings").number("vmp_max_pct");
  e.cell_rise = Kelvin(g.group("tracking").number("cell_rise_k"));
}

void current(const Group& g, Edition& e) {
  const Group maximum = g.group("maximum");
  e.maximum_current_factor = maximum.number("factor");
  e.maximum_current_section = maximum.text("section");
  e.output_current_section = maximum.text("output_section");
  const Group overcurrent = g.group("overcurrent");
  e.overcurrent_factor = overcurrent.number("factor");
  e.overcurrent_section = overcurrent.text("section");
  const Group conductor = g.group("conductor");
  e.before_factor = conductor.number("before_factor");
  e.before_section = conductor.text("before_section");
  e.after_factor = conductor.number("after_factor");
  e.after_section = conductor.text("after_section");
  e.strict_after_factor = conductor.number_if("strict_after_factor");
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

void grounding(const Group& g, GroundingTable& table) {
  table.section = g.text("section");
  table.table_section = g.text("table_section");
  for (const Value& v : g.items("rows")) {
    const Group row(Field(v), g.reading());
    table.rows.push_back({Amps(row.number("up_to_a")), row.size("copper"), row.size("aluminum")});
  }
  table.least_copper = g.size("least_copper");
  table.least_aluminum = g.size("least_aluminum");
  table.assumed_factor = g.number("assumed_factor");
  table.assumed_section = g.text("assumed_section");
}

void conductor(const Group& g, Edition& e) {
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
    out.factor = band.number("factor");
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
  const Group types = g.group("insulations").group("types");
  for (std::string_view key : types.field().keys()) {
    const Group type = types.group(key);
    const std::size_t sunlight = type.word("sunlight", sunlight_words);
    e.insulations[std::string(key)] = {sunlight == 1, sunlight == 2, type.boolean("wet")};
  }
  e.smallest_aluminum = g.group("aluminum").size("smallest");
}

void disconnect(const Group& g, DisconnectRules& rules) {
  if (g.has("roof")) rules.roof = disconnect_case(g.group("roof"));
  rules.large_above = Amps(g.number("large_above_a"));
  rules.large = disconnect_case(g.group("large"));
  rules.small = disconnect_case(g.group("small"));
  const Group current = g.group("current");
  rules.current_factor = current.number("factor");
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
  conductor(g.group("conductor"), e);
  disconnect(g.group("disconnect"), e.disconnect);
  e.dc_power_tolerance_pct = g.group("site").group("totals").number("dc_power_tolerance_pct");
  const Group rules = g.group("rules");
  for (std::string_view id : rules.field().keys()) {
    const Group rule = rules.group(id);
    e.rules[std::string(id)] = {rule.text("section"), rule.text_if("source").starts_with("memory")};
  }
  return e;
}

}  // namespace boxproof::read
