// What measurements say of the strings of a box: pure functions, with workings, as in calculate.hpp.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "boxproof/design.hpp"
#include "boxproof/edition.hpp"
#include "boxproof/working.hpp"

namespace boxproof {

// Whether readings under this light can be held against a data sheet.
bool fit_irradiance(double w_m2, const Edition& edition);

// Open-circuit voltage of one module at a cell temperature and an irradiance; nothing where its temperature
// coefficient is not stated, or leaves nothing of the voltage there.
std::optional<Volts> voltage_of_one(const Module& module, Celsius cell, double w_m2, const Edition& edition,
                                    Working* working = nullptr);

// Modules in series by a string's open-circuit voltage.
struct SeriesInference {
  double modules = 0;          // as computed, no whole number
  double tolerance = 0;        // of that, as a share: the reading's, and the doubt about dim light
  double least = 0, most = 0;  // with the tolerance
  bool mismatch = false;       // as far from the expected number as the edition's data allow, or farther
  bool certain = false;        // the expected number lies outside what the tolerance allows
  bool between = false;        // and so does every other whole number
  std::uint32_t likely = 0;    // where there is a mismatch: the nearest number that is not the expected
  std::uint32_t fewest = 0, highest = 0;  // whole numbers that the tolerance allows, with the likely one
};
SeriesInference infer_series(Volts measured, Volts one, std::uint32_t expected, double tolerance_pct,
                             double w_m2, const Edition& edition, Working* working = nullptr);

// How far the lowest voltage per module lies below the highest, in percent.
double spread_pct(Volts lowest, Volts highest, const Edition& edition, Working* working = nullptr);

// Short-circuit current of one string at an irradiance.
Amps current_at(const Module& module, double w_m2, const Edition& edition, Working* working = nullptr);

// Median of all but one of a list of values sorted upwards; of all where `left_out` is beyond the list.
double median_without(const std::vector<double>& sorted, std::size_t left_out);

// Least insulation resistance in megohms of a system with strings of this open-circuit voltage at 25 °C.
double least_insulation_megohm(Volts string, const Edition& edition, Working* working = nullptr);

}  // namespace boxproof
