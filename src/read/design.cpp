// Design files: the typed plan out of the parser's pieces, one combiner box at a time.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "boxproof/read.hpp"
#include "src/read/object.hpp"
#include "src/read/source_map.hpp"
#include "src/text/nearest.hpp"

namespace boxproof {
namespace read {
namespace {

constexpr std::string_view format_name = "boxproof-design/1";
constexpr std::array<std::string_view, 9> top_keys{"$schema",    "format",    "site",      "code",  "modules",
                                                   "inverters", "conductors", "box_types", "combiners"};

// Ranges that no real part reaches; beyond them a value is a unit or typing mistake (judged on public module lists).
constexpr Measure module_voltage = between(0.1, 400, "volts");
constexpr Measure module_current{0, 100, "amperes", true};
constexpr Measure low_temperature = between(-70, 30, "degrees Celsius");
constexpr Measure high_temperature = between(-70, 100, "degrees Celsius");
constexpr Measure falling_coefficient = between(-1, 0, "percent per degree Celsius");
constexpr Measure any_coefficient = between(-1, 1, "percent per degree Celsius");
constexpr double power_tolerance = 0.10;  // of Pmax from Imp · Vmp (our judgement)

class DesignReader : public Sink {
 public:
  explicit DesignReader(const Document& document)
      : source_(document.text),
        problems_(document.name, document.text),
        reading_{problems_},
        places_(std::make_shared<SourceMap>(document.name, document.text, "combiners")) {}

  DesignFile read() {
    if (parse_document(source_, "combiners", *this)) {
      for (std::uint32_t index : deferred_) {
        Tree tree = parse_value(source_, offsets_[index]);
        tree.top_key = "combiners";
        tree.index = index;
        combiner(index, tree);
      }
      finish();
    }
    problems_.raise();
    return {std::move(design_), places_};
  }

  void member(std::string_view key, const Tree& tree) override {
    const Value value(tree, 0);
    places_->add_member(key, value.offset());
    if (const auto known = std::find(top_keys.begin(), top_keys.end(), key); known != top_keys.end())
      seen_[static_cast<std::size_t>(known - top_keys.begin())] = true;
    if (key == "format")
      format(value);
    else if (key == "site")
      site(value);
    else if (key == "code")
      code(value);
    else if (key == "modules")
      each(value, [&](const Value& v) { module(v); });
    else if (key == "inverters")
      each(value, [&](const Value& v) { inverter(v); });
    else if (key == "conductors")
      each(value, [&](const Value& v) { conductor(v); });
    else if (key == "box_types")
      box_types(tree);
    else if (key == "combiners")
      expect(value, Kind::array, reading_);  // a list would have come element by element
    else if (key == "$schema")
      to_text_value(value, reading_);
    else if (key != "note")
      reading_.problem(value, fmt::format("found the key \"{}\", which is not known here{}; known keys are {}", key,
                                          text::did_you_mean(key, top_keys), fmt::join(top_keys, ", ")));
  }

  void list(std::uint32_t offset) override {
    seen_[8] = true;
    list_offset_ = offset;
  }

  void element(std::uint32_t index, const Tree& tree) override {
    const Value value(tree, 0);
    places_->add_element(value.offset());
    offsets_.push_back(value.offset());
    design_.combiners.emplace_back();
    if (!seen_[7] && value.find("type"))
      deferred_.push_back(index);  // its type stands further down in the file
    else
      combiner(index, tree);
  }

  void problem(std::uint32_t offset, std::string pointer, std::string message) override {
    problems_.add(offset, std::move(pointer), std::move(message));
  }

 private:
  void format(const Value& value) {
    if (to_text_value(value, reading_) && value.text() != format_name)
      reading_.problem(value, fmt::format("found {}, expected \"{}\"; is this a design file?", describe(value),
                                          format_name));
  }

  template <class Read>
  void each(const Value& map, Read&& read) {
    if (!expect(map, Kind::object, reading_)) return;
    for (Value v = map.first(); v; v = v.next_within(map))
      if (v.key() != "note") read(v);
  }

  void site(const Value& value) {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    Site& site = design_.site;
    if (const Field name = r.required("name"); name && to_text_value(name.top(), reading_))
      site.name = std::string(name.top().text());
    if (const Field use = r.required("use"))
      if (const auto word = to_word(use.top(), use_names, reading_)) site.use = static_cast<Use>(*word);
    site.low = r.quantity<Celsius>("low_c", low_temperature);
    site.high = r.quantity<Celsius>("high_c", high_temperature);
    site.temperature_source = r.text("temperature_source").value_or("");
    if (const Field permit = r.take("permit")) {
      ObjectReader p(permit, reading_);
      site.permit.stated = true;
      site.permit.number = p.text("number").value_or("");
      site.permit.modules = p.number("modules", any_count);
      site.permit.strings = p.number("strings", any_count);
      site.permit.combiners = p.number("combiners", any_count);
      site.permit.dc_kilowatts = p.number("dc_kw", not_negative("kilowatts"));
      p.finish();
    }
    r.finish();
  }

  void code(const Value& value) {
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    if (const Field edition = r.required("edition"))
      if (to_word(edition.top(), edition_names, reading_)) design_.edition = std::string(edition.top().text());
    if (const Field amendments = r.take("amendments")) {
      const Value& v = amendments.top();
      if (v.kind() == Kind::text)
        design_.amendments_path = std::string(v.text());
      else if (v.kind() == Kind::object)
        design_.amendments_offset = v.offset();
      else
        reading_.problem(v, fmt::format("found {}, expected an object of amended values or the path of a JSON file",
                                        describe(v)));
    }
    r.finish();
  }

  void module(const Value& value) {
    auto& entry = design_.modules.at(value.key());
    entry.defined = true;
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    Module& m = entry.part;
    const auto required = [&](std::string_view key, const Measure& measure) {
      const Field field = r.required(key);
      return field ? to_number(field.top(), measure, reading_) : std::nullopt;
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
    m.cell = r.choice<Cell>("cell", cell_names);
    m.isc_front_and_rear = r.quantity<Amps>("isc_rear_a", module_current);
    m.max_fuse = r.quantity<Amps>("max_fuse_a", positive("amperes"));
    m.max_system = r.quantity<Volts>("max_system_v", positive("volts"));
    m.listed = r.boolean("listed");
    r.finish();
    if (m.voc_coefficient && m.voc_coefficient_absolute)
      reading_.problem(value.find("voc_coeff_v_per_c"),
                       "found the coefficient of Voc both in %/°C and in V/°C, expected one of them; remove one");
    if (voc && m.vmp && *m.vmp > m.voc)
      reading_.problem(value.find("vmp_v"), fmt::format("found Vmp {} V above Voc {} V, expected it below; check for "
                                                        "swapped values", m.vmp->value(), m.voc.value()));
    if (isc && m.imp && *m.imp > m.isc)
      reading_.problem(value.find("imp_a"), fmt::format("found Imp {} A above Isc {} A, expected it below; check for "
                                                        "swapped values", m.imp->value(), m.isc.value()));
    if (m.isc_front_and_rear && isc && *m.isc_front_and_rear < m.isc)
      reading_.problem(value.find("isc_rear_a"),
                       fmt::format("found {} A for front and rear together, expected at least isc_a, {} A; it is the "
                                   "total, not the rear's share", m.isc_front_and_rear->value(), m.isc.value()));
    if (m.pmax && m.vmp && m.imp) {
      const double power = m.vmp->value() * m.imp->value();
      if (exceeds(std::abs(m.pmax->value() - power), power_tolerance * power))
        reading_.problem(value.find("pmax_w"),
                         fmt::format("found Pmax {} W, expected within 10 % of Imp · Vmp = {:.1f} W; check the three "
                                     "values", m.pmax->value(), power));
    }
  }

  void inverter(const Value& value) {
    auto& entry = design_.inverters.at(value.key());
    entry.defined = true;
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    Inverter& i = entry.part;
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

  std::optional<Size> size(ObjectReader& r) {
    const Field field = r.take("size");
    if (!field) return std::nullopt;
    const auto index = to_word(field.top(), Size::names, reading_);
    return index ? std::optional<Size>(Size(*index)) : std::nullopt;
  }

  void conductor(const Value& value) {
    auto& entry = design_.conductors.at(value.key());
    entry.defined = true;
    ObjectReader r(Field(value), reading_);
    if (!r.ok()) return;
    Conductor& c = entry.part;
    c.size = size(r);
    c.material = r.choice<Material>("material", material_names);
    c.insulation = r.text("insulation").value_or("");
    c.insulation_temperature = r.number("insulation_c", between(60, 250, "degrees Celsius"));
    if (const auto t = c.insulation_temperature; t && *t < 90 && *t != 60 && *t != 75)
      reading_.problem(value.find("insulation_c"),
                       fmt::format("found {}, expected 60, 75, 90 or a higher rating", *t));
    c.rated = r.quantity<Volts>("rated_v", positive("volts"));
    c.stranding = r.choice<Stranding>("stranding", stranding_names);
    r.finish();
  }

  // A reference by id to a named part; told at the end if it has not been defined by then.
  template <class T>
  const T* refer(Library<T>& library, std::string_view kind, const Field& field) {
    if (!field || !to_text_value(field.top(), reading_)) return nullptr;
    auto& entry = library.at(field.top().text());
    if (!entry.defined && field.top().tree() != reading_.silent)
      pending_.push_back({&entry.defined, kind, entry.part.id, field.top().offset(), pointer_of(field.top())});
    return &entry.part;
  }

  Run run(const Field& field) {
    ObjectReader r(field, reading_, true);
    Run run;
    run.conductor = refer(design_.conductors, "conductors", r.take("conductor"));
    run.method = r.choice<Method>("method", method_names);
    run.current_carrying = r.count("current_carrying", count_from_1).value_or(2);
    run.above_roof = r.quantity<Millimetres>("above_roof_mm", not_negative("millimetres"));
    run.ambient = r.quantity<Celsius>("ambient_c", between(-70, 150, "degrees Celsius"));
    if (const Field terminal = r.take("terminal_c")) {
      const auto t = to_number(terminal.top(), between(60, 90, "degrees Celsius"), reading_);
      if (t && *t != 60 && *t != 75 && *t != 90)
        reading_.problem(terminal.top(), fmt::format("found {}, expected 60, 75 or 90", *t));
      else if (t)
        run.terminal = static_cast<std::uint8_t>(*t);
    }
    run.length = r.quantity<Metres>("length_m", not_negative("metres"));
    run.parallel = r.count("parallel", count_from_1).value_or(1);
    r.finish();
    return run;
  }

  std::optional<GroundingConductor> grounding(const Field& field) {
    if (!field) return std::nullopt;
    ObjectReader r(field, reading_, true);
    GroundingConductor g;
    g.size = size(r);
    g.material = r.choice<Material>("material", material_names);
    r.finish();
    return g;
  }

  Circuit circuit(const Value& value, std::size_t position) {
    ObjectReader r(Field(value), reading_);
    Circuit c;
    if (!r.ok()) return c;
    c.id = r.text("id").value_or(std::to_string(position + 1));
    c.module = refer(design_.modules, "modules", r.required("module"));
    if (const Field series = r.required("series"))
      c.series = static_cast<std::uint32_t>(to_number(series.top(), count_from_1, reading_).value_or(1));
    c.strings = r.count("strings", count_from_1).value_or(1);
    c.strings_per_fuse = r.count("strings_per_fuse", count_from_1).value_or(1);
    if (c.strings % c.strings_per_fuse != 0)
      reading_.problem(value.find("strings_per_fuse"),
                       fmt::format("found {} strings to a fuse for {} strings, expected a number that divides them; "
                                   "state the odd fuse as a circuit of its own", c.strings_per_fuse, c.strings));
    if (const Field run_field = r.take("run")) c.run = run(run_field);
    c.bond = grounding(r.take("bond"));
    r.finish();
    return c;
  }

  std::vector<Circuit> circuits(const Field& field) {
    std::vector<Circuit> out;
    const Value& list = field.top();
    if (!expect(list, Kind::array, reading_)) return out;
    if (!list.first())
      reading_.problem(list, "found an empty list, expected at least one group of source circuits");
    out.reserve(list.size());
    for (Value v = list.first(); v; v = v.next_within(list)) {
      out.push_back(circuit(v, out.size()));
      for (std::size_t i = 0; i + 1 < out.size(); ++i)
        if (out[i].id == out.back().id)
          reading_.problem(v, fmt::format("found the circuit id \"{}\" a second time in this box, expected each once",
                                          out[i].id));
    }
    return out;
  }

  Mounting mounting(const Field& field) {
    ObjectReader r(field, reading_, true);
    Mounting m;
    m.place = r.choice<Place>("place", place_names);
    m.cover = r.choice<Cover>("cover", cover_names);
    m.air_gap = r.quantity<Millimetres>("air_gap_mm", not_negative("millimetres"));
    m.wet = r.boolean("wet");
    r.finish();
    return m;
  }

  Enclosure enclosure(const Field& field) {
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

  Fuse fuse(const Field& field) {
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

  Output output(const Field& field) {
    ObjectReader r(field, reading_, true);
    Output o;
    if (const Field run_field = r.take("run")) o.run = run(run_field);
    o.ocpd = r.quantity<Amps>("ocpd_a", positive("amperes"));
    o.ocpd_rated_100_pct = r.boolean("ocpd_rated_100_pct");
    r.finish();
    return o;
  }

  Disconnect disconnect(const Field& field) {
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

  std::vector<Label> labels(const Field& field) {
    std::vector<Label> out;
    const Value& list = field.top();
    if (!expect(list, Kind::array, reading_)) return out;
    for (Value v = list.first(); v; v = v.next_within(list)) {
      ObjectReader r(Field(v), reading_);
      if (!r.ok()) continue;
      Label label;
      if (const Field kind = r.required("kind"); kind && to_word(kind.top(), label_kinds, reading_))
        label.kind = std::string(kind.top().text());
      if (const Field values = r.take("values"); values && expect(values.top(), Kind::object, reading_))
        for (Value n = values.top().first(); n; n = n.next_within(values.top())) {
          if (n.kind() == Kind::number)
            label.values.emplace_back(std::string(n.key()), n.number());
          else if (n.kind() != Kind::text)
            reading_.problem(n, fmt::format("found {}, expected the number or text on the label", describe(n)));
        }
      r.finish();
      out.push_back(std::move(label));
    }
    return out;
  }

  // A part that comes wholly from the box type is shared with it.
  template <class T, class Read>
  std::shared_ptr<const T> part(ObjectReader& r, std::string_view key, const std::shared_ptr<const T>* in_type,
                                Read&& read) {
    const Field field = r.take(key);
    if (!field) return nullptr;
    if (in_type != nullptr && field.top().tree() == reading_.silent) return *in_type;
    return std::make_shared<const T>(read(field));
  }

  // What a box and a box type have in common. `type` is the type that the fields lie on, if there is one.
  void parts(ObjectReader& r, Combiner& box, const Combiner* type) {
    box.inverter = refer(design_.inverters, "inverters", r.take("inverter"));
    box.sheet = r.text("sheet").value_or("");
    box.location = r.text("location").value_or("");
    box.mounting = part<Mounting>(r, "mounting", type ? &type->mounting : nullptr,
                                  [&](const Field& f) { return mounting(f); });
    box.enclosure = part<Enclosure>(r, "enclosure", type ? &type->enclosure : nullptr,
                                    [&](const Field& f) { return enclosure(f); });
    box.fuse = part<Fuse>(r, "fuse", type ? &type->fuse : nullptr, [&](const Field& f) { return fuse(f); });
    box.output = part<Output>(r, "output", type ? &type->output : nullptr, [&](const Field& f) { return output(f); });
    box.disconnect = part<Disconnect>(r, "disconnect", type ? &type->disconnect : nullptr,
                                      [&](const Field& f) { return disconnect(f); });
    box.labels = part<std::vector<Label>>(r, "labels", type ? &type->labels : nullptr,
                                          [&](const Field& f) { return labels(f); });
    box.egc = grounding(r.take("egc"));
    box.bond = grounding(r.take("bond"));
    if (const Field list = r.take("circuits")) {
      if (type != nullptr && list.top().tree() == reading_.silent)
        box.circuits = type->circuits;
      else
        box.circuits = circuits(list);
    }
  }

  void box_types(const Tree& tree) {
    types_ = tree;  // boxes are patches onto it, so it stays until the last box is read
    const Value map(types_, 0);
    each(map, [&](const Value& v) {
      auto& entry = design_.box_types.at(v.key());
      entry.defined = true;
      ObjectReader r(Field(v), reading_, true);
      if (!r.ok()) return;
      parts(r, entry.part.parts, nullptr);
      r.finish();
    });
  }

  void combiner(std::uint32_t index, const Tree& tree) {
    const Value value(tree, 0);
    Combiner& box = design_.combiners[index];
    if (!expect(value, Kind::object, reading_)) return;
    Field field{value};
    if (const Value name = value.find("type"); name && name.kind() == Kind::text) {
      const BoxType* type = design_.box_types.find(name.text());
      if (type != nullptr) {
        box.type = type;
        field = Field(value, Field(Value(types_, 0).find(name.text())));
      } else {
        reading_.problem(name, missing_id("box_types", name.text(), ids_of(design_.box_types)));
      }
    }
    Reading& reading = reading_;
    reading.silent = box.type != nullptr ? &types_ : nullptr;
    ObjectReader r(field, reading, true);
    if (const Field id = r.required("id"); id && to_text_value(id.top(), reading)) {
      box.id = std::string(id.top().text());
      if (box.id.empty()) reading.problem(id.top(), "found an empty id, expected the id of the box on the plan");
      if (!ids_.emplace(box.id, index).second)
        reading.problem(id.top(), fmt::format("found the id \"{}\" a second time (first at /combiners/{}), expected "
                                              "an id for each box", box.id, ids_.at(box.id)));
    }
    r.text_view("type");
    parts(r, box, box.type != nullptr ? &box.type->parts : nullptr);
    if (box.inverter == nullptr && !field.find("inverter"))
      reading.problem(value, "found no \"inverter\", expected the id of the inverter that the box feeds; it is required");
    if (!field.find("circuits"))
      reading.problem(value, "found no \"circuits\", expected the list of source circuits; it is required");
    r.finish();
    reading.silent = nullptr;
  }

  template <class T>
  static std::vector<std::string_view> ids_of(const Library<T>& library) {
    std::vector<std::string_view> out;
    for (const auto& entry : library.entries())
      if (entry.defined) out.push_back(entry.part.id);
    return out;
  }

  static std::string missing_id(std::string_view kind, std::string_view id,
                                const std::vector<std::string_view>& known) {
    return fmt::format("found the id \"{}\", which is not in /{}, expected an id from there{}", id, kind,
                       text::did_you_mean(id, known));
  }

  void finish() {
    for (std::size_t i : {std::size_t{1}, std::size_t{2}, std::size_t{3}, std::size_t{4}, std::size_t{5},
                          std::size_t{8}})
      if (!seen_[i])
        problems_.add(0, "", fmt::format("found no \"{}\" at the top of the document, expected it; it is required",
                                         top_keys[i]));
    if (list_offset_ && design_.combiners.empty())
      problems_.add(*list_offset_, "/combiners", "found an empty list, expected at least one combiner box");
    for (const Pending& p : pending_) {
      if (*p.defined) continue;
      const auto known = p.kind == "modules"     ? ids_of(design_.modules)
                         : p.kind == "inverters" ? ids_of(design_.inverters)
                                                 : ids_of(design_.conductors);
      problems_.add(p.offset, p.pointer, missing_id(p.kind, p.id, known));
    }
  }

  struct Pending {
    const bool* defined;
    std::string_view kind;
    std::string_view id;
    std::uint32_t offset;
    std::string pointer;
  };

  std::string_view source_;
  Problems problems_;
  Reading reading_;
  std::shared_ptr<SourceMap> places_;
  Design design_;
  Tree types_;
  std::array<bool, top_keys.size()> seen_{};
  std::optional<std::uint32_t> list_offset_;
  std::vector<std::uint32_t> deferred_, offsets_;
  std::unordered_map<std::string, std::uint32_t> ids_;
  std::vector<Pending> pending_;
};

}  // namespace
}  // namespace read

DesignFile read_design(const Document& document) { return read::DesignReader(document).read(); }

}  // namespace boxproof
