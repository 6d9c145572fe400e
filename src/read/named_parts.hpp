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

// What a label states, under the key "values": its numbers and its texts.
void read_label_values(ObjectReader& reader, const Reading& reading,
                       std::vector<std::pair<std::string, double>>& numbers,
                       std::vector<std::pair<std::string, std::string>>& texts);

}  // namespace boxproof::read
