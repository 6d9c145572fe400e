// Which labels a box needs, and what they state.
#include "boxproof/labels.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "src/text/pointer.hpp"

namespace boxproof {
namespace {

LabelNeed answer(bool needed) {
  return {needed ? Needed::yes : Needed::no, "", LabelNeed::Below::design, 0};
}
LabelNeed asks_box(std::string pointer) {
  return {Needed::not_stated, std::move(pointer), LabelNeed::Below::box, 0};
}

LabelNeed by_grounding(const Inverter& inverter, Grounding asked) {
  if (inverter.grounding) return answer(*inverter.grounding == asked);
  return {Needed::not_stated, fmt::format("/inverters/{}/grounding", text::pointer_token(inverter.id)),
          LabelNeed::Below::design, 0};
}

bool in_raceway(const std::optional<Run>& run) {
  return run && run->method == Method::raceway;
}
bool knows_method(const std::optional<Run>& run) {
  return run && run->method;
}

// On or in a building: a run in raceway; where there is none, a run of which nobody says how it is laid.
LabelNeed by_raceway(const Design& design, const Combiner& box) {
  if (design.site.use == Use::ground) return answer(false);
  const auto& circuits = box.circuits;
  const bool any =
      std::any_of(circuits.begin(), circuits.end(), [](const Circuit& c) { return in_raceway(c.run); });
  if (any || (box.output && in_raceway(box.output->run))) return answer(true);
  for (std::size_t i = 0; i < circuits.size(); ++i)
    if (!knows_method(circuits[i].run))
      return {Needed::not_stated, circuits[i].run ? "/run/method" : "/run", LabelNeed::Below::circuit, i};
  if (!box.output || !box.output->run) return asks_box("/output/run");
  return knows_method(box.output->run) ? answer(false) : asks_box("/output/run/method");
}

LabelNeed by_distance(const LabelRule& rule, const Combiner& box) {
  if (!box.fuse || !box.disconnect) return answer(false);
  if (!box.disconnect->distance) return asks_box("/disconnect/distance_m");
  return answer(exceeds(*box.disconnect->distance, rule.over.value_or(Metres(0))));
}

// The highest of each value over the boxes of the site; nothing where one of them is not known.
LabelContents highest(const Design& design, const Edition& edition) {
  LabelContents out;
  BoxFacts facts;
  for (const Combiner& box : design.combiners) {
    box_facts(design, box, edition, facts);
    const LabelContents own = label_contents(facts, edition);
    for (std::size_t i = 0; i < out.values.size(); ++i)
      if (&box == &design.combiners.front())
        out.values[i] = own.values[i];
      else
        out.values[i] = out.values[i] && own.values[i]
                            ? std::optional(std::max(*out.values[i], *own.values[i]))
                            : std::nullopt;
  }
  return out;
}

}  // namespace

LabelContents label_contents(const BoxFacts& facts, const Edition& edition) {
  LabelContents out;
  const auto put = [&out](LabelValue value, double number) {
    out.values[static_cast<std::size_t>(value)] = number;
  };
  if (facts.max_voltage && facts.every_voltage_known) put(LabelValue::max_v, facts.max_voltage->value());
  put(LabelValue::max_a, facts.output_max.value());
  put(LabelValue::isc_a, facts.output_max.value() / edition.maximum_current_factor);
  if (const auto operating = operating_point(*facts.box)) {
    put(LabelValue::vmp_v, operating->voltage.value());
    put(LabelValue::imp_a, operating->current.value());
  }
  return out;
}

double printed(LabelValue value, double computed) {
  constexpr double tenth = 10, rounding = 1e-9;  // 174.0000000001 A is 174 A
  const auto up = [](double x) { return std::ceil(x - rounding * std::abs(x)); };
  switch (value) {
    case LabelValue::max_v: return up(computed);
    case LabelValue::max_a:
    case LabelValue::isc_a: return up(computed * tenth) / tenth;
    case LabelValue::vmp_v:
    case LabelValue::imp_a: return std::round(computed * tenth) / tenth;
  }
  return computed;
}

LabelNeed label_need(const LabelRule& rule, const Design& design, const Combiner& box) {
  switch (rule.when) {
    case LabelWhen::always: return answer(true);
    case LabelWhen::disconnect: return answer(box.disconnect != nullptr);
    case LabelWhen::raceway: return by_raceway(design, box);
    case LabelWhen::grounded: return by_grounding(*box.inverter, Grounding::solid);
    case LabelWhen::ungrounded: return by_grounding(*box.inverter, Grounding::ungrounded);
    case LabelWhen::building: return answer(design.site.use != Use::ground);
    case LabelWhen::far_disconnect: return by_distance(rule, box);
  }
  return {};
}

LabelNeed label_need(const LabelRule& rule, const Design& design) {
  if (rule.when == LabelWhen::always) return answer(true);
  if (rule.when == LabelWhen::building) return answer(design.site.use != Use::ground);
  // The others go by box: needed if any box needs it, and not known if none does and one does not say.
  LabelNeed open;
  const bool by_inverter = rule.when == LabelWhen::grounded || rule.when == LabelWhen::ungrounded;
  const Inverter* last = nullptr;
  for (const Combiner& box : design.combiners) {
    if (by_inverter && box.inverter == last) continue;  // boxes of one inverter mostly stand together
    last = box.inverter;
    LabelNeed need = label_need(rule, design, box);
    if (need.needed == Needed::yes) return need;
    if (need.needed == Needed::not_stated) open = std::move(need);
  }
  return open;
}

std::vector<LabelEntry> label_schedule(const Design& design, const Combiner& box, const BoxFacts& facts,
                                       const Edition& edition) {
  std::vector<LabelEntry> out;
  const LabelContents contents = label_contents(facts, edition);
  for (const LabelRule& rule : edition.labels.kinds) {
    if (!rule.on_box()) continue;
    LabelNeed need = label_need(rule, design, box);
    if (need.needed != Needed::no) out.push_back({&box, rule.kind, &rule, std::move(need), contents});
  }
  if (!box.labels) return out;
  for (const Label& label : *box.labels) {
    const LabelRule* rule = edition.labels.find(label.kind);
    if (rule != nullptr && !rule->on_box()) continue;  // stands with the site's
    const bool known =
        std::any_of(out.begin(), out.end(), [&](const LabelEntry& e) { return e.kind == label.kind; });
    if (!known) out.push_back({&box, label.kind, nullptr, {}, contents});
  }
  return out;
}

std::vector<LabelEntry> label_schedule(const Design& design, const Edition& edition) {
  std::vector<LabelEntry> out;
  for (const LabelRule& rule : edition.labels.kinds) {
    if (rule.on_box()) continue;
    LabelNeed need = label_need(rule, design);
    if (need.needed == Needed::no) continue;
    LabelEntry& entry = out.emplace_back(LabelEntry{nullptr, rule.kind, &rule, std::move(need), {}});
    if (!rule.values.empty()) entry.contents = highest(design, edition);
  }
  return out;
}

}  // namespace boxproof
