// Parameters of the single-diode equation of the 40 modules of voc_reference.hpp, and what it gives for the
// open-circuit voltage at other irradiances.
//
// Source: the same public list of modules (a state energy commission's, data of 2021-12-01), which states the
// parameters of De Soto's five-parameter model as that list's users know it (the coefficient of the
// short-circuit current reduced by `adjust` percent). Band gap 1.121 eV and its slope -0.0002677 per K: W. De
// Soto, S. Klein, W. Beckman, Improvement and validation of a model for photovoltaic array performance, Solar
// Energy 80 (2006); Boltzmann's constant: CODATA.
#pragma once

#include <cmath>
#include <string_view>
#include <vector>

namespace boxproof::test {

struct SingleDiode {
  std::string_view id;
  double voc;            // V at 1000 W/m2 and 25 °C, as stated
  double a;              // modified ideality factor, V
  double light, dark;    // light current and diode reverse saturation current, A
  double shunt;          // ohm
  double alpha, adjust;  // A/K, %
};

// clang-format off
inline const std::vector<SingleDiode> single_diodes{
    {"01", 47.2, 2.11189, 9.39479, 1.59e-09, 36.4084, -0.0006489, 16.6329},
    {"02", 37.8, 1.39065, 4.63253, 6.41e-12, 69.9321, -4.58e-05, 16.8862},
    {"03", 74.8, 2.61329, 9.31899, 3.02e-12, 62.9653, 0.000919, 0.891536},
    {"04", 120.0, 4.22663, 2.20381, 9.5e-13, 698.742, 0.000109, -2.02106},
    {"05", 220.0, 8.04715, 2.56429, 3.32e-12, 2498.99, 0.0014336, -1.7954},
    {"06", 218.1, 7.53324, 2.54096, 6.39e-13, 1492.6, 0.0013915, -13.4256},
    {"07", 215.4, 7.29635, 2.51562, 3.53e-13, 1224.66, 0.001425, -16.6101},
    {"08", 59.1, 2.06244, 2.61285, 9.03e-13, 598.469, 0.001664, -21.5037},
    {"09", 40.1, 1.63923, 10.3255, 2.44e-10, 559.414, 0.007154, 50.3199},
    {"10", 48.1, 1.85619, 10.064, 5.57e-11, 668.946, 0.003521, 20.5147},
    {"11", 47.8, 1.93619, 5.53749, 1.02e-10, 272.077, 0.00254933, 15.0801},
    {"12", 46.3, 2.06105, 9.30669, 1.61e-09, 365.465, 0.00286003, 10.8749},
    {"13", 40.9, 1.54744, 10.3469, 3.4e-11, 359.945, 0.004136, 12.4551},
    {"14", 40.2, 1.51351, 9.92454, 2.87e-11, 598.83, 0.003968, 11.3008},
    {"15", 46.9, 1.99119, 9.6005, 5.66e-10, 5334.33, 0.0049632, 8.30292},
    {"16", 37.3, 1.62728, 8.40367, 9.25e-10, 528.021, 0.0029736, 7.24273},
    {"17", 38.7, 1.63282, 9.26043, 4.71e-10, 6236.4, 0.00478742, 7.02044},
    {"18", 48.5, 1.80649, 10.013, 2.18e-11, 1048.08, 0.004004, 7.94374},
    {"19", 39.8, 1.58003, 9.94732, 1.14e-10, 2094.8, 0.005655, 6.38239},
    {"20", 40.2, 1.49504, 9.92506, 2.07e-11, 545.983, 0.0037696, 6.4005},
    {"21", 48.5, 1.76676, 10.4188, 1.22e-11, 203.137, 0.004017, 5.90657},
    {"22", 49.6, 1.82287, 11.3468, 1.71e-11, 457.494, 0.0060102, 4.62758},
    {"23", 49.7, 1.7796, 10.7476, 7.97e-12, 2376.4, 0.0024472, 3.38797},
    {"24", 48.7, 1.90639, 9.68849, 7.76e-11, 1235.93, 0.004418, -0.38119},
    {"25", 38.6, 1.52005, 9.21396, 8.57e-11, 648.167, 0.002763, -26.1412},
    {"26", 43.4, 2.06112, 12.1548, 6.43e-09, 13.6238, 0.006, 45.8097},
    {"27", 43.7, 1.80603, 7.94141, 2.36e-10, 126.755, 0.0032472, 17.8837},
    {"28", 37.9, 1.70827, 8.32774, 1.91e-09, 502.778, 0.00441664, 12.081},
    {"29", 37.44, 1.56934, 8.81642, 3.72e-10, 135.266, 0.00352, 11.2612},
    {"30", 44.65, 1.86547, 9.151, 3.62e-10, 276.446, 0.00512398, 10.3856},
    {"31", 37.6, 1.49586, 8.72776, 1.05e-10, 361.387, 0.00436, 10.4616},
    {"32", 21.66, 0.895458, 7.93615, 2.45e-10, 256.188, 0.00169702, 8.69269},
    {"33", 45.5, 1.81765, 8.82704, 1.17e-10, 480.854, 0.004851, 7.7163},
    {"34", 37.8, 1.58396, 9.03835, 3.8e-10, 155.485, 0.00364408, 6.11128},
    {"35", 44.6, 1.84637, 8.38167, 2.68e-10, 509.047, 0.0036476, 5.16437},
    {"36", 37.3, 1.55851, 8.49324, 3.39e-10, 368.697, 0.004788, 3.24746},
    {"37", 36.7, 1.71005, 8.49179, 4.01e-09, 387.303, 0.00621029, -48.1455},
    {"38", 40.6, 1.80041, 7.42038, 1.15e-09, 167.791, 0.0074, 19.3245},
    {"39", 36.1, 1.32303, 7.85241, 9.47e-12, 31.4693, -0.0009204, -10.7123},
    {"40", 77.4, 2.4622, 2.66318, 5.37e-14, 306.105, 0.0001834, -41.4921},
};
// clang-format on

// 0 = IL - I0 (exp(V/a) - 1) - V/Rsh, by bisection.
inline double physical_voc(const SingleDiode& m, double cell, double irradiance) {
  constexpr double stc_cell = 298.15, zero = 273.15, boltzmann = 8.617333262e-05, gap = 1.121,
                   gap_slope = -0.0002677;
  const double kelvin = cell + zero, ratio = kelvin / stc_cell, sun = irradiance / 1000;
  const double a = m.a * ratio;
  const double gap_there = gap * (1 + gap_slope * (kelvin - stc_cell));
  const double dark = m.dark * ratio * ratio * ratio *
                      std::exp(gap / (boltzmann * stc_cell) - gap_there / (boltzmann * kelvin));
  const double light = sun * (m.light + m.alpha * (1 - m.adjust / 100) * (kelvin - stc_cell));
  double low = 0, high = 2 * m.voc;
  for (int i = 0; i < 100; ++i) {
    const double v = (low + high) / 2;
    (light - dark * (std::exp(v / a) - 1) - v * sun / m.shunt > 0 ? low : high) = v;
  }
  return low;
}

}  // namespace boxproof::test
