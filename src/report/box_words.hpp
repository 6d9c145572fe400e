// What reports say of one box.
#pragma once

#include <string>
#include <vector>

#include "boxproof/report.hpp"

namespace boxproof::report {

// "A-01: 16 strings of 18; maximum 969 V, 232 A; fuses 20 A": what the label on the box should say, as it
// is printed on labels: rounded up.
std::string label_should_say(const BoxFacts& facts);

// One margin a limit: of several circuits the one that is nearest to it.
std::vector<Margin> nearest_margins(const ReportInput& report, const BoxFacts& facts);

// "voltage, module (north)": the limit, and the circuit where the box has several.
std::string what_of(const Margin& margin);

}  // namespace boxproof::report
