// The box as found: the plan with whatever the record says in its place.
#include "src/check/as_built.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "boxproof/check.hpp"

namespace boxproof {
namespace {

// Puts a stated value in; says whether that changed anything.
template <class T>
bool put(std::optional<T>& where, const std::optional<T>& stated) {
  if (!stated || where == stated) return false;
  where = stated;
  return true;
}
bool put(std::string& where, const std::optional<std::string>& stated) {
  if (!stated || same_word(where, *stated)) return false;
  where = *stated;
  return true;
}

// Changes a part that other boxes may share: the box gets a copy, and only if something differs.
template <class T, class Change>
void change(std::shared_ptr<const T>& part, Change&& apply) {
  T copy = part ? *part : T();
  if (apply(copy)) part = std::make_shared<const T>(std::move(copy));
}

// Groups that split up by modules in series stand behind the plan's, so that those keep their places.
void put_strings(Combiner& box, const Combiner& plan, const VisitedBox& visited) {
  if (plan.circuits.empty()) return;
  const auto found = series_of_groups(plan, visited);
  for (std::size_t i = 0; i < plan.circuits.size(); ++i) {
    const Circuit& planned = plan.circuits[i];
    const std::vector<SeriesShare>& shares = found[i];
    const auto same = std::find_if(shares.begin(), shares.end(),
                                   [&](const SeriesShare& s) { return s.series == planned.series; });
    const std::size_t kept = same == shares.end() ? 0 : static_cast<std::size_t>(same - shares.begin());
    std::uint32_t before = 0;  // strings of the shares passed
    for (std::size_t s = 0; s < shares.size(); ++s) {
      if (s != kept) box.circuits.push_back(planned);
      Circuit& circuit = s == kept ? box.circuits[i] : box.circuits.back();
      circuit.series = shares[s].series;
      circuit.strings = shares[s].strings;
      // Strings of two lengths may be joined on one input: together they take no more than the group does.
      if (shares.size() > 1 && planned.strings_per_fuse > 1)
        circuit.shared_inputs = planned.inputs_of(before + shares[s].strings) - planned.inputs_of(before);
      before += shares[s].strings;
      if (shares.size() > 1 && circuit.series != planned.series)
        circuit.id = fmt::format("{}, {} in series", planned.id, circuit.series);
      circuit.part_of = static_cast<std::uint32_t>(i);
    }
  }
}

void put_fuse(Combiner& box, const VisitedBox& visited) {
  const FoundFuse& found = visited.fuse;
  const std::optional<std::uint32_t> counted = visited.count.fuses;
  if (counted == 0U) {
    box.fuse = nullptr;
  } else if (box.fuse || found.rating || counted || !visited.mixed_fuses.empty()) {
    const bool anew = !box.fuse;
    change(box.fuse, [&](Fuse& fuse) {
      bool changed = put(fuse.rating, found.rating);
      changed |= put(fuse.voltage, found.voltage);
      changed |= put(fuse.dc, found.dc);
      changed |= put(fuse.pv_listed, found.pv_listed);
      changed |= put(fuse.poles, found.poles);
      return changed || anew;
    });
  }
  for (const OddFuse& odd : visited.mixed_fuses)
    if (odd.rating && (!box.fuse || box.fuse->rating != odd.rating)) box.odd_fuses.push_back(*odd.rating);
}

void put_enclosure(Combiner& box, const FoundEnclosure& found) {
  change(box.enclosure, [&](Enclosure& enclosure) {
    const bool changed = put(enclosure.type, found.type);
    return put(enclosure.listed, found.listed) || changed;
  });
  change(box.mounting, [&](Mounting& mounting) {
    const bool changed = put(mounting.cover, found.cover);
    return put(mounting.air_gap, found.air_gap) || changed;
  });
}

void put_disconnect(Combiner& box, const FoundDisconnect& found) {
  if (found.present == false) {
    box.disconnect = nullptr;
    return;
  }
  const bool anew = !box.disconnect && (found.present || found.works);
  change(box.disconnect, [&](Disconnect& disconnect) {
    bool changed = put(disconnect.rated_voltage, found.rated_voltage);
    changed |= put(disconnect.rated_current, found.rated_current);
    changed |= put(disconnect.load_break, found.load_break);
    changed |= put(disconnect.distance, found.distance);
    return changed || anew;
  });
}

// The conductor as found; the plan's own where nothing differs.
const Conductor* found_conductor(const Conductor* planned, const FoundConductor& found, std::string_view what,
                                 FoundParts& own) {
  Conductor conductor = planned != nullptr ? *planned : Conductor();
  conductor.planned = planned;
  bool changed = put(conductor.size, found.size);
  changed |= put(conductor.material, found.material);
  changed |= put(conductor.stranding, found.stranding);
  const bool named = !conductor.insulation.empty();
  if (put(conductor.insulation, found.insulation)) {
    // The planned ratings were the other insulation's. Nobody stated the found one's, so they are to be asked
    // for.
    if (named) conductor.insulation_temperature = std::nullopt;
    if (named) conductor.rated = std::nullopt;
    changed = true;
  }
  if (!changed) return planned;
  conductor.id = (planned != nullptr ? planned->id : std::string(what)) + " as found";
  return &own.conductors.emplace_back(std::move(conductor));
}

void put_conductors(Combiner& box, const VisitedBox& visited, FoundParts& own) {
  if (box.output && box.output->run) {
    const Conductor* planned = box.output->run->conductor;
    const Conductor* found = found_conductor(planned, visited.output, "output conductor", own);
    change(box.output, [&](Output& output) { return std::exchange(output.run->conductor, found) != found; });
  }
  std::vector<std::pair<const Conductor*, const Conductor*>>
      made;  // planned, found: one copy for all its circuits
  for (Circuit& circuit : box.circuits) {
    if (!circuit.run) continue;
    const Conductor* planned = circuit.run->conductor;
    auto known = std::find_if(made.begin(), made.end(), [&](const auto& m) { return m.first == planned; });
    if (known == made.end())
      known = made.insert(made.end(),
                          {planned, found_conductor(planned, visited.source, "source conductor", own)});
    circuit.run->conductor = known->second;
  }
}

void put_grounding(Combiner& box, const GroundingConductor& found) {
  if (!found.size && !found.material) return;
  if (!box.egc) box.egc.emplace();
  put(box.egc->size, found.size);
  put(box.egc->material, found.material);
}

// The labels found stand in place of the planned ones. One of which the record gives no values keeps those of
// the plan's label of its kind: nobody says that they differ.
void put_labels(Combiner& box, const VisitedBox& visited) {
  if (!visited.labels_listed) return;
  auto labels = std::make_shared<std::vector<Label>>();
  for (const FoundLabel& found : visited.labels) {
    Label& label = labels->emplace_back(
        Label{found.kind, found.values, found.texts, found.legible.value_or(true), std::nullopt});
    if (found.states_anything() || !box.labels) continue;
    const auto planned = std::find_if(box.labels->begin(), box.labels->end(),
                                      [&](const Label& l) { return l.kind == found.kind; });
    if (planned == box.labels->end()) continue;
    label.values = planned->values;
    label.texts = planned->texts;
    label.planned = static_cast<std::uint32_t>(planned - box.labels->begin());
  }
  box.labels = std::move(labels);
}

}  // namespace

Combiner as_built(const Combiner& plan, const VisitedBox& visited, FoundParts& own) {
  Combiner box = plan;
  put_strings(box, plan, visited);
  put_fuse(box, visited);
  put_enclosure(box, visited.enclosure);
  put_disconnect(box, visited.disconnect);
  put_conductors(box, visited, own);
  put_grounding(box, visited.egc);
  put_labels(box, visited);
  return box;
}

}  // namespace boxproof
