#include "src/read/box_reader.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/read/named_parts.hpp"
#include "src/text/nearest.hpp"

namespace boxproof::read {
namespace {

template <class T>
std::string no_such_id(const Library<T>& library, std::string_view kind, std::string_view id) {
  std::vector<std::string_view> known;
  for (const auto& entry : library.entries()) known.push_back(entry.id);
  return fmt::format("found the id \"{}\", which is not in /{}, expected an id from there{}", id, kind,
                     text::did_you_mean(id, known));
}

}  // namespace

// A part of the design by its id; a problem and null where there is none.
template <class T>
const T* BoxReader::refer(const Library<T>& library, std::string_view kind, const Field& field) {
  if (!field || !to_text_value(field.top(), reading_)) return nullptr;
  const T* part = library.find(field.top().text());
  if (part == nullptr) reading_.problem(field.top(), no_such_id(library, kind, field.top().text()));
  return part;
}

Run BoxReader::run(const Field& field) {
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

std::optional<GroundingConductor> BoxReader::grounding(const Field& field) {
  if (!field) return std::nullopt;
  ObjectReader r(field, reading_, true);
  GroundingConductor g;
  g.size = read_size(r);
  g.material = r.choice<Material>("material", material_names);
  r.finish();
  return g;
}

Circuit BoxReader::circuit(const Value& value, std::size_t position) {
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
    reading_.problem(
        value.find("strings_per_fuse"),
        fmt::format("found {} strings to a fuse for {} strings, expected a number that divides them; state "
                    "the odd fuse as a circuit of its own",
                    c.strings_per_fuse, c.strings));
  if (const Field run_field = r.take("run")) c.run = run(run_field);
  c.bond = grounding(r.take("bond"));
  r.finish();
  return c;
}

std::vector<Circuit> BoxReader::circuits(const Field& field) {
  std::vector<Circuit> out;
  const Value& list = field.top();
  if (!expect(list, Kind::array, reading_)) return out;
  if (!list.first())
    reading_.problem(list, "found an empty list, expected at least one group of source circuits");
  out.reserve(list.size());
  for (Value v = list.first(); v; v = v.next_within(list)) {
    out.push_back(circuit(v, out.size()));
    const auto same =
        std::find_if(out.begin(), out.end() - 1, [&](const Circuit& c) { return c.id == out.back().id; });
    if (same != out.end() - 1)
      reading_.problem(
          v,
          fmt::format("found the circuit id \"{}\" a second time in this box, expected each once", same->id));
  }
  return out;
}

// A part that comes wholly from the box type is shared with it.
template <class T, class Read>
std::shared_ptr<const T> BoxReader::part(ObjectReader& r, std::string_view key,
                                         const std::shared_ptr<const T>* in_type, Read&& read) {
  const Field field = r.take(key);
  if (!field) return nullptr;
  if (in_type != nullptr && field.top().tree() == reading_.silent) return *in_type;
  return std::make_shared<const T>(read(field));
}

// What a box and a box type have in common. `type` is the type that the fields lie on, if there is one.

void BoxReader::parts(ObjectReader& r, Combiner& box, const Combiner* type) {
  box.inverter = refer(design_.inverters, "inverters", r.take("inverter"));
  box.sheet = r.text("sheet").value_or("");
  box.location = r.text("location").value_or("");
  box.mounting = part<Mounting>(r, "mounting", type ? &type->mounting : nullptr,
                                [&](const Field& f) { return mounting(f); });
  box.enclosure = part<Enclosure>(r, "enclosure", type ? &type->enclosure : nullptr,
                                  [&](const Field& f) { return enclosure(f); });
  box.fuse = part<Fuse>(r, "fuse", type ? &type->fuse : nullptr, [&](const Field& f) { return fuse(f); });
  box.output =
      part<Output>(r, "output", type ? &type->output : nullptr, [&](const Field& f) { return output(f); });
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

void BoxReader::type(const Value& value, BoxType& type) {
  ObjectReader r(Field(value), reading_, true);
  if (!r.ok()) return;
  parts(r, type.parts, nullptr);
  r.finish();
}

void BoxReader::box(const Tree& tree, Combiner& box) {
  const Value value(tree, 0);
  if (!expect(value, Kind::object, reading_)) return;
  Field field{value};
  reading_.silent = nullptr;
  if (const Value name = value.find("type"); name && name.kind() == Kind::text) {
    box.type = refer(design_.box_types, "box_types", Field(name));
    if (box.type != nullptr) {
      field = Field(value, Field(Value(types_, 0).find(name.text())));
      reading_.silent = &types_;
    }
  }
  ObjectReader r(field, reading_, true);
  if (const Field id = r.required("id"); id && to_text_value(id.top(), reading_)) {
    box.id = std::string(id.top().text());
    if (box.id.empty())
      reading_.problem(id.top(), "found an empty id, expected the id of the box on the plan");
  }
  r.text_view("type");
  parts(r, box, box.type != nullptr ? &box.type->parts : nullptr);
  const auto required = [&](std::string_view key, std::string_view what) {
    const Field there = field.find(key);
    if (!there || there.kind() == Kind::null)
      reading_.problem(value, fmt::format("found no \"{}\", expected {}; it is required", key, what));
  };
  const Value named = value.find("type");
  if (box.type == nullptr && named && named.kind() != Kind::null)
    return r.finish();  // what the type states is not known
  required("inverter", "the id of the inverter that the box feeds");
  required("circuits", "the list of source circuits");
  r.finish();
}

}  // namespace boxproof::read
