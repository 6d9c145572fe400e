#include "src/rules/label_stated.hpp"

#include <algorithm>

#include "src/rules/common.hpp"
#include "src/text/pointer.hpp"

namespace boxproof {
namespace {

// Where the label stands in its file, below the box.
std::string pointer_to(const BoxCase& c, const Label& label) {
  return fmt::format(
      "/labels/{}", label.planned ? *label.planned : static_cast<std::size_t>(&label - c.box.labels->data()));
}

// The lowest operating voltage of the strings, of modules that all state theirs.
void work_operating_voltage(Working& w, const BoxCase& c, double lowest) {
  for (const Circuit& circuit : c.box.circuits)
    if (const auto point = operating_point(circuit); point && point->voltage.value() == lowest) {
      w.push_back(
          computed("Vmp", "n · Vmp1",
                   {{"n", static_cast<double>(circuit.series)}, {"Vmp1", circuit.module->vmp->value()}},
                   lowest, "V", ""));
      return;
    }
}

// The sum of the operating currents of all strings.
void work_operating_current(Working& w, const BoxCase& c, double sum) {
  std::string formula, numbers;
  for (std::size_t i = 0; i < c.box.circuits.size(); ++i) {
    const Circuit& circuit = c.box.circuits[i];
    formula += fmt::format("{}S{} · Imp{}", i > 0 ? " + " : "", i + 1, i + 1);
    numbers +=
        fmt::format("{}{} · {}", i > 0 ? " + " : "", circuit.strings, exact(circuit.module->imp->value()));
  }
  w.push_back({"ΣImp", formula, numbers, sum, "A", ""});
}

}  // namespace

bool from_plan(const BoxCase& c, const Label& label) {
  return c.visited == nullptr || !c.visited->labels_listed || label.planned;
}

void place(Note& note, const BoxCase& c, const Label& label, std::string_view below) {
  const std::string pointer = pointer_to(c, label) + std::string(below);
  from_plan(c, label) ? note.at_plan(pointer) : note.at(pointer);
}

void StatedValue::put(Note& note) const {
  if (label == nullptr)
    note.at(fmt::format("/posted/{}", key));
  else
    place(note, *c, *label, fmt::format("/values/{}", text::pointer_token(key)));
  const LabelRule* rule = label == nullptr ? nullptr : c->edition.labels.find(label->kind);
  if (rule == nullptr) rule = c->edition.labels.find("dc-power-source");
  if (rule != nullptr) note.section(rule->section);
  if (c->visited != nullptr)
    note.ask(
        "Have the label made with the contents that boxproof labels computes of the box as found "
        "(--asbuilt).");
}

std::string StatedValue::part() const {
  if (label == nullptr) return fmt::format("posted label {}", key);
  const auto same = std::count_if(c->box.labels->data(), label,
                                  [&](const Label& before) { return before.kind == label->kind; });
  return same == 0 ? fmt::format("label {} {}", label->kind, key)
                   : fmt::format("label {} ({}) {}", label->kind, same + 1, key);
}

std::string StatedValue::name() const {
  return label == nullptr ? fmt::format("The label posted on {}", c->box.id)
                          : fmt::format("The {} label of {}", label->kind, c->box.id);
}

void work_label_value(Working& w, const BoxCase& c, LabelValue value, double result) {
  switch (value) {
    case LabelValue::max_v: {
      const Circuit& circuit = *c.facts.circuits[c.facts.highest_circuit].circuit;
      string_voltage(*circuit.module, circuit.series, c.design.site.low, c.edition, &w);
      return;
    }
    case LabelValue::max_a: output_current(c.box, c.edition, &w); return;
    case LabelValue::isc_a: {
      const double most = output_current(c.box, c.edition, &w).value();
      const double factor = c.edition.maximum_current_factor;
      w.push_back(computed("ΣIsc", "Iout / k", {{"Iout", most}, {"k", factor}}, result, "A",
                           c.edition.maximum_current_section));
      return;
    }
    case LabelValue::vmp_v: return work_operating_voltage(w, c, result);
    case LabelValue::imp_a: return work_operating_current(w, c, result);
  }
}

}  // namespace boxproof
