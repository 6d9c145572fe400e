// What is written beside the enclosure, the bus, the disconnect, the output and the inverter of a drawn box.
#include <algorithm>

#include "src/report/schematic_lines.hpp"
#include "src/report/schematic_words.hpp"
#include "src/rules/common.hpp"

namespace boxproof::report {
namespace {

std::string grounding_wire(const std::optional<GroundingConductor>& g) {
  if (!g || (!g->size && !g->material)) return "?";
  return fmt::format("{} {}", g->size ? g->size->name() : "?",
                     g->material ? material_names[static_cast<std::size_t>(*g->material)] : "?");
}

std::string type_of(const Combiner& box) {
  return fmt::format("type {}", box.enclosure && !box.enclosure->type.empty() ? box.enclosure->type : "?");
}

std::string listing_of(const Combiner& box) {
  return box.enclosure ? word_or_unknown(box.enclosure->listed, "listed", "NOT LISTED", "listed")
                       : "listed ?";
}

std::string switch_name(const Disconnect& d) {
  return word_or_unknown(d.load_break, "load-break switch", "isolating switch", "switch, kind");
}
std::string switch_ratings(const Disconnect& d) {
  return or_unknown(d.rated_voltage, "V") + ", " + or_unknown(d.rated_current, "A");
}
std::string output_wire(const Combiner& box) {
  const Run* run = box.output && box.output->run ? &*box.output->run : nullptr;
  return run == nullptr || run->conductor == nullptr ? std::string("output conductor ?")
                                                     : wire(*run->conductor);
}

}  // namespace

std::vector<GroundingConductor> bonds_of(const Combiner& box) {
  std::vector<GroundingConductor> out;
  const auto add = [&](const std::optional<GroundingConductor>& g) {
    if (g && std::none_of(out.begin(), out.end(), [&](const GroundingConductor& had) {
          return had.size == g->size && had.material == g->material;
        }))
      out.push_back(*g);
  };
  for (const Circuit& c : box.circuits) add(c.bond ? c.bond : box.bond);
  return out;
}

DrawnLines words_of_enclosure(const DrawnBox& b) {
  DrawnLines out{title(b.plan.id)};
  if (b.report.record != nullptr && b.visited == nullptr) out.push_back(detail("not visited: as planned"));
  tell(out, type_of(b.box), type_of(b.plan));
  tell(out, listing_of(b.box), listing_of(b.plan));
  const Enclosure unknown;
  const Enclosure& e = b.box.enclosure ? *b.box.enclosure : unknown;
  out.push_back(detail(or_unknown(e.rated_voltage, "V") + ", " + or_unknown(e.rated_current, "A")));
  const bool over = e.inputs && b.facts.inputs > *e.inputs;
  out.push_back({over ? Kind::title : Kind::detail, fmt::format("{} of {} inputs used", b.facts.inputs,
                                                                e.inputs ? std::to_string(*e.inputs) : "?")});
  return out;
}

DrawnLines words_of_bus(const DrawnBox& b) {
  return {detail(fmt::format("bus, up to {} A", boxproof::shown(b.facts.output_max))),
          detail("live with switch open")};
}

DrawnLines words_of_disconnect(const DrawnBox& b) {
  DrawnLines out;
  if (!b.box.disconnect) {
    if (!b.plan.disconnect) return {title("no disconnect planned")};
    return {{Kind::differs, "≠ no disconnect"}, detail("plan " + switch_name(*b.plan.disconnect))};
  }
  const Disconnect& d = *b.box.disconnect;
  if (!b.plan.disconnect) {
    out = {{Kind::differs, "≠ " + switch_name(d)},
           detail("plan none"),
           detail(switch_ratings(d)),
           detail(distance_words(d))};
  } else {
    const Disconnect& p = *b.plan.disconnect;
    if (switch_name(d) == switch_name(p))
      out.push_back(title(switch_name(d)));
    else
      tell(out, switch_name(d), switch_name(p));
    tell(out, switch_ratings(d), switch_ratings(p));
    tell(out, distance_words(d), distance_words(p));
  }
  if (b.visited != nullptr && b.visited->disconnect.works == false)
    out.push_back({Kind::differs, "≠ does not work"});
  return out;
}

DrawnLines words_of_output(const DrawnBox& b) {
  DrawnLines out;
  const std::string found = output_wire(b.box), planned = output_wire(b.plan);
  if (found == planned)
    out.push_back(title(found));
  else
    tell(out, found, planned);
  if (!b.box.output || !b.box.output->run) return out;
  const Run& run = *b.box.output->run;
  if (run.parallel > 1) out.push_back(detail(fmt::format("{} in parallel", run.parallel)));
  const bool insulated = run.conductor != nullptr && !run.conductor->insulation.empty();
  out.push_back(detail(fmt::format("{}, {}", insulated ? run.conductor->insulation : "insulation ?",
                                   or_unknown(run.length, "m"))));
  out.push_back(detail(!run.method                      ? "laid ?"
                       : *run.method == Method::raceway ? "in raceway"
                                                        : "in free air"));
  return out;
}

DrawnLines words_of_device(const DrawnBox& b) {
  const bool has = b.box.output && b.box.output->ocpd;
  return {
      detail(has ? boxproof::shown(*b.box.output->ocpd) + " A at the far end" : "no far-end device stated")};
}

DrawnLines words_of_grounding(const DrawnBox& b) {
  DrawnLines out{title("grounding")};
  tell(out, grounding_wire(b.box.egc), grounding_wire(b.plan.egc));
  return out;
}

DrawnLines words_of_bond(const DrawnBox& b) {
  DrawnLines out{title("bond")};
  const auto bonds = bonds_of(b.box);
  constexpr std::size_t few = 3;
  for (std::size_t i = 0; i < std::min(few, bonds.size()); ++i)
    out.push_back(detail(grounding_wire(bonds[i])));
  if (bonds.empty()) out.push_back(detail("?"));
  if (bonds.size() > few) out.push_back(detail(fmt::format("and {} sizes more", bonds.size() - few)));
  return out;
}

DrawnLines words_of_inverter(const DrawnBox& b) {
  const Inverter& i = *b.box.inverter;
  return {title(i.id), detail("up to " + or_unknown(i.max_dc, "V")),
          detail(i.grounding ? std::string(grounding_names[static_cast<std::size_t>(*i.grounding)]) +
                                   (*i.grounding == Grounding::ungrounded ? "" : " grounding")
                             : std::string("grounding ?"))};
}

std::string sentence_of(const DrawnBox& b) {
  const BoxFacts& f = b.facts;
  const auto each = fuses_an_input(b.box);
  std::string out =
      fmt::format("{} on {}", counted(f.strings, "string", "strings"), counted(f.inputs, "input", "inputs"));
  if (!b.box.fuse)
    out += " without fuses";
  else
    out += fmt::format(", each with a fuse of {} in {}", or_unknown(b.box.fuse->rating, "A"),
                       !each        ? "one or both poles (not stated)"
                       : *each == 2 ? "both poles"
                                    : "one pole");
  out += ", to a bus";
  if (!b.box.disconnect)
    out += " without a disconnect";
  else
    out += fmt::format(", a {} of {} ({})", switch_name(*b.box.disconnect), switch_ratings(*b.box.disconnect),
                       distance_words(*b.box.disconnect));
  out += fmt::format(", and by {} to inverter {}; enclosure {}.", output_wire(b.box), b.box.inverter->id,
                     type_of(b.box));
  return out;
}

}  // namespace boxproof::report
