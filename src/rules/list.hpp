// Every rule, by topic. A new rule is declared here and named once in list.cpp.
#pragma once

#include "boxproof/rule.hpp"

namespace boxproof {

extern const Rule voltage_site_limit, voltage_module_rating, voltage_inverter_input, voltage_equipment_rating,
    voltage_no_factor, voltage_unequal_strings, voltage_tracking_window;
extern const Rule current_box_rating, current_inverter_input, current_inputs;
extern const Rule fuse_missing, fuse_too_small, fuse_over_module_limit, fuse_not_standard, fuse_not_dc,
    fuse_not_pv_listed, fuse_poles, fuse_heat;
extern const Rule conductor_before_conditions, conductor_after_conditions, conductor_unprotected,
    conductor_small_size_limit, conductor_insulation, conductor_aluminum, conductor_fine_strand,
    conductor_grounding_size, conductor_voltage_drop;
extern const Rule disconnect_missing, disconnect_not_load_break, disconnect_too_far,
    disconnect_current_rating, disconnect_handle;
extern const Rule label_missing, label_values;
extern const Rule site_totals, site_grounding_term, site_temperature_source;

}  // namespace boxproof
