// A conductor and how it is laid, to try the calculations on.
#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "boxproof/calculate.hpp"

namespace boxproof::test {

struct Laid {
  Conductor conductor;
  Run run;

  // In a raceway or in free air, at 30 °C where the correction is 1, two conductors that carry current, 90 °C
  // terminals: nothing but the table's value is left, until a test changes something.
  Laid(std::string_view size, Material material, std::string insulation, double rating,
       Method method = Method::raceway) {
    conductor.id = "wire";
    conductor.size = Size::parse(size);
    conductor.material = material;
    conductor.insulation = std::move(insulation);
    conductor.insulation_temperature = rating;
    run.conductor = &conductor;
    run.method = method;
    run.ambient = Celsius(30);
    run.terminal = 90;
  }
  Laid(const Laid&) = delete;
  Laid& operator=(const Laid&) = delete;

  RunAmpacity ampacity(const Edition& edition, double max = 10) const {
    return run_ampacity(&run, Amps(max), std::nullopt, edition);
  }
};

}  // namespace boxproof::test
