// Labels: which a box needs, and what they must state. Section numbers are the edition's.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "boxproof/calculate.hpp"
#include "boxproof/design.hpp"
#include "boxproof/edition.hpp"

namespace boxproof {

// What a label on this box states, by LabelValue; nothing where it cannot be computed. Volts and amperes,
// unrounded. Currents are those of the output, the operating voltage is the lowest of the strings'.
struct LabelContents {
  std::array<std::optional<double>, label_value_names.size()> values;
  std::optional<double> of(LabelValue value) const { return values[static_cast<std::size_t>(value)]; }
};
LabelContents label_contents(const BoxFacts& facts, const Edition& edition);

// The same as it is printed on a label: maxima rounded up (whole volts, tenths of an ampere), so that the
// label covers the box, rated values to the nearest tenth.
double printed(LabelValue value, double computed);

enum class Needed : std::uint8_t { no, yes, not_stated };

struct LabelNeed {
  Needed needed = Needed::no;
  // What decides and is not stated: a pointer below the box ("/disconnect/distance_m"), below one of its
  // circuits ("/run/method"), or from the top of the design ("/inverters/INV-1/grounding").
  enum class Below : std::uint8_t { design, box, circuit };
  std::string pointer;
  Below below = Below::design;
  std::size_t circuit = 0;
  bool foreign_word = false;  // it is stated, as a word that the edition does not know (functional grounding)
};

// Boxes to look at: those of the plan, or what was found in their place.
using Boxes = std::vector<const Combiner*>;

// Whether this box needs the label.
LabelNeed label_need(const LabelRule& rule, const Design& design, const Combiner& box,
                     const Edition& edition);
// Whether the site needs it somewhere else than on its boxes.
LabelNeed label_need(const LabelRule& rule, const Design& design, const Boxes& boxes, const Edition& edition);
LabelNeed label_need(const LabelRule& rule, const Design& design, const Edition& edition);

// The label schedule: what to have made.
struct LabelEntry {
  const Combiner* box = nullptr;    // null: once on the site
  std::string kind;                 // of label_kinds
  const LabelRule* rule = nullptr;  // null: the plan calls for it and the edition does not ask for it
  LabelNeed need;
  LabelContents contents;  // of the box; of the site's own labels, the highest of its boxes
  // What is not stated, so that a value which the label has to state cannot be computed: pointers from the
  // top of the design.
  std::vector<std::string> missing = {};
};

// The values that the label has to state: those that the edition asks for; of a voltage or power source
// label that only the plan calls for, the two maxima.
std::vector<LabelValue> values_to_state(const LabelEntry& entry);

// Of one box: what the edition asks for there, then what the plan calls for besides.
std::vector<LabelEntry> label_schedule(const Design& design, const Combiner& box, const BoxFacts& facts,
                                       const Edition& edition);
// Of the site, besides its boxes.
std::vector<LabelEntry> label_schedule(const Design& design, const Edition& edition);
std::vector<LabelEntry> label_schedule(const Design& design, const Boxes& boxes, const Edition& edition);

}  // namespace boxproof
