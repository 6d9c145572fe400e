// The parts of a box that stand for themselves.
#include <fmt/format.h>

#include "src/read/box_reader.hpp"
#include "src/read/named_parts.hpp"

namespace boxproof::read {

Mounting BoxReader::mounting(const Field& field) {
  ObjectReader r(field, reading_, true);
  Mounting m;
  m.place = r.choice<Place>("place", place_names);
  m.cover = r.choice<Cover>("cover", cover_names);
  m.air_gap = r.quantity<Millimetres>("air_gap_mm", not_negative("millimetres"));
  m.wet = r.boolean("wet");
  r.finish();
  return m;
}

Enclosure BoxReader::enclosure(const Field& field) {
  ObjectReader r(field, reading_, true);
  Enclosure e;
  e.type = r.text("type").value_or("");
  e.rated_voltage = r.quantity<Volts>("rated_v", positive("volts"));
  e.rated_current = r.quantity<Amps>("rated_a", positive("amperes"));
  e.inputs = r.count("inputs");
  e.listed = r.boolean("listed");
  e.metal = r.boolean("metal");
  e.rated_100_pct = r.boolean("rated_100_pct").value_or(false);
  e.inside = r.quantity<Celsius>("inside_c", between(-70, 150, "degrees Celsius"));
  r.finish();
  return e;
}

Fuse BoxReader::fuse(const Field& field) {
  ObjectReader r(field, reading_, true);
  Fuse f;
  f.rating = r.quantity<Amps>("a", positive("amperes"));
  f.voltage = r.quantity<Volts>("v", positive("volts"));
  f.dc = r.boolean("dc");
  f.pv_listed = r.boolean("pv_listed");
  f.poles = r.choice<Poles>("poles", poles_names);
  f.interrupt_kiloamps = r.number("interrupt_ka", positive("kiloamperes"));
  f.ambient_factor = r.number("ambient_factor", Measure{0, 1.5, "(a factor)", true});
  r.finish();
  return f;
}

Output BoxReader::output(const Field& field) {
  ObjectReader r(field, reading_, true);
  Output o;
  if (const Field run_field = r.take("run")) o.run = run(run_field);
  o.ocpd = r.quantity<Amps>("ocpd_a", positive("amperes"));
  o.ocpd_rated_100_pct = r.boolean("ocpd_rated_100_pct");
  r.finish();
  return o;
}

Disconnect BoxReader::disconnect(const Field& field) {
  ObjectReader r(field, reading_, true);
  Disconnect d;
  d.rated_voltage = r.quantity<Volts>("rated_v", positive("volts"));
  d.rated_current = r.quantity<Amps>("rated_a", positive("amperes"));
  d.load_break = r.boolean("load_break");
  d.distance = r.quantity<Metres>("distance_m", not_negative("metres"));
  d.external_handle = r.boolean("external_handle");
  d.lockable = r.boolean("lockable");
  r.finish();
  return d;
}

std::vector<Label> BoxReader::labels(const Field& field) {
  std::vector<Label> out;
  const Value& list = field.top();
  if (!expect(list, Kind::array, reading_)) return out;
  for (Value v = list.first(); v; v = v.next_within(list)) {
    ObjectReader r(Field(v), reading_);
    if (!r.ok()) continue;
    Label label;
    if (const Field kind = r.required("kind"); kind && to_word(kind.top(), label_kinds, reading_))
      label.kind = std::string(kind.top().text());
    read_label_values(r, reading_, label.values, label.texts);
    r.finish();
    out.push_back(std::move(label));
  }
  return out;
}

}  // namespace boxproof::read
