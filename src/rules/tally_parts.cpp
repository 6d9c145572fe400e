// Conductors and enclosure as found against the plan's; the disconnect has a file of its own.
#include "src/check/as_built.hpp"
#include "src/rules/common.hpp"
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
                   const std::string& planned, std::string beside) {
  if (found && !planned.empty() && !same_word(*found, planned))
    differs(c, out, item, *found, planned, std::move(beside));
}

// "6 AWG, copper, THHN": what was found of a conductor; empty where that is nothing.
std::string words_of(const FoundConductor& found) {
  std::string out;
  const auto add = [&](std::string_view word) { out += (out.empty() ? "" : ", ") + std::string(word); };
  if (found.size) add(size_name(*found.size));
  if (found.material) add(material_name(*found.material));
  if (found.stranding) add(fmt::format("{} stranding", stranding_name(*found.stranding)));
  if (found.insulation) add(*found.insulation);
  return out;
}

// A conductor that was found where the plan states none: nothing to compare, and no run to judge it in.
void not_on_plan(const VisitCase& c, Notes& out, const Item& item, const FoundConductor& found,
                 std::string_view where) {
  const std::string words = words_of(found);
  if (words.empty()) return;
  out.find(Severity::query, std::string(item.part))
      .found(words)
      .required(std::string("a conductor that the plan states"))
      .at_record(record_pointer(c, item.key))
      .ask("Have the plan state the conductor and how it is laid, so that what was found can be judged.")
      .say("{} of {} was found ({}); the plan states none{}.", item.subject, c.plan.id, words, where);
}

void output(const VisitCase& c, Notes& out) {
  const FoundConductor& found = c.visited.output;
  if (!c.plan.output || !c.plan.output->run || c.plan.output->run->conductor == nullptr)
    return not_on_plan(c, out, {"output", "/output", "The output conductor"}, found, "");
  const Conductor& planned = *c.plan.output->run->conductor;
  compare(c, out, output_items.size, found.size, planned.size, size_name, key_of(planned, "size"));
  compare(c, out, output_items.material, found.material, planned.material, material_name,
          key_of(planned, "material"));
  compare(c, out, output_items.stranding, found.stranding, planned.stranding, stranding_name,
          key_of(planned, "stranding"));
  compare_words(c, out, output_items.insulation, found.insulation, planned.insulation,
                key_of(planned, "insulation"));
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
  const auto member = [&](const Item& item, const auto& value, auto Conductor::*planned, auto&& name,
                          std::string_view key) {
    const Conductor* other = first_conductor(c.plan, [&](const Conductor& conductor) {
      return value && conductor.*planned && conductor.*planned != value;
    });
    if (other != nullptr) compare(c, out, item, value, other->*planned, name, key_of(*other, key));
  };
  member(source_items.size, found.size, &Conductor::size, size_name, "size");
  member(source_items.material, found.material, &Conductor::material, material_name, "material");
  member(source_items.stranding, found.stranding, &Conductor::stranding, stranding_name, "stranding");
  const Conductor* other = first_conductor(c.plan, [&](const Conductor& conductor) {
    return found.insulation && !conductor.insulation.empty() &&
           !same_word(conductor.insulation, *found.insulation);
  });
  if (other != nullptr)
    compare_words(c, out, source_items.insulation, found.insulation, other->insulation,
                  key_of(*other, "insulation"));
  std::vector<std::string> without;
  for (const Circuit& circuit : c.plan.circuits)
    if (!circuit.run || circuit.run->conductor == nullptr) without.push_back(circuit.id);
  if (!without.empty())
    not_on_plan(c, out, {"source", "/source", "The conductor of the source circuits"}, found,
                fmt::format(" for circuit{} {}", without.size() == 1 ? "" : "s", listed(without)));
}

void grounding(const VisitCase& c, Notes& out) {
  const GroundingConductor& found = c.visited.egc;
  if (!c.plan.egc) {
    if (found.size || found.material)
      not_planned(
          c, out,
          {"egc present", found.size ? "/egc/size" : "/egc/material", "The equipment grounding conductor"},
          "Have the plan state the equipment grounding conductor that is there.");
    return;
  }
  compare(c, out, egc_size, found.size, c.plan.egc->size, size_name);
  compare(c, out, egc_material, found.material, c.plan.egc->material, material_name);
}

void enclosure(const VisitCase& c, Notes& out) {
  const FoundEnclosure& found = c.visited.enclosure;
  if (c.plan.enclosure) {
    compare_words(c, out, {"enclosure type", "/enclosure/type", "The type of the enclosure"}, found.type,
                  c.plan.enclosure->type, plan_pointer(c, "/enclosure/type"));
    compare(c, out, {"enclosure listed", "/enclosure/listed", "The enclosure"}, found.listed,
            c.plan.enclosure->listed, [](bool yes) { return yes ? "listed" : "not listed"; });
  }
  if (c.plan.mounting)
    compare(c, out, {"enclosure cover", "/enclosure/cover", "The cover of the enclosure", "/mounting/cover"},
            found.cover, c.plan.mounting->cover,
            [](Cover cover) { return cover == Cover::up ? "facing up" : "facing to the side"; });
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
         "Each stated item against the plan's, one finding an item; a value that the plan does not state is "
         "not compared, and a conductor that it does not state is a query. A disconnect that does not work "
         "is told here, too. Source conductors are held against those of every group of the box. Whether the other "
         "part would do is said by the rules that judge the box as found."},
    .remedy = "Fit the part of the plan, or have the plan changed.",
    .judge_visit = [](const VisitCase& c, Notes& out) {
      output(c, out);
      source(c, out);
      grounding(c, out);
      enclosure(c, out);
      compare_disconnect(c, out);
    }};

}  // namespace boxproof
