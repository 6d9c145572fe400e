#include "tests/support/box_text.hpp"

#include <fmt/format.h>

namespace boxproof::test {
namespace {

std::string shown(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}
std::string shown(double number) {
  return fmt::format("{:a}", number == 0 ? 0.0 : number);  // every bit of it
}
std::string shown(std::uint32_t number) {
  return fmt::format("{}", number);
}
std::string shown(bool truth) {
  return truth ? "true" : "false";
}
template <class Tag>
std::string shown(Quantity<Tag> quantity) {
  return shown(quantity.value());
}
std::string shown(Celsius temperature) {
  return shown(temperature.value());
}
std::string shown(Size size) {
  return std::string(size.name());
}
template <class E>
requires std::is_enum_v<E> std::string shown(E word) {
  return fmt::format("{}", static_cast<int>(word));
}
std::string shown(const Run& run);
std::string shown(const GroundingConductor& wire);
template <class T>
std::string shown(const std::optional<T>& value) {
  return value ? shown(*value) : "-";
}

std::string shown(const Run& r) {
  return fmt::format("run({} {} {} {} {} {} {} {})", r.conductor != nullptr ? shown(r.conductor->id) : "-",
                     shown(r.method), r.current_carrying, r.parallel, shown(r.above_roof), shown(r.ambient),
                     shown(r.length), r.terminal);
}
std::string shown(const GroundingConductor& g) {
  return fmt::format("wire({} {})", shown(g.size), shown(g.material));
}
std::string shown(const Circuit& c) {
  return fmt::format("circuit({} {} {} {} {} {} {})", shown(std::string_view(c.id)),
                     shown(std::string_view(c.module->id)), c.series, c.strings, c.strings_per_fuse,
                     shown(c.run), shown(c.bond));
}
std::string shown(const Mounting& m) {
  return fmt::format("mounting({} {} {} {})", shown(m.place), shown(m.cover), shown(m.air_gap), shown(m.wet));
}
std::string shown(const Enclosure& e) {
  return fmt::format("enclosure({} {} {} {} {} {} {} {})", shown(e.type), shown(e.rated_voltage),
                     shown(e.rated_current), shown(e.inputs), shown(e.listed), shown(e.metal),
                     e.rated_100_pct, shown(e.inside));
}
std::string shown(const Fuse& f) {
  return fmt::format("fuse({} {} {} {} {} {} {})", shown(f.rating), shown(f.voltage), shown(f.dc),
                     shown(f.pv_listed), shown(f.poles), shown(f.interrupt_kiloamps),
                     shown(f.ambient_factor));
}
std::string shown(const Output& o) {
  return fmt::format("output({} {} {})", shown(o.run), shown(o.ocpd), shown(o.ocpd_rated_100_pct));
}
std::string shown(const Disconnect& d) {
  return fmt::format("disconnect({} {} {} {} {} {})", shown(d.rated_voltage), shown(d.rated_current),
                     shown(d.load_break), shown(d.distance), shown(d.external_handle), shown(d.lockable));
}
std::string shown(const Label& label) {
  std::string out = label.kind + "(";
  for (const auto& [name, number] : label.values) out += fmt::format("{}={} ", shown(name), shown(number));
  for (const auto& [name, text] : label.texts) out += fmt::format("{}={} ", shown(name), shown(text));
  return out + ")";
}
template <class T>
std::string shown(const std::vector<T>& list) {
  std::string out = "[";
  for (const T& item : list) out += shown(item) + " ";
  return out + "]";
}
template <class T>
std::string shown(const std::shared_ptr<const T>& part) {
  return part ? shown(*part) : "-";
}

}  // namespace

std::string box_text(const Combiner& b) {
  return fmt::format(
      "box {} of {} at {} {} feeds {}\n  {}\n  {}\n  {}\n  {}\n  {}\n  {}\n  egc {} bond {}\n  {}\n",
      shown(b.id), b.type != nullptr ? shown(b.type->id) : "-", shown(b.sheet), shown(b.location),
      shown(b.inverter->id), shown(b.mounting), shown(b.enclosure), shown(b.circuits), shown(b.fuse),
      shown(b.output), shown(b.disconnect), shown(b.egc), shown(b.bond), shown(b.labels));
}

std::vector<std::string> box_texts(const Design& design) {
  std::vector<std::string> out;
  for (const Combiner& box : design.combiners) out.push_back(box_text(box));
  return out;
}

}  // namespace boxproof::test
