// What a label states, and where: one of its values as label/values looks at it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "boxproof/labels.hpp"
#include "src/rules/notes.hpp"

namespace boxproof {

// Whether what the label states stands in the plan and not in the record: the record lists no labels, or this
// one without its contents.
bool from_plan(const BoxCase& c, const Label& label);

// Puts the finding where the label stands, in the plan or in the record.
void place(Note& note, const BoxCase& c, const Label& label, std::string_view below = {});

// One value on a label of the box, or on the posted one. Its names are made only when something is said.
struct StatedValue {
  const BoxCase* c;
  const Label* label;  // null: the posted one
  std::string_view key;
  double value = 0;
  std::optional<std::string_view> text = {};  // in place of the number

  // The finding's place, its section (of the label's kind where the edition has that kind), and what to do as
  // built.
  void put(Note& note) const;
  std::string part() const;
  std::string name() const;
};

// How a value of LabelContents came about, down to `result`.
void work_label_value(Working& working, const BoxCase& c, LabelValue value, double result);

}  // namespace boxproof
