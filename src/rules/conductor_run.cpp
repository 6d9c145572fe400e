// Grounding conductors, and voltage lost on the way.
#include <algorithm>

#include "src/rules/common.hpp"
#include "src/rules/list.hpp"

namespace boxproof {
namespace {

// The rating that a grounding conductor is sized for: the device ahead of it, or what the edition says to
// assume.
struct Ahead {
  Amps rating;
  bool assumed;
};

void judge_grounding(const BoxCase& c, Notes& out, const std::optional<GroundingConductor>& have,
                     const Ahead& ahead, std::string part, std::optional<std::size_t> circuit,
                     std::string_view pointer, std::string_view what) {
  const std::string_view why =
      ahead.assumed ? "assumed, there being no overcurrent device" : "the device ahead of it";
  const auto lacks = [&](std::string_view key) {
    if (circuit) return out.lacks_in_circuit(c, *circuit, fmt::format("{}/{}", pointer, key));
    out.lacks_in_box(fmt::format("{}/{}", pointer, key));
  };
  if (have && !have->size) return lacks("size");
  if (have && !have->material) return lacks("material");
  const Material material = have ? *have->material : Material::copper;
  const auto least = grounding_size(ahead.rating, material, c.edition);
  if (have && least && *have->size >= *least) return;
  Note note = out.find(std::move(part));
  note.found(
          have ? fmt::format("{} {}", have->size->name(), material_names[static_cast<std::size_t>(material)])
               : std::string("none"))
      .section(ahead.assumed ? c.edition.grounding.assumed_section : c.edition.grounding.section)
      .at(!have     ? std::string()
          : circuit ? fmt::format("/circuits/{}{}", *circuit, pointer)
                    : std::string(pointer));
  if (!least)
    note.say("The {} of {} is beyond the table for {} A ({}).", what, c.box.id, shown(ahead.rating), why);
  else
    note.required(fmt::format("{} {}", least->name(), material_names[static_cast<std::size_t>(material)]))
        .say("The {} of {} is {}; for {} A ({}) it must be at least {} {}.", what, c.box.id,
             have ? std::string(have->size->name()) : "not on the plan", shown(ahead.rating), why,
             least->name(), material_names[static_cast<std::size_t>(material)]);
}

void lacks_for_drop(const BoxCase& c, Notes& out, const LaidRun& laid) {
  const Conductor* conductor = laid.conductor();
  if (conductor == nullptr || !conductor->size || !conductor->material)
    return lacks_of_run(c, out, laid, false);
  if (laid.run->length) return;
  if (laid.circuit)
    out.lacks_in_circuit(c, *laid.circuit, "/run/length_m");
  else
    out.lacks_in_box("/output/run/length_m");
}

}  // namespace

const Rule conductor_grounding_size{
    .id = "conductor/grounding-size",
    .severity = Severity::correction,
    .title = "Equipment grounding conductor too small or absent",
    .explain =
        {"Compares the equipment grounding conductor of the output, and that of the source circuits, with "
         "the table by the overcurrent device ahead of it.",
         "It carries the fault current until the device opens; one that is too thin opens first and leaves "
         "the frames of the array live.",
         "The least size for the rating of the string fuse (source circuits) or of the device at the far "
         "end (output). Where there is none, the edition says which rating to assume from the "
         "short-circuit current. Never smaller than 14 AWG copper; not enlarged for voltage drop."},
    .remedy = "Use the size of the table, or larger.",
    .uses = {"conductor.grounding"},
    .judge = [](const BoxCase& c, Notes& out) {
      const double assumed = c.edition.grounding.assumed_factor;
      const std::optional<Amps> fuse = largest_fuse(c.box);
      const bool unknown_fuse = lacks_fuse_rating(c);
      if (unknown_fuse) out.lacks_in_box("/fuse/a");
      Amps isc_total;
      std::optional<Ahead> worst;
      for (std::size_t i = 0; i < c.box.circuits.size(); ++i) {
        const Circuit& g = c.box.circuits[i];
        const Amps isc = g.module->isc_for_circuits();
        isc_total += static_cast<double>(g.strings) * isc;
        const Ahead ahead =
            fuse ? Ahead{*fuse, false} : Ahead{assumed * static_cast<double>(g.strings_per_fuse) * isc, true};
        if (unknown_fuse) continue;
        if (g.bond) {
          judge_grounding(c, out, g.bond, ahead, fmt::format("bond of circuit {}", g.id), i, "/bond",
                          fmt::format("grounding conductor of circuit {}", g.id));
        } else if (!worst || ahead.rating > worst->rating) {
          worst = ahead;
        }
      }
      if (worst)  // a circuit without a bond of its own
        judge_grounding(c, out, c.box.bond, *worst, "bond", std::nullopt, "/bond",
                        "grounding conductor of the source circuits");
      const std::optional<Amps> device = c.box.output ? c.box.output->ocpd : std::nullopt;
      judge_grounding(c, out, c.box.egc, device ? Ahead{*device, false} : Ahead{assumed * isc_total, true},
                      "egc", std::nullopt, "/egc", "grounding conductor of the output");
    }};

const Rule conductor_voltage_drop{
    .id = "conductor/voltage-drop",
    .severity = Severity::advice,
    .title = "Voltage drop over the accepted share",
    .explain =
        {"Adds the voltage lost in a string's conductors to that lost in the output's, at rated operating "
         "current, and compares with the accepted share.",
         "What is lost in the wire is not sold, every hour for decades. It is a matter of yield, not of "
         "safety.",
         "100 times 2 times length times current times resistance, over the operating voltage: Imp of the "
         "circuit and n · Vmp; for the output the sum of Imp and the lowest n · Vmp. Resistance of the "
         "stranded, uncoated conductor at 75 °C (solid where stated), divided among conductors in "
         "parallel. The box's worst circuit counts."},
    .remedy = "Use larger conductors, or place the box nearer.",
    .uses = {"conductor.voltage_drop", "conductor.resistance"},
    .judge = [](const BoxCase& c, Notes& out) {
      std::optional<std::size_t> worst;
      for (std::size_t i = 0; i < c.box.circuits.size(); ++i) {
        const Circuit& g = c.box.circuits[i];
        if (!g.module->vmp) out.lacks(key_of(*g.module, "vmp_v"));
        if (!g.module->imp) out.lacks(key_of(*g.module, "imp_a"));
        lacks_for_drop(c, out, source_run(c, i));
        const auto& drop = c.facts.circuits[i].drop_pct;
        if (drop && (!worst || *drop > *c.facts.circuits[*worst].drop_pct)) worst = i;
      }
      const LaidRun output = output_run(c);
      lacks_for_drop(c, out, output);
      const double source = worst ? *c.facts.circuits[*worst].drop_pct : 0;
      const double rest = c.facts.output_drop_pct.value_or(0);
      if (!exceeds(source + rest, c.edition.voltage_drop_max_pct)) return;
      out.find("output and source circuit")
          .found(source + rest)
          .required(c.edition.voltage_drop_max_pct)
          .unit("%")
          .at(worst && source >= rest ? fmt::format("/circuits/{}/run/length_m", *worst)
                                      : std::string("/output/run/length_m"))
          .say(
              "{} loses {} % on the way: {} % in the string's conductors and {} % in the output's; {} % is "
              "accepted.",
              c.box.id, shown(source + rest, c.edition.voltage_drop_max_pct), shown(source), shown(rest),
              shown(c.edition.voltage_drop_max_pct, source + rest))
          .work([&](Working& w) {
            if (worst) {
              const Circuit& g = c.box.circuits[*worst];
              const auto input = operating_point(g);
              drop_pct(*g.run, input->current, input->voltage, c.edition, &w);
            }
            const auto point = operating_point(c.box);
            if (output.run != nullptr && point)
              drop_pct(*output.run, point->current, point->voltage, c.edition, &w);
            w.push_back(computed("dVall", "dVs + dVo", {{"dVs", source}, {"dVo", rest}}, source + rest, "%",
                                 "common practice"));
          });
    }};

}  // namespace boxproof
