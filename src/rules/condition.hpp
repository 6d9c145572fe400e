// What an inspector saw in a box, one rule a condition word of the field record.
#pragma once

#include <string_view>

#include "src/rules/notes.hpp"

namespace boxproof {

// What the findings of one word say.
struct Condition {
  Disposition disposition;
  std::string_view seen;   // how the sentence starts; the box's id follows: "A bushing is cracked in"
  std::string_view comes;  // what can come of it, in words that go on after a colon
  std::string_view place = "inside";  // the part of the box where the record does not say where
};

// Makes a finding of each entry that has the word of the speaking rule.
void judge_seen(const Condition& condition, const VisitCase& c, Notes& out);

// The same, for Rule::judge_visit.
template <const Condition& condition>
void judge_seen(const VisitCase& c, Notes& out) {
  judge_seen(condition, c, out);
}

extern const Rule condition_burned_terminal, condition_burned_bus, condition_arc_marks, condition_melted_part,
    condition_water_inside, condition_handle_leak, condition_chafed_conductor, condition_nicked_conductor,
    condition_pinched_conductor, condition_loose_terminal, condition_missing_barrier,
    condition_corroded_terminal, condition_cracked_bushing, condition_missing_bushing,
    condition_conductor_off_center, condition_sharp_bend, condition_gasket_damaged, condition_latch_open,
    condition_unsealed_opening, condition_missing_inhibitor, condition_no_strain_relief,
    condition_debris_inside, condition_loose_mounting, condition_standing_water, condition_label_illegible,
    condition_label_missing, condition_wrong_torque_mark, condition_counterfeit_mark;

}  // namespace boxproof
