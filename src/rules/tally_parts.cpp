// Conductors, enclosure and disconnect as found against the plan's.
#include "src/check/as_built.hpp"
#include "src/rules/tally.hpp"
#include "src/rules/tally_item.hpp"

namespace boxproof {
namespace {

struct ConductorItems {
  Item size, material, stranding, insulation;
};
constexpr ConductorItems output_items{
    {"output size", "/output/size", "The size of the output conductor"},
    {"output material", "/output/material", "The material of the output conductor"},
    {"output stranding", "/output/stranding", "The stranding of the output conductor"},
    {"output insulation", "/output/insulation", "The insulation of the output conductor"}};
constexpr ConductorItems source_items{
    {"source size", "/source/size", "The size of the source conductors"},
    {"source material", "/source/material", "The material of the source conductors"},
    {"source stranding", "/source/stranding", "The stranding of the source conductors"},
    {"source insulation", "/source/insulation", "The insulation of the source conductors"}};
constexpr Item egc_size{"egc size", "/egc/size", "The size of the equipment grounding conductor"};
constexpr Item egc_material{"egc material", "/egc/material",
                            "The material of the equipment grounding conductor"};

std::string_view size_name(Size size) {
  return size.name();
}
std::string_view material_name(Material m) {
  return material_names[static_cast<std::size_t>(m)];
}
std::string_view stranding_name(Stranding s) {
  return stranding_names[static_cast<std::size_t>(s)];
}

// An empty text on the plan is not stated.
void compare_words(const VisitCase& c, Notes& out, const Item& item, const std::optional<std::string>& found,
                   const std::string& planned) {
  if (found && !planned.empty() && !same_word(*found, planned)) differs(c, out, item, *found, planned);
}

void output(const VisitCase& c, Notes& out) {
  const FoundConductor& found = c.visited.output;
  if (!c.plan.output || !c.plan.output->run || c.plan.output->run->conductor == nullptr) return;
  const Conductor& planned = *c.plan.output->run->conductor;
  compare(c, out, output_items.size, found.size, planned.size, size_name);
  compare(c, out, output_items.material, found.material, planned.material, material_name);
  compare(c, out, output_items.stranding, found.stranding, planned.stranding, stranding_name);
  compare_words(c, out, output_items.insulation, found.insulation, planned.insulation);
}

// The plan's value of the first group that differs from what was found: one finding speaks for all groups.
template <class Differs>
const Conductor* first_conductor(const Combiner& plan, Differs&& differs_from) {
  for (const Circuit& circuit : plan.circuits)
    if (circuit.run && circuit.run->conductor != nullptr && differs_from(*circuit.run->conductor))
      return circuit.run->conductor;
  return nullptr;
}

void source(const VisitCase& c, Notes& out) {
  const FoundConductor& found = c.visited.source;
  const auto member = [&](const Item& item, const auto& value, auto Conductor::*planned, auto&& name) {
    const Conductor* other = first_conductor(c.plan, [&](const Conductor& conductor) {
      return value && conductor.*planned && conductor.*planned != value;
    });
    if (other != nullptr) compare(c, out, item, value, other->*planned, name);
  };
  member(source_items.size, found.size, &Conductor::size, size_name);
  member(source_items.material, found.material, &Conductor::material, material_name);
  member(source_items.stranding, found.stranding, &Conductor::stranding, stranding_name);
  const Conductor* other = first_conductor(c.plan, [&](const Conductor& conductor) {
    return found.insulation && !conductor.insulation.empty() &&
           !same_word(conductor.insulation, *found.insulation);
  });
  if (other != nullptr) compare_words(c, out, source_items.insulation, found.insulation, other->insulation);
}

void enclosure(const VisitCase& c, Notes& out) {
  const FoundEnclosure& found = c.visited.enclosure;
  if (c.plan.enclosure) {
    compare_words(c, out, {"enclosure type", "/enclosure/type", "The type of the enclosure"}, found.type,
                  c.plan.enclosure->type);
    compare(c, out, {"enclosure listed", "/enclosure/listed", "The enclosure"}, found.listed,
            c.plan.enclosure->listed, [](bool yes) { return yes ? "listed" : "not listed"; });
  }
  if (c.plan.mounting)
    compare(c, out, {"enclosure cover", "/enclosure/cover", "The cover of the enclosure"}, found.cover,
            c.plan.mounting->cover,
            [](Cover cover) { return cover == Cover::up ? "facing up" : "facing to the side"; });
}

void disconnect(const VisitCase& c, Notes& out) {
  const FoundDisconnect& found = c.visited.disconnect;
  const Disconnect* planned = c.plan.disconnect.get();
  const bool stated = found.rated_voltage || found.rated_current || found.load_break || found.distance;
  const Item presence{"disconnect present", found.present ? "/disconnect/present" : "/disconnect",
                      "The disconnect"};
  if (planned == nullptr) {
    if (found.present.value_or(stated)) differs(c, out, presence, "present", "none");
    return;
  }
  if (found.present == false) return differs(c, out, presence, "absent", "present");
  compare_number(c, out, {"disconnect rated_v", "/disconnect/rated_v", "The rated voltage of the disconnect"},
                 found.rated_voltage, planned->rated_voltage, "V");
  compare_number(c, out, {"disconnect rated_a", "/disconnect/rated_a", "The rated current of the disconnect"},
                 found.rated_current, planned->rated_current, "A");
  if (found.works == false)
    differs(c, out, {"disconnect works", "/disconnect/works", "The disconnect"}, "found not to work",
            "one that works");
  compare(c, out, {"disconnect load_break", "/disconnect/load_break", "The disconnect"}, found.load_break,
          planned->load_break,
          [](bool yes) { return yes ? "of the load-break kind" : "of the isolating kind"; });
  compare_number(c, out,
                 {"disconnect distance_m", "/disconnect/distance_m", "The distance to the disconnect"},
                 found.distance, planned->distance, "m");
}

}  // namespace

const Rule tally_part{
    .id = "tally/part",
    .severity = Severity::correction,
    .title = "A part differs from the plan",
    .explain =
        {"Holds the conductors, the enclosure and the disconnect that were found against those on the plan.",
         "Ampacity, rain tightness and the power to break a fault were approved for the planned parts. "
         "Another size of conductor or another type of box looks the same from the ladder and fails in the "
         "first hot summer or the first storm.",
         "Each stated item against the plan's, one finding an item; what the plan does not state is not "
         "compared. Source conductors are held against those of every group of the box. Whether the other "
         "part would do is said by the rules that judge the box as found."},
    .remedy = "Fit the part of the plan, or have the plan changed.",
    .judge_visit = [](const VisitCase& c, Notes& out) {
      output(c, out);
      source(c, out);
      if (c.plan.egc) {
        compare(c, out, egc_size, c.visited.egc.size, c.plan.egc->size, size_name);
        compare(c, out, egc_material, c.visited.egc.material, c.plan.egc->material, material_name);
      }
      enclosure(c, out);
      disconnect(c, out);
    }};

}  // namespace boxproof
