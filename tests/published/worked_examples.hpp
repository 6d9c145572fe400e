// What the tests of published worked examples share: parts with the values that an example states.
//
// Left out of those tests, of the examples that were collected, are
// - a permit's sizing of an AC feeder (62.5 A to 70 A on 6 AWG): not the DC side;
// - the factor 1.13 at 20 °F of a home system's page: from the table of the 2003 edition, which is not
// carried (its
//   current is tested);
// - the practice sheet with strings of 170 W modules and an output of 60 A: it prints no answers;
// - a plan sheet of an inverter with 12 modules in series: its per-module values are not printed.
#pragma once

#include "boxproof/calculate.hpp"
#include "tests/support/editions.hpp"

namespace boxproof::test::worked {

inline Module module_of(double voc, double isc) {
  Module m;
  m.id = "M";
  m.voc = Volts(voc);
  m.isc = Amps(isc);
  m.cell = Cell::mono_si;
  return m;
}

inline Circuit circuit_of(const Module& module, unsigned strings, unsigned strings_per_fuse = 1,
                          unsigned series = 1) {
  Circuit c;
  c.id = "1";
  c.module = &module;
  c.series = series;
  c.strings = strings;
  c.strings_per_fuse = strings_per_fuse;
  return c;
}

// Strings of one kind on one box without an inverter's backfeed.
inline Combiner box_of(const Module& module, unsigned strings, unsigned strings_per_fuse = 1) {
  Combiner box;
  box.id = "A-01";
  box.circuits.push_back(circuit_of(module, strings, strings_per_fuse));
  return box;
}

inline Conductor copper(std::string_view size, double insulation = 90) {
  Conductor c;
  c.id = "wire";
  c.size = Size::parse(size);
  c.material = Material::copper;
  c.insulation = "USE-2";
  c.insulation_temperature = insulation;
  return c;
}

inline Run run_of(const Conductor& conductor, double ambient, unsigned carrying = 2,
                  Method method = Method::raceway) {
  Run run;
  run.conductor = &conductor;
  run.method = method;
  run.ambient = Celsius(ambient);
  run.current_carrying = carrying;
  run.terminal = 75;
  return run;
}

// Least fuse of one input: 1.25 · 1.25 · p · Isc.
inline double least_fuse(double isc, unsigned strings_per_fuse = 1, std::string_view edition = "2017") {
  const Module m = module_of(40, isc);
  const Edition& e = edition_of(edition);
  return least_rating(input_current(circuit_of(m, strings_per_fuse, strings_per_fuse), e), false, {}, e)
      .value();
}

}  // namespace boxproof::test::worked
