// Random sites: modules of several kinds, boxes with and without a type, several groups, absent keys; and
// random field records of them. The same seed gives the same site on every machine.
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "tests/support/judge.hpp"

namespace boxproof::test {

class RandomSite {
 public:
  explicit RandomSite(std::uint32_t seed) : engine_(seed) {}

  // A design that reads without an error; what it states may be absurd, and much is not stated.
  Json design();
  // The record changed at random: boxes and values left out, values changed, things seen and measured, boxes
  // that are not on the plan.
  Json visit(Json as_planned);
  // The JSON text with the keys of each object in a random order.
  std::string any_order(const Json& json);
  void shuffle(Json& list);

  std::size_t below(std::size_t end) { return engine_() % end; }
  bool chance(unsigned percent) { return below(100) < percent; }
  template <class T>
  T one_of(const std::vector<T>& list) {
    return list[below(list.size())];
  }

 private:
  Json module();
  Json inverter();
  Json conductor();
  Json run();
  Json circuit(const std::string& id);
  Json labels();
  Json parts();
  Json box(const std::string& id);
  // Puts the value in, or leaves it out now and then.
  void state(Json& where, const char* key, const Json& value, unsigned absent_percent = 8);
  void see(Json& box);
  void measure(Json& box);

  std::mt19937 engine_;
};

// The design with each box's type resolved: the box as a merge patch onto it, no type named any more.
Json with_types_resolved(Json design);

}  // namespace boxproof::test
