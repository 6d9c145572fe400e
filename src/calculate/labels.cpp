// Which labels a box needs, and what they state.
#include "boxproof/labels.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "src/text/pointer.hpp"

namespace boxproof {
namespace {

LabelNeed answer(bool needed) {
  return {needed ? Needed::yes : Needed::no, "", LabelNeed::Below::design, 0, false};
}
LabelNeed asks_box(std::string pointer) {
  return {Needed::not_stated, std::move(pointer), LabelNeed::Below::box, 0, false};
}

LabelNeed by_grounding(const Inverter& inverter, Grounding asked, const Edition& edition) {
  const bool foreign = is_unknown_word(inverter.grounding, edition);
  if (inverter.grounding && !foreign) return answer(*inverter.grounding == asked);
  return {Needed::not_stated, fmt::format("/inverters/{}/grounding", text::pointer_token(inverter.id)),
          LabelNeed::Below::design, 0, foreign};
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
      return {Needed::not_stated, circuits[i].run ? "/run/method" : "/run", LabelNeed::Below::circuit, i,
              false};
  if (!box.output || !box.output->run) return asks_box("/output/run");
  return knows_method(box.output->run) ? answer(false) : asks_box("/output/run/method");
}

LabelNeed by_distance(const LabelRule& rule, const Combiner& box) {
  if (!box.fuse || !box.disconnect) return answer(false);
  if (!box.disconnect->distance) return asks_box("/disconnect/distance_m");
  return answer(exceeds(*box.disconnect->distance, rule.over.value_or(Metres(0))));
}

void add_once(std::vector<std::string>& to, std::string pointer) {
  if (std::find(to.begin(), to.end(), pointer) == to.end()) to.push_back(std::move(pointer));
}

// What the box lacks so that a value which the label has to state cannot be computed.
void add_missing(LabelEntry& e, const LabelContents& contents, const BoxFacts& facts) {
  for (const LabelValue value : values_to_state(e)) {
    if (contents.of(value)) continue;
    for (const CircuitFacts& f : facts.circuits) {
      const Module& m = *f.circuit->module;
      const auto of_module = [&](std::string_view key) {
        add_once(e.missing, fmt::format("/modules/{}/{}", text::pointer_token(m.id), key));
      };
      if (value == LabelValue::max_v) {
        if (f.voltage.lack == Lack::low_temperature) add_once(e.missing, "/site/low_c");
        if (f.voltage.lack == Lack::cell || f.voltage.lack == Lack::coefficient)
          of_module("voc_coeff_pct_per_c");
      } else {
        if (!m.vmp) of_module("vmp_v");
        if (!m.imp) of_module("imp_a");
      }
    }
  }
}

// The highest of each value over the boxes of the site; nothing where one of them is not known.
void put_highest(LabelEntry& e, const Design& design, const Boxes& boxes, const Edition& edition) {
  LabelContents& out = e.contents;
  BoxFacts facts;
  for (const Combiner* box : boxes) {
    box_facts(design, *box, edition, facts);
    const LabelContents own = label_contents(facts, edition);
    add_missing(e, own, facts);
    for (std::size_t i = 0; i < out.values.size(); ++i)
      if (box == boxes.front())
        out.values[i] = own.values[i];
      else
        out.values[i] = out.values[i] && own.values[i]
                            ? std::optional(std::max(*out.values[i], *own.values[i]))
                            : std::nullopt;
  }
}

Boxes boxes_of(const Design& design) {
  Boxes out;
  for (const Combiner& box : design.combiners) out.push_back(&box);
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

std::vector<LabelValue> values_to_state(const LabelEntry& e) {
  if (e.rule != nullptr) return e.rule->values;
  if (e.kind == "max-voltage" || e.kind == "dc-power-source") return {LabelValue::max_v, LabelValue::max_a};
  return {};
}

LabelNeed label_need(const LabelRule& rule, const Design& design, const Combiner& box,
                     const Edition& edition) {
  switch (rule.when) {
    case LabelWhen::always: return answer(true);
    case LabelWhen::disconnect: return answer(box.disconnect != nullptr);
    case LabelWhen::raceway: return by_raceway(design, box);
    case LabelWhen::grounded: return by_grounding(*box.inverter, Grounding::solid, edition);
    case LabelWhen::ungrounded: return by_grounding(*box.inverter, Grounding::ungrounded, edition);
    case LabelWhen::building: return answer(design.site.use != Use::ground);
    case LabelWhen::far_disconnect: return by_distance(rule, box);
  }
  return {};
}

LabelNeed label_need(const LabelRule& rule, const Design& design, const Edition& edition) {
  return label_need(rule, design, boxes_of(design), edition);
}

LabelNeed label_need(const LabelRule& rule, const Design& design, const Boxes& boxes,
                     const Edition& edition) {
  if (rule.when == LabelWhen::always) return answer(true);
  if (rule.when == LabelWhen::building) return answer(design.site.use != Use::ground);
  // The others go by box: needed if any box needs it, and not known if none does and one does not say.
  LabelNeed open;
  const bool by_inverter = rule.when == LabelWhen::grounded || rule.when == LabelWhen::ungrounded;
  const Inverter* last = nullptr;
  for (const Combiner* box : boxes) {
    if (by_inverter && box->inverter == last) continue;  // boxes of one inverter mostly stand together
    last = box->inverter;
    LabelNeed need = label_need(rule, design, *box, edition);
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
    LabelNeed need = label_need(rule, design, box, edition);
    if (need.needed != Needed::no) out.push_back({&box, rule.kind, &rule, std::move(need), contents, {}});
  }
  const std::vector<Label> none;
  for (const Label& label : box.labels ? *box.labels : none) {
    const LabelRule* rule = edition.labels.find(label.kind);
    if (rule != nullptr && !rule->on_box()) continue;  // stands with the site's
    const bool known =
        std::any_of(out.begin(), out.end(), [&](const LabelEntry& e) { return e.kind == label.kind; });
    if (!known) out.push_back({&box, label.kind, nullptr, {}, contents, {}});
  }
  for (LabelEntry& e : out) add_missing(e, contents, facts);
  return out;
}

std::vector<LabelEntry> label_schedule(const Design& design, const Edition& edition) {
  return label_schedule(design, boxes_of(design), edition);
}

std::vector<LabelEntry> label_schedule(const Design& design, const Boxes& boxes, const Edition& edition) {
  std::vector<LabelEntry> out;
  for (const LabelRule& rule : edition.labels.kinds) {
    if (rule.on_box()) continue;
    LabelNeed need = label_need(rule, design, boxes, edition);
    if (need.needed == Needed::no) continue;
    LabelEntry& entry = out.emplace_back(LabelEntry{nullptr, rule.kind, &rule, std::move(need), {}, {}});
    if (!rule.values.empty()) put_highest(entry, design, boxes, edition);
  }
  return out;
}

}  // namespace boxproof
