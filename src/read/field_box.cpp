#include "src/read/field_box.hpp"

#include <fmt/format.h>

#include "src/read/named_parts.hpp"
#include "src/read/object.hpp"

namespace boxproof::read {
namespace {

class VisitedBoxReader {
 public:
  explicit VisitedBoxReader(Problems& problems) : reading_{problems, nullptr, nullptr} {}

  VisitedBox box(const Value& value) {
    VisitedBox box;
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return box;
    if (const Field id = r.required("id"); id && to_text_value(id.top(), reading_)) {
      box.id = std::string(id.top().text());
      if (box.id.empty())
        reading_.problem(id.top(), "found an empty id, expected the id of the box on the plan");
    }
    object(r, "posted", [&](ObjectReader& p) {
      box.posted.id = p.text("id");
      box.posted.strings = p.count("strings");
      box.posted.series = p.count("series");
      box.posted.max_voltage = p.quantity<Volts>("max_v", not_negative("volts"));
      box.posted.max_current = p.quantity<Amps>("max_a", not_negative("amperes"));
      box.posted.fuse = p.quantity<Amps>("fuse_a", not_negative("amperes"));
    });
    object(r, "count", [&](ObjectReader& c) { count(c, box.count); });
    object(r, "fuse", [&](ObjectReader& f) {
      box.fuse.rating = f.quantity<Amps>("a", positive("amperes"));
      box.fuse.voltage = f.quantity<Volts>("v", positive("volts"));
      box.fuse.dc = f.boolean("dc");
      box.fuse.pv_listed = f.boolean("pv_listed");
      box.fuse.poles = f.choice<Poles>("poles", poles_names);
    });
    box.mixed_fuses_listed = list_of(r, "mixed_fuses", [&](ObjectReader& f) {
      OddFuse odd;
      odd.position = f.count("position", count_from_1);
      odd.rating = f.quantity<Amps>("a", positive("amperes"));
      box.mixed_fuses.push_back(odd);
    });
    object(r, "enclosure", [&](ObjectReader& e) {
      box.enclosure.type = e.text("type");
      box.enclosure.air_gap = e.quantity<Millimetres>("air_gap_mm", not_negative("millimetres"));
      box.enclosure.cover = e.choice<Cover>("cover", cover_names);
      box.enclosure.listed = e.boolean("listed");
      box.enclosure.secured = e.boolean("secured");
      box.enclosure.gasket_seated = e.boolean("gasket_seated");
    });
    object(r, "disconnect", [&](ObjectReader& d) {
      box.disconnect.present = d.boolean("present");
      box.disconnect.rated_voltage = d.quantity<Volts>("rated_v", positive("volts"));
      box.disconnect.rated_current = d.quantity<Amps>("rated_a", positive("amperes"));
      box.disconnect.load_break = d.boolean("load_break");
      box.disconnect.distance = d.quantity<Metres>("distance_m", not_negative("metres"));
      box.disconnect.works = d.boolean("works");
    });
    object(r, "output", [&](ObjectReader& c) { conductor(c, box.output, true); });
    object(r, "source", [&](ObjectReader& c) { conductor(c, box.source, false); });
    object(r, "egc", [&](ObjectReader& g) {
      box.egc.size = read_size(g);
      box.egc.material = g.choice<Material>("material", material_names);
    });
    box.labels_listed = list_of(r, "labels", [&](ObjectReader& l) {
      FoundLabel& label = box.labels.emplace_back();
      if (const Field kind = l.required("kind"); kind && to_word(kind.top(), label_kinds, reading_))
        label.kind = std::string(kind.top().text());
      label.legible = l.boolean("legible");
      read_label_values(l, reading_, label.values, label.texts);
    });
    box.seen_listed = list_of(r, "seen", [&](ObjectReader& s) {
      Observation& o = box.seen.emplace_back();
      if (const Field what = s.required("what"); what && to_word(what.top(), condition_words, reading_))
        o.what = std::string(what.top().text());
      o.where = s.text("where").value_or("");
      o.origin = s.choice<Origin>("origin", origin_names);
      o.photo = s.text("photo").value_or("");
      o.note = s.text("note").value_or("");
    });
    object(r, "measured", [&](ObjectReader& m) { measured(m, box); });
    r.finish();
    return box;
  }

 private:
  // Reads an optional object member with `read`, which gets an ObjectReader.
  template <class Read>
  void object(ObjectReader& parent, std::string_view key, Read&& read) {
    const Field field = parent.take(key);
    if (!field) return;
    ObjectReader r(field, reading_);
    if (!r.ok()) return;
    read(r);
    r.finish();
  }
  // Likewise each element of an optional list; says whether the list is there.
  template <class Read>
  bool list_of(ObjectReader& parent, std::string_view key, Read&& read) {
    const Field field = parent.take(key);
    if (!field || !expect(field.top(), Kind::array, reading_)) return false;
    for (Value v = field.top().first(); v; v = v.next_within(field.top())) {
      ObjectReader r(Field(v), reading_);
      if (!r.ok()) continue;
      read(r);
      r.finish();
    }
    return true;
  }

  void conductor(ObjectReader& r, FoundConductor& c, bool output) {
    c.size = read_size(r);
    c.material = r.choice<Material>("material", material_names);
    c.stranding = r.choice<Stranding>("stranding", stranding_names);
    c.insulation = r.text("insulation");
    if (!output) return;
    c.antioxidant = r.boolean("antioxidant");
    c.lug_for_fine_strand = r.boolean("lug_for_fine_strand");
  }

  void count(ObjectReader& r, Count& c) {
    c.positive = r.count("positive");
    c.negative = r.count("negative");
    c.fuses = r.count("fuses");
    c.modules = r.count("modules");
    const Field series = r.take("series");
    if (!series) return;
    if (series.kind() == Kind::array) {
      c.series_of_each = true;
      for (Value v = series.top().first(); v; v = v.next_within(series.top()))
        c.series.push_back(static_cast<std::uint32_t>(to_number(v, count_from_1, reading_).value_or(1)));
    } else if (const auto n = to_number(series.top(), count_from_1, reading_)) {
      c.series.push_back(static_cast<std::uint32_t>(*n));
    }
  }

  void measured(ObjectReader& r, VisitedBox& box) {
    Measured& m = box.measured.emplace();
    m.irradiance_w_m2 = r.number("irradiance_w_m2", between(0, 2000, "watts per square metre"));
    m.cell = r.quantity<Celsius>("cell_c", between(-70, 150, "degrees Celsius"));
    m.tolerance_pct = r.number("tolerance_pct", between(0, 20, "percent")).value_or(m.tolerance_pct);
    list_of(r, "strings", [&](ObjectReader& s) {
      MeasuredString& string = m.strings.emplace_back();
      string.position = s.count("position", count_from_1);
      string.voc = s.quantity<Volts>("voc_v", between(-3000, 3000, "volts"));
      string.isc = s.quantity<Amps>("isc_a", not_negative("amperes"));
      string.insulation_megohm = s.number("insulation_mohm", not_negative("megohms"));
      string.reversed = s.boolean("reversed");
    });
  }

  Reading reading_;
};

}  // namespace

VisitedBox read_visited_box(const Value& value, Problems& problems) {
  return VisitedBoxReader(problems).box(value);
}

}  // namespace boxproof::read
