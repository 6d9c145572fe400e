#include "src/rules/common.hpp"

#include <algorithm>

#include "src/text/pointer.hpp"
#include "src/text/words.hpp"

namespace boxproof {

std::string circuit_part(const Circuit& circuit) {
  return "circuit " + circuit.id;
}

std::string key_of(const Module& m, std::string_view key) {
  return fmt::format("/modules/{}/{}", text::pointer_token(m.id), key);
}
std::string key_of(const Inverter& i, std::string_view key) {
  return fmt::format("/inverters/{}/{}", text::pointer_token(i.id), key);
}
namespace {
constexpr std::string_view as_found_words = " as found";
}

std::string key_of(const Conductor& c, std::string_view key) {
  // A value that the plan lacks is asked for under the plan's name. The ratings of another insulation that
  // was found are in neither file.
  const bool rating = key == "insulation_c" || key == "rated_v";
  if (c.planned != nullptr && !(rating && !text::same_word(c.insulation, c.planned->insulation)))
    return key_of(*c.planned, key);
  const bool found = c.id.ends_with(as_found_words);
  return fmt::format("{}/{}/{}", found ? "" : "/conductors", text::pointer_token(c.id), key);
}

std::optional<bool> stands_outdoors(const Combiner& box) {
  if (!box.mounting || !box.mounting->place) return std::nullopt;
  return *box.mounting->place != Place::indoor;
}

std::string LaidRun::part() const {
  return circuit ? circuit_part(box->circuits[*circuit]) + " conductor" : "output conductor";
}
std::string LaidRun::name(const Terms& terms) const {
  return circuit
             ? fmt::format("{} conductor ({})", terms.string_circuit, circuit_part(box->circuits[*circuit]))
             : fmt::format("{} conductor", terms.output_circuit);
}
std::string LaidRun::pointer() const {
  return circuit ? fmt::format("/circuits/{}/run", *circuit) : "/output/run";
}

LaidRun source_run(const BoxCase& c, std::size_t i) {
  const Circuit& circuit = c.box.circuits[i];
  const CircuitFacts& f = c.facts.circuits[i];
  return {&c.box, i, circuit.run ? &*circuit.run : nullptr, &f.run, f.max, largest_fuse(c.box)};
}

LaidRun output_run(const BoxCase& c) {
  const Output* output = c.box.output.get();
  return {&c.box,
          std::nullopt,
          output && output->run ? &*output->run : nullptr,
          &c.facts.output_run,
          c.facts.output_max,
          output ? output->ocpd : std::nullopt};
}

void lacks_of_run(const BoxCase& c, Notes& out, const LaidRun& laid, bool speaks_for_all) {
  const auto in_run = [&](std::string_view key) {
    if (laid.circuit)
      out.lacks_in_circuit(c, *laid.circuit, fmt::format("/run{}", key), speaks_for_all);
    else
      out.lacks_in_box(fmt::format("/output/run{}", key), speaks_for_all);
  };
  const Lack lack = laid.ampacity->lack;
  if (lack == Lack::nothing) return;
  if (lack == Lack::run) return in_run("");
  const Conductor* conductor = laid.conductor();
  if (lack == Lack::table)
    return out.lacks(key_of(*conductor, "size"), speaks_for_all,
                     fmt::format("the table has no ampacity for {}", wire(*conductor)), wire(*conductor));
  // All that is missing at once, so that the plan need not come back for each.
  if (conductor == nullptr) in_run("/conductor");
  if (!laid.run->method) in_run("/method");
  if (!laid.run->ambient && !c.design.site.high) out.lacks("/site/high_c", speaks_for_all);
  if (conductor == nullptr) return;
  if (!conductor->size) out.lacks(key_of(*conductor, "size"), speaks_for_all);
  if (!conductor->material) out.lacks(key_of(*conductor, "material"), speaks_for_all);
  if (!conductor->insulation_temperature) out.lacks(key_of(*conductor, "insulation_c"), speaks_for_all);
}

void lacks_of_voltage(const BoxCase& c, Notes& out, bool speaks_for_all) {
  for (const CircuitFacts& f : c.facts.circuits) {
    const Module& m = *f.circuit->module;
    const auto no_coefficient = [&](std::string because) {
      out.lacks(key_of(m, "voc_coeff_pct_per_c"), speaks_for_all, because);
    };
    if (f.voltage.lack == Lack::low_temperature) out.lacks("/site/low_c", speaks_for_all);
    if (f.voltage.lack == Lack::cell)
      no_coefficient(fmt::format("Module {} states neither a coefficient of Voc nor its kind of cell", m.id));
    if (f.voltage.lack == Lack::coefficient && m.cell == Cell::thin_film)
      no_coefficient(fmt::format(
          "Module {} is thin film, for which there is no table, and states no coefficient", m.id));
    if (f.voltage.lack == Lack::coefficient && m.cell != Cell::thin_film)
      no_coefficient(
          fmt::format("{} °C is colder than the table's end at {} °C, and module {} states no coefficient",
                      shown(*design_low(c), c.edition.cold.bands.back().down_to),
                      shown(c.edition.cold.bands.back().down_to, *design_low(c)), m.id));
  }
}

std::string wire(const Conductor& c) {
  return fmt::format(
      "{} {}", c.size ? c.size->name() : "conductor of unknown size",
      c.material ? material_names[static_cast<std::size_t>(*c.material)] : "of unknown material");
}

std::optional<Amps> largest_fuse(const Combiner& box) {
  std::optional<Amps> rating = box.fuse ? box.fuse->rating : std::nullopt;
  for (Amps odd : box.odd_fuses) rating = rating ? std::max(*rating, odd) : odd;
  return rating;
}

std::optional<Amps> smallest_fuse(const Combiner& box) {
  std::optional<Amps> rating = box.fuse ? box.fuse->rating : std::nullopt;
  for (Amps odd : box.odd_fuses) rating = rating ? std::min(*rating, odd) : odd;
  return rating;
}

void work_ampacity(Working& working, const BoxCase& c, const LaidRun& laid) {
  if (laid.circuit)
    input_current(c.box.circuits[*laid.circuit], c.edition, &working);
  else
    output_current(c.box, c.edition, &working);
  run_ampacity(laid.run, laid.max, c.design.site.high, c.edition, &working);
}

}  // namespace boxproof
