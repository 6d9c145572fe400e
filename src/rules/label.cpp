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

// A value from the top of the design on which the need hangs. Of a word that the edition does not know
// site/grounding-term asks what is meant, where it runs.
void lacks_in_design(const Edition& edition, Notes& out, const LabelNeed& need) {
  if (!need.foreign_word) return out.lacks(need.pointer);
  if (edition.rules.contains("site/grounding-term")) return;
  out.lacks(need.pointer, false,
            fmt::format("{} is functional, which the {} edition does not know", need.pointer.substr(1),
                        edition.name),
            "functional");
}

void lacks_for(const BoxCase& c, Notes& out, const LabelNeed& need) {
  switch (need.below) {
    case LabelNeed::Below::design: return lacks_in_design(c.edition, out, need);
    case LabelNeed::Below::box: return out.lacks_in_box(need.pointer);
    case LabelNeed::Below::circuit: return out.lacks_in_circuit(c, need.circuit, need.pointer);
  }
}

bool calls_for(const Combiner& box, const LabelRule& rule) {
  return box.labels && std::any_of(box.labels->begin(), box.labels->end(),
                                   [&](const Label& label) { return rule.served_with(label.kind); });
}

std::string place_words(LabelAt at) {
  switch (at) {
    case LabelAt::box: return "on the box";
    case LabelAt::disconnect: return "at its disconnect";
    case LabelAt::raceway: return "on its raceways";
    case LabelAt::inverter: return "at each inverter";
    case LabelAt::service: return "once at the service equipment";
    case LabelAt::system:
      return "once for each PV system, at its disconnect, the inverter or the distribution equipment";
  }
  return {};
}

// The place where a kind that the edition asks for at this box is not served by any label that can be read;
// empty: there is none that this label would serve.
std::string place_unserved(const BoxCase& c, const Label& label) {
  for (const LabelRule& rule : c.edition.labels.kinds) {
    if (!rule.on_box() || !rule.served_with(label.kind)) continue;
    const bool served = std::any_of(c.box.labels->begin(), c.box.labels->end(),
                                    [&](const Label& l) { return l.legible && rule.served_with(l.kind); });
    if (!served && label_need(rule, c.design, c.box, c.edition).needed == Needed::yes)
      return place_words(rule.at);
  }
  return {};
}

// Labels found that cannot be read, whether the edition asks for them or not; each kind once.
void judge_illegible(const BoxCase& c, Notes& out) {
  if (!c.box.labels) return;
  const std::vector<Label>& labels = *c.box.labels;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const Label& label = labels[i];
    const auto first = std::find_if(labels.begin(), labels.end(),
                                    [&](const Label& l) { return !l.legible && l.kind == label.kind; });
    if (label.legible || &label != &*first) continue;
    const bool another = std::any_of(labels.begin(), labels.end(),
                                     [&](const Label& l) { return l.legible && l.kind == label.kind; });
    Note note = out.find(Severity::correction, "label " + label.kind);
    note.found(std::string("illegible")).required(std::string("legible")).at(fmt::format("/labels/{}", i));
    if (const LabelRule* rule = c.edition.labels.find(label.kind); rule != nullptr)
      note.section(rule->section);
    const std::string place = place_unserved(c, label);
    if (!place.empty())
      note.say("The {} label of {} cannot be read; it is needed {}.", label.kind, c.box.id, place);
    else if (another)
      note.say("One of the {} labels of {} cannot be read.", label.kind, c.box.id);
    else
      note.say("The {} label of {} cannot be read.", label.kind, c.box.id);
    note.ask("Replace the label by one that can be read, or take it off where it is not needed.");
  }
}

void judge_kind(const BoxCase& c, Notes& out, const LabelRule& rule) {
  if (!rule.on_box()) return;
  const LabelNeed need = label_need(rule, c.design, c.box, c.edition);
  if (need.needed == Needed::not_stated) return lacks_for(c, out, need);
  if (need.needed == Needed::no) return;
  if (!c.box.labels) return out.lacks_in_box("/labels");
  // One that cannot be read is told by itself.
  if (std::any_of(c.box.labels->begin(), c.box.labels->end(),
                  [&](const Label& label) { return rule.served_with(label.kind); }))
    return;
  // Raceways run away from the box: a list of the labels found on it does not say that nobody marked them.
  const bool open =
      as_found(c) && rule.at == LabelAt::raceway && calls_for(c.design.combiners[c.index], rule);
  Note note = out.find(open ? Severity::query : Severity::correction, "label " + rule.kind);
  note.required(rule.kind)
      .section(rule.section)
      .found(std::string(as_found(c) ? "not among the labels found" : "not called for"));
  as_found(c) ? note.at("/labels") : note.at_plan("/labels");
  if (c.visited != nullptr)
    note.ask("Have the label made as boxproof labels --asbuilt lists it, and put it there.");
  if (open)
    note.say("The record of {} lists no {} label; was it looked for {}?", c.box.id, rule.kind,
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
         "of the plan calls for it. A label found that cannot be read is a correction, needed or not. "
         "boxproof labels lists what to have made."},
    .remedy = "Call for the label, with the contents that boxproof labels computes, and put it there.",
    .uses = {"labels"},
    .judge =
        [](const BoxCase& c, Notes& out) {
          for (const LabelRule& rule : c.edition.labels.kinds) judge_kind(c, out, rule);
          judge_illegible(c, out);
        },
    .judge_site =
        [](const SiteCase& c, Notes& out) {
          for (const LabelRule& rule : c.edition.labels.kinds) {
            if (rule.on_box() || called_for(c.design, rule)) continue;
            const LabelNeed need = label_need(rule, c.design, c.edition);
            if (need.needed == Needed::not_stated) lacks_in_design(c.edition, out, need);
            if (need.needed != Needed::yes) continue;
            out.find(Severity::query, "label " + rule.kind)
                .found(std::string("no box calls for it"))
                .required(rule.kind)
                .section(rule.section)
                .at_design("/combiners")
                .say("No box of the plan calls for a {} label, needed {}; is it on another sheet?", rule.kind,
                     place_words(rule.at));
          }
        },
};

}  // namespace boxproof
