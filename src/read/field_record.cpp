// Field records: what was seen, box by box.
#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "boxproof/read.hpp"
#include "src/read/object.hpp"
#include "src/read/source_map.hpp"
#include "src/text/nearest.hpp"

namespace boxproof {
namespace read {
namespace {

constexpr std::string_view format_name = "boxproof-asbuilt/1";
constexpr std::array<std::string_view, 4> top_keys{"$schema", "format", "visit", "boxes"};

class RecordReader : public Sink {
 public:
  explicit RecordReader(const Document& document)
      : source_(document.text),
        problems_(document.name, document.text),
        reading_{problems_},
        places_(std::make_shared<SourceMap>(document.name, document.text, "boxes")) {}

  RecordFile read() {
    if (parse_document(source_, "boxes", *this)) {
      if (!has_format_) missing("format");
      if (!has_boxes_) missing("boxes");
    }
    problems_.raise();
    return {std::move(record_), places_};
  }

  void member(std::string_view key, const Tree& tree) override {
    const Value value(tree, 0);
    places_->add_member(key, value.offset());
    if (key == "format") {
      has_format_ = true;
      if (to_text_value(value, reading_) && value.text() != format_name)
        reading_.problem(value, fmt::format("found {}, expected \"{}\"; is this a field record?", describe(value),
                                            format_name));
    } else if (key == "visit") {
      visit(value);
    } else if (key == "boxes") {
      has_boxes_ = true;
      expect(value, Kind::array, reading_);
    } else if (key == "$schema") {
      to_text_value(value, reading_);
    } else if (key != "note") {
      reading_.problem(value, fmt::format("found the key \"{}\", which is not known here{}; known keys are {}", key,
                                          text::did_you_mean(key, top_keys), fmt::join(top_keys, ", ")));
    }
  }
  void list(std::uint32_t) override { has_boxes_ = true; }
  void element(std::uint32_t index, const Tree& tree) override {
    const Value value(tree, 0);
    places_->add_element(value.offset());
    record_.boxes.push_back(box(value, index));
  }
  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    problems_.add(offset, std::move(pointer), std::move(message));
  }

 private:
  void missing(std::string_view key) {
    problems_.add(0, "", fmt::format("found no \"{}\" at the top of the document, expected it; it is required", key));
  }

  void visit(const Value& value) {
    ObjectReader r(Field(value), reading_);
    record_.date = r.text("date").value_or("");
    record_.by = r.text("by").value_or("");
    record_.weather = r.text("weather").value_or("");
    record_.kind = r.choice<VisitKind>("kind", visit_kind_names);
    r.finish();
  }

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
  template <class Read>
  void list_of(ObjectReader& parent, std::string_view key, Read&& read) {
    const Field field = parent.take(key);
    if (!field || !expect(field.top(), Kind::array, reading_)) return;
    for (Value v = field.top().first(); v; v = v.next_within(field.top())) {
      ObjectReader r(Field(v), reading_);
      if (!r.ok()) continue;
      read(r);
      r.finish();
    }
  }

  std::optional<Size> size(ObjectReader& r) {
    const auto index = r.word("size", Size::names);
    return index ? std::optional<Size>(Size(*index)) : std::nullopt;
  }

  void conductor(ObjectReader& r, FoundConductor& c, bool output) {
    c.size = size(r);
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
    list_of(r, "strings", [&](ObjectReader& s) {
      MeasuredString& string = m.strings.emplace_back();
      string.position = s.count("position", count_from_1);
      string.voc = s.quantity<Volts>("voc_v", between(-3000, 3000, "volts"));
      string.isc = s.quantity<Amps>("isc_a", not_negative("amperes"));
      string.insulation_megohm = s.number("insulation_mohm", not_negative("megohms"));
      string.reversed = s.boolean("reversed");
    });
  }

  void values(ObjectReader& r, FoundLabel& label) {
    const Field field = r.take("values");
    if (!field || !expect(field.top(), Kind::object, reading_)) return;
    for (Value n = field.top().first(); n; n = n.next_within(field.top())) {
      if (n.kind() == Kind::number)
        label.values.emplace_back(std::string(n.key()), n.number());
      else if (n.kind() != Kind::text)
        reading_.problem(n, fmt::format("found {}, expected the number or text on the label", describe(n)));
    }
  }

  VisitedBox box(const Value& value, std::uint32_t index) {
    VisitedBox box;
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return box;
    if (const Field id = r.required("id"); id && to_text_value(id.top(), reading_)) {
      box.id = std::string(id.top().text());
      if (const auto [first, fresh] = ids_.emplace(box.id, index); !fresh)
        reading_.problem(id.top(), fmt::format("found the box \"{}\" a second time (first at /boxes/{}), expected each "
                                               "box once", box.id, first->second));
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
    list_of(r, "mixed_fuses", [&](ObjectReader& f) {
      OddFuse odd;
      odd.position = f.count("position", count_from_1);
      if (const Field rating = f.required("a"))
        odd.rating = Amps(to_number(rating.top(), positive("amperes"), reading_).value_or(0));
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
      box.egc.size = size(g);
      box.egc.material = g.choice<Material>("material", material_names);
    });
    list_of(r, "labels", [&](ObjectReader& l) {
      FoundLabel& label = box.labels.emplace_back();
      if (const Field kind = l.required("kind"); kind && to_word(kind.top(), label_kinds, reading_))
        label.kind = std::string(kind.top().text());
      label.legible = l.boolean("legible");
      values(l, label);
    });
    list_of(r, "seen", [&](ObjectReader& s) {
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

  std::string_view source_;
  Problems problems_;
  Reading reading_;
  std::shared_ptr<SourceMap> places_;
  FieldRecord record_;
  std::unordered_map<std::string, std::uint32_t> ids_;
  bool has_format_ = false, has_boxes_ = false;
};

}  // namespace
}  // namespace read

RecordFile read_field_record(const Document& document) { return read::RecordReader(document).read(); }

}  // namespace boxproof
