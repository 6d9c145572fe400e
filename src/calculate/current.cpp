// Currents of a box: of one input, of the output, and what flows back into a faulted string.
#include <fmt/format.h>

#include "boxproof/calculate.hpp"

namespace boxproof {

Amps input_current(const Circuit& c, const Edition& e, Working* working) {
  const double p = c.strings_per_fuse;
  const Amps isc = c.module->isc_for_circuits();
  const Amps max = e.maximum_current_factor * p * isc;
  if (working)
    working->push_back(computed("Imax", "k · p · Isc",
                                {{"k", e.maximum_current_factor}, {"p", p}, {"Isc", isc.value()}},
                                max.value(), "A", e.maximum_current_section));
  return max;
}

Amps output_current(const Combiner& box, const Edition& e, Working* working) {
  Amps sum;
  for (const Circuit& c : box.circuits) sum += static_cast<double>(c.inputs()) * input_current(c, e);
  if (!working) return sum;
  std::string formula, numbers;
  for (std::size_t i = 0; i < box.circuits.size(); ++i) {
    formula += fmt::format("{}N{} · I{}", i ? " + " : "", i + 1, i + 1);
    numbers += fmt::format("{}{} · {}", i ? " + " : "", box.circuits[i].inputs(),
                           exact(input_current(box.circuits[i], e).value()));
  }
  working->push_back({"Iout", formula, numbers, sum.value(), "A", e.output_current_section});
  return sum;
}

Amps joined_current(const Circuit& c, const Edition& e) {
  return e.maximum_current_factor * (static_cast<double>(c.strings_per_fuse) - 1) *
         c.module->isc_for_circuits();
}

namespace {

Amps backfeed_of(const Combiner& box) {
  return box.inverter != nullptr ? box.inverter->backfeed : Amps(0);
}

}  // namespace

Amps back_current(const Combiner& box, const Circuit& c, Amps output, const Edition& e) {
  return output - input_current(c, e) + backfeed_of(box) + joined_current(c, e);
}

Amps back_current(const Combiner& box, const Circuit& c, const Edition& e, Working* working) {
  const Amps out = output_current(box, e, working), own = input_current(c, e, working);
  const Amps back = back_current(box, c, out, e);
  if (working) {
    const double p = c.strings_per_fuse;
    working->push_back(computed("Iback", "Iout − Imax + Ifeed + k · (p − 1) · Isc",
                                {{"Iout", out.value()},
                                 {"Imax", own.value()},
                                 {"Ifeed", backfeed_of(box).value()},
                                 {"k", e.maximum_current_factor},
                                 {"p", p},
                                 {"Isc", c.module->isc_for_circuits().value()}},
                                back.value(), "A", e.omission_section));
  }
  return back;
}

}  // namespace boxproof
