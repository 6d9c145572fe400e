// Labels: called for by the plan or found on the box, and what they state.
#include "boxproof/labels.hpp"

#include <algorithm>

#include "src/rules/common.hpp"
#include "src/rules/list.hpp"

namespace boxproof {
namespace {

bool as_found(const BoxCase& c) {
  return c.visited != nullptr && c.visited->labels_listed;
}

void lacks_for(const BoxCase& c, Notes& out, const LabelNeed& need) {
  switch (need.below) {
    case LabelNeed::Below::design: return out.lacks(need.pointer);
    case LabelNeed::Below::box: return out.lacks_in_box(need.pointer);
    case LabelNeed::Below::circuit: return out.lacks_in_circuit(c, need.circuit, need.pointer);
  }
}

// Whether a label of this kind does what the rule asks for: it is of the kind, or of one that serves as well.
bool serves(const LabelRule& rule, const Label& label) {
  return label.kind == rule.kind ||
         std::find(rule.served_by.begin(), rule.served_by.end(), label.kind) != rule.served_by.end();
}

bool calls_for(const Combiner& box, const LabelRule& rule) {
  return box.labels && std::any_of(box.labels->begin(), box.labels->end(),
                                   [&](const Label& label) { return serves(rule, label); });
}

std::string place_words(LabelAt at) {
  switch (at) {
    case LabelAt::box: return "on the box";
    case LabelAt::disconnect: return "at its disconnect";
    case LabelAt::raceway: return "on its raceways";
    case LabelAt::inverter: return "at the inverter";
    case LabelAt::service: return "at the service equipment";
    case LabelAt::system: return "at the system's disconnect, the inverter or the distribution equipment";
  }
  return {};
}

void judge_kind(const BoxCase& c, Notes& out, const LabelRule& rule) {
  if (!rule.on_box()) return;
  const LabelNeed need = label_need(rule, c.design, c.box);
  if (need.needed == Needed::not_stated) return lacks_for(c, out, need);
  if (need.needed == Needed::no) return;
  if (!c.box.labels) return out.lacks_in_box("/labels");
  bool illegible = false;
  for (const Label& label : *c.box.labels) {
    if (!serves(rule, label)) continue;
    if (label.legible) return;
    illegible = true;
  }
  // Raceways run away from the box: a list of the labels found on it does not say that nobody marked them.
  const bool open = as_found(c) && rule.at == LabelAt::raceway && !illegible &&
                    calls_for(c.design.combiners[c.index], rule);
  Note note = out.find(open ? Severity::query : Severity::correction, "label " + rule.kind);
  note.required(rule.kind)
      .section(rule.section)
      .at("/labels")
      .found(std::string(illegible     ? "illegible"
                         : as_found(c) ? "not among the labels found"
                                       : "not called for"));
  if (open)
    note.say("The record of {} lists no {} label; was it looked for {}?", c.box.id, rule.kind,
             place_words(rule.at));
  else if (illegible)
    note.say("The {} label of {} cannot be read; it is needed {}.", rule.kind, c.box.id,
             place_words(rule.at));
  else if (as_found(c))
    note.say("{} has no {} label; one is needed {}.", c.box.id, rule.kind, place_words(rule.at));
  else
    note.say("The plan calls for no {} label on {}; one is needed {}.", rule.kind, c.box.id,
             place_words(rule.at));
}

bool called_for(const Design& design, const LabelRule& rule) {
  return std::any_of(design.combiners.begin(), design.combiners.end(),
                     [&](const Combiner& box) { return calls_for(box, rule); });
}

}  // namespace

const Rule label_missing{
    .id = "label/missing",
    .severity = Severity::correction,
    .title = "Label that the edition requires is not there",
    .explain =
        {"Asks for each kind of label that the edition requires at this box whether the plan calls for it; "
         "as built, whether it is among the labels that the inspector listed and can be read.",
         "Whoever opens the box years later, a fire crew among them, has the labels and nothing else: how "
         "high the voltage is, that the switch does not make the box dead, which switch belongs to it.",
         "By edition: identification, voltage and current, live parts on both sides of a switch, marked "
         "raceways on buildings, ungrounded arrays, a directory of far switches. A label that goes "
         "elsewhere (inverter, service equipment) is asked for once on the site, as a query, where no box "
         "of the plan calls for it. boxproof labels lists what to have made."},
    .remedy = "Call for the label, with the contents that boxproof labels computes, and put it there.",
    .uses = {"labels"},
    .judge =
        [](const BoxCase& c, Notes& out) {
          for (const LabelRule& rule : c.edition.labels.kinds) judge_kind(c, out, rule);
        },
    .judge_site =
        [](const SiteCase& c, Notes& out) {
          for (const LabelRule& rule : c.edition.labels.kinds) {
            if (rule.on_box() || called_for(c.design, rule)) continue;
            const LabelNeed need = label_need(rule, c.design);
            if (need.needed == Needed::not_stated) out.lacks(need.pointer);
            if (need.needed != Needed::yes) continue;
            out.find(Severity::query, "label " + rule.kind)
                .found(std::string("no box calls for it"))
                .required(rule.kind)
                .section(rule.section)
                .at_design("/combiners")
                .say("No box of the plan calls for a {} label, needed once {}; is it on another sheet?",
                     rule.kind, place_words(rule.at));
          }
        },
};

}  // namespace boxproof
