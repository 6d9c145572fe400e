#include "src/rules/list.hpp"

#include "src/rules/condition.hpp"
#include "src/rules/enclosure.hpp"
#include "src/rules/measured.hpp"
#include "src/rules/protection.hpp"
#include "src/rules/tally.hpp"

namespace boxproof {

std::span<const Rule* const> all_rules() {
  static constexpr std::array rules{
      &voltage_site_limit,
      &voltage_module_rating,
      &voltage_inverter_input,
      &voltage_equipment_rating,
      &voltage_no_factor,
      &voltage_unequal_strings,
      &voltage_tracking_window,
      &current_box_rating,
      &current_inverter_input,
      &current_inputs,
      &fuse_missing,
      &fuse_too_small,
      &fuse_over_module_limit,
      &fuse_not_standard,
      &fuse_not_dc,
      &fuse_not_pv_listed,
      &fuse_poles,
      &fuse_heat,
      &conductor_before_conditions,
      &conductor_after_conditions,
      &conductor_unprotected,
      &conductor_small_size_limit,
      &conductor_insulation,
      &conductor_aluminum,
      &conductor_fine_strand,
      &conductor_grounding_size,
      &conductor_voltage_drop,
      &disconnect_missing,
      &disconnect_not_load_break,
      &disconnect_too_far,
      &disconnect_current_rating,
      &disconnect_handle,
      &enclosure_type,
      &enclosure_air_gap,
      &enclosure_not_listed,
      &protection_ground_fault,
      &protection_arc_fault,
      &protection_rapid_shutdown,
      &label_missing,
      &label_values,
      &site_totals,
      &site_grounding_term,
      &site_temperature_source,
      &tally_strings,
      &tally_polarity,
      &tally_series,
      &tally_transposed,
      &tally_label,
      &tally_fuse,
      &tally_mixed_fuses,
      &tally_part,
      &tally_not_visited,
      &tally_not_on_plan,
      &measured_series_count,
      &measured_spread,
      &measured_reversed,
      &measured_current,
      &measured_insulation,
      &condition_burned_terminal,
      &condition_burned_bus,
      &condition_arc_marks,
      &condition_melted_part,
      &condition_water_inside,
      &condition_handle_leak,
      &condition_chafed_conductor,
      &condition_nicked_conductor,
      &condition_pinched_conductor,
      &condition_loose_terminal,
      &condition_missing_barrier,
      &condition_corroded_terminal,
      &condition_cracked_bushing,
      &condition_missing_bushing,
      &condition_conductor_off_center,
      &condition_sharp_bend,
      &condition_gasket_damaged,
      &condition_latch_open,
      &condition_unsealed_opening,
      &condition_missing_inhibitor,
      &condition_no_strain_relief,
      &condition_debris_inside,
      &condition_loose_mounting,
      &condition_standing_water,
      &condition_label_illegible,
      &condition_label_missing,
      &condition_wrong_torque_mark,
      &condition_counterfeit_mark,
  };
  return rules;
}

const Rule* find_rule(std::string_view id) {
  for (const Rule* rule : all_rules())
    if (rule->id == id) return rule;
  return nullptr;
}

}  // namespace boxproof
