// What labels state, held against what is computed.
#include <fmt/ranges.h>

#include <algorithm>

#include "src/rules/common.hpp"
#include "src/rules/label_stated.hpp"
#include "src/rules/list.hpp"

namespace boxproof {
namespace {

constexpr double rated_rounding = 0.5;  // a rated value printed as a whole number

std::string_view name_of(LabelValue v) {
  return label_value_names[static_cast<std::size_t>(v)];
}
bool is_maximum(LabelValue v) {
  return v == LabelValue::max_v || v == LabelValue::max_a || v == LabelValue::isc_a;
}
std::string_view unit_of(LabelValue v) {
  return v == LabelValue::max_v || v == LabelValue::vmp_v ? "V" : "A";
}
std::string_view meaning(LabelValue v) {
  switch (v) {
    case LabelValue::max_v: return "as the highest voltage";
    case LabelValue::max_a: return "as the highest current";
    case LabelValue::isc_a: return "as the short-circuit current";
    case LabelValue::vmp_v: return "as the operating voltage";
    case LabelValue::imp_a: return "as the operating current";
  }
  return {};
}

// An operating value that nobody can compute: the module's own is not stated.
void lacks_of(const BoxCase& c, Notes& out, LabelValue value) {
  if (is_maximum(value)) return;  // voltage/no-factor speaks for Vmax
  for (const Circuit& circuit : c.box.circuits) {
    if (!circuit.module->vmp) return out.lacks(key_of(*circuit.module, "vmp_v"));
    if (!circuit.module->imp) return out.lacks(key_of(*circuit.module, "imp_a"));
  }
}

void judge_value(const BoxCase& c, Notes& out, const StatedValue& s, LabelValue value,
                 const LabelContents& contents, bool only_high = false) {
  const auto computed = contents.of(value);
  if (!computed) return lacks_of(c, out, value);
  const double slack = is_maximum(value) ? 0 : rated_rounding;
  const bool low = exceeds(*computed - slack, s.value);
  // A short-circuit current of the older editions may be stated with the 1.25 of the maximum current.
  const double most = value == LabelValue::isc_a ? *contents.of(LabelValue::max_a) : *computed;
  const double high_limit = most * (1 + c.edition.labels.over_pct / 100);
  const bool high = exceeds(s.value, high_limit);
  if ((!low || only_high) && !high) return;
  if (!low && most == 0) return;  // no strings were found: the tally speaks, and any label is too high
  Note note = out.find(low ? Severity::correction : Severity::advice, s.part());
  note.found(s.value).required(low ? *computed : high_limit).unit(unit_of(value)).work([&](Working& w) {
    work_label_value(w, c, value, *computed);
  });
  s.put(note);
  const std::string_view unit = unit_of(value);
  if (low)
    note.say("{} states {} {} {}; {} {} is computed.", s.name(), shown(s.value, *computed), unit,
             meaning(value), shown(*computed, s.value), unit);
  else
    note.say(
        "{} states {} {} {}, more than {} % above the {} {} {} (at most {} {}): it describes another "
        "circuit.",
        s.name(), shown(s.value, high_limit), unit, meaning(value), shown(c.edition.labels.over_pct),
        shown(most), unit, value == LabelValue::isc_a ? "of the highest current" : "computed",
        shown(high_limit, s.value), unit);
}

// The name of a box on its label.
void judge_id(const BoxCase& c, Notes& out, const StatedValue& s) {
  const std::string stated = s.text ? std::string(*s.text) : exact(s.value);
  if (stated == c.box.id) return;
  Note note = out.find(s.part());
  note.found(stated).required(c.box.id).say("{} states id {}; the box is {}.", s.name(), stated, c.box.id);
  s.put(note);
}

void not_known(Notes& out, const StatedValue& s) {
  Note note = out.find(Severity::query, s.part());
  note.found(std::string(s.key))
      .required(std::string("id, max_v, max_a, isc_a, vmp_v, imp_a, strings, series or fuse_a"))
      .say("{} states \"{}\", which is not known here, so nothing is held against it.", s.name(), s.key);
  s.put(note);
}

// Counts and ratings of an identification label, which must be those of the box.
void judge_count(const BoxCase& c, Notes& out, const StatedValue& s) {
  std::optional<double> there;
  std::string_view thing, unit;
  if (s.key == "id") return judge_id(c, out, s);
  if (s.key == "strings") {
    there = c.facts.strings, thing = "strings";
  } else if (s.key == "fuse_a") {
    thing = "A fuses", unit = "A";
    if (!c.box.fuse) {
      Note note = out.find(s.part());
      note.found(s.value)
          .required(std::string("none"))
          .unit(unit)
          .say("{} states {} A fuses; the box has none.", s.name(), shown(s.value));
      return s.put(note);
    }
    if (const auto rating = largest_fuse(c.box)) there = rating->value();
  } else if (s.key == "series") {
    thing = "modules in series";
    for (const Circuit& circuit : c.box.circuits)
      if (circuit.series == s.value || &circuit == &c.box.circuits.front()) there = circuit.series;
  } else {
    return not_known(out, s);
  }
  if (!there || *there == s.value) return;
  Note note = out.find(s.part());
  note.found(s.value).required(*there).unit(unit).say("{} states {} {}; the box has {}{}{}.", s.name(),
                                                      shown(s.value, *there), word_for(s.value, thing),
                                                      shown(*there, s.value), unit.empty() ? "" : " ", unit);
  s.put(note);
}

std::optional<LabelValue> known_value(std::string_view key) {
  for (std::size_t i = 0; i < label_value_names.size(); ++i)
    if (label_value_names[i] == key) return static_cast<LabelValue>(i);
  return std::nullopt;
}

// A text on a label. Only the name of the box is one; the other values are numbers here.
void judge_text(const BoxCase& c, Notes& out, const StatedValue& s) {
  if (s.key == "id") return judge_id(c, out, s);
  if (!known_value(s.key) && s.key != "strings" && s.key != "series" && s.key != "fuse_a")
    return not_known(out, s);
  Note note = out.find(Severity::query, s.part());
  note.found(std::string(*s.text))
      .required(std::string("a number"))
      .say("{} states \"{}\" as text; state the number for {}.", s.name(), *s.text, s.key);
  s.put(note);
  note.ask("State the number that stands on the label, without its unit.");
}

// The same value as the record's `posted` has it.
std::optional<double> posted_value(const PostedLabel& posted, std::string_view key) {
  if (key == "max_v" && posted.max_voltage) return posted.max_voltage->value();
  if (key == "max_a" && posted.max_current) return posted.max_current->value();
  if (key == "strings" && posted.strings) return *posted.strings;
  if (key == "series" && posted.series) return *posted.series;
  if (key == "fuse_a" && posted.fuse) return posted.fuse->value();
  return std::nullopt;
}

// Whether tally/label judges the value: the record's `posted` says it too, or says another in the place of
// the plan's. A label that the record lists with other values is judged besides.
bool is_posted(const BoxCase& c, const Label& label, std::string_view key, double value) {
  if (c.visited == nullptr) return false;
  const auto posted = posted_value(c.visited->posted, key);
  return from_plan(c, label) ? posted.has_value() : posted == value;
}
bool is_posted(const BoxCase& c, const Label& label, std::string_view key, const std::string& value) {
  if (c.visited == nullptr || key != "id") return false;
  const auto& posted = c.visited->posted.id;
  return from_plan(c, label) ? posted.has_value() : posted == value;
}

void judge_posted(const BoxCase& c, Notes& out, const LabelContents& contents) {
  const PostedLabel& posted = c.visited->posted;
  const auto judge = [&](LabelValue value, double stated) {
    judge_value(c, out, {&c, nullptr, name_of(value), stated}, value, contents, true);
  };
  if (posted.max_voltage) judge(LabelValue::max_v, posted.max_voltage->value());
  if (posted.max_current) judge(LabelValue::max_a, posted.max_current->value());
}

bool states(const Label& label, LabelValue value) {
  const auto is_it = [&](const auto& v) { return v.first == name_of(value); };
  return std::any_of(label.values.begin(), label.values.end(), is_it) ||
         std::any_of(label.texts.begin(), label.texts.end(), is_it);
}

// A required label whose contents are not stated in full on any label that does for it.
void judge_contents(const BoxCase& c, Notes& out, const LabelRule& rule) {
  const Label* best = nullptr;
  std::vector<std::string_view> missing;
  for (const Label& label : *c.box.labels) {
    if (!rule.served_with(label.kind) || !label.legible) continue;
    std::vector<std::string_view> absent;
    for (const LabelValue value : rule.values)
      if (!states(label, value)) absent.push_back(name_of(value));
    if (best == nullptr || absent.size() < missing.size()) best = &label, missing = std::move(absent);
  }
  if (best == nullptr || missing.empty()) return;
  const std::string all = fmt::format("{}", fmt::join(missing, ", "));
  Note note = out.find(Severity::query, "label " + rule.kind + " contents");
  note.found("no " + all)
      .required(all)
      .section(rule.section)
      .say("The {} label of {} is called for without its {}; what will it state?", best->kind, c.box.id, all);
  place(note, c, *best);
}

}  // namespace

const Rule label_values{
    .id = "label/values",
    .severity = Severity::correction,
    .title = "Label that states less than is computed, or of another circuit",
    .explain =
        {"Holds each value that a label of the plan, or one found on the box, states against what is "
         "computed: highest voltage and current, short-circuit current, operating point, and the counts of "
         "an identification label and the name of the box on it.",
         "People choose gloves, meters and switches by the label. One that states too little gets them "
         "hurt; one that states far too much was made for another box, and nothing on it can be believed.",
         "A maximum below the computed one is a correction; a higher one stands, with advice where it is "
         "over the edition's share above it. Operating values may be printed as whole numbers. Contents "
         "that the edition requires and no label states are a query."},
    .remedy = "Have the label made with the contents that boxproof labels computes.",
    .uses = {"labels", "voltage.cold_table", "voltage.design_low", "current.maximum"},
    .judge = [](const BoxCase& c, Notes& out) {
      const LabelContents contents = label_contents(c.facts, c.edition);
      if (c.visited != nullptr) judge_posted(c, out, contents);
      if (!c.box.labels) return;
      for (const Label& label : *c.box.labels) {
        if (!label.legible) continue;
        for (const auto& [key, number] : label.values) {
          if (is_posted(c, label, key, number)) continue;
          const StatedValue s{&c, &label, key, number};
          if (const auto value = known_value(key))
            judge_value(c, out, s, *value, contents);
          else
            judge_count(c, out, s);
        }
        for (const auto& [key, text] : label.texts)
          if (!is_posted(c, label, key, text)) judge_text(c, out, {&c, &label, key, 0, text});
      }
      for (const LabelRule& rule : c.edition.labels.kinds)
        if (rule.on_box() && !rule.values.empty() &&
            label_need(rule, c.design, c.box, c.edition).needed == Needed::yes)
          judge_contents(c, out, rule);
    }};

}  // namespace boxproof
