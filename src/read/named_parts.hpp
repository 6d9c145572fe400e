// The named parts of a design: modules, inverters, conductors.
#pragma once

#include "boxproof/design.hpp"
#include "src/read/object.hpp"

namespace boxproof::read {

// Each reads the object `value` into the part; what is wrong with it goes to `reading`.
void read_module(const Value& value, Module& module, const Reading& reading);
void read_inverter(const Value& value, Inverter& inverter, const Reading& reading);
void read_conductor(const Value& value, Conductor& conductor, const Reading& reading);

// A conductor size under the key "size".
std::optional<Size> read_size(ObjectReader& reader);

// The numbers on a label, under the key "values".
std::vector<std::pair<std::string, double>> read_label_values(ObjectReader& reader, const Reading& reading);

}  // namespace boxproof::read
