// Which string of the box a measurement belongs to, and whether it was taken under conditions that allow a
// judgement. What is wanting is told to the notes.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "src/rules/notes.hpp"

namespace boxproof {

// One reading of the kind that a rule looks at.
struct Reading {
  const MeasuredString* string = nullptr;
  std::size_t entry = 0;       // in the record
  std::uint32_t position = 0;  // from 1; where none is stated, the place in the list
  bool by_entry = false;  // the position does not name it: not stated in a box of several kinds, or not alone

  std::string part() const;  // "string 9", "entry 3"
  std::string name() const;  // the same at the head of a sentence
};

using Has = bool (*)(const MeasuredString&);

// The readings of the box that have what is asked for.
std::vector<Reading> readings(const VisitCase& c, Has has);

// A reading of a string that is known.
struct PlacedReading : Reading {
  const Circuit* group = nullptr;  // of the plan
  std::uint32_t series = 0;        // as found: counted, else planned
  bool counted = false;
};

// Those of them whose string is known.
std::vector<PlacedReading> placed_readings(const VisitCase& c, Notes& out, Has has);

// The irradiance, if it is stated and fit.
std::optional<double> fit_light(const VisitCase& c, Notes& out);

// Pointer to a key of a measured string in the record.
std::string reading_pointer(const VisitCase& c, const Reading& reading, std::string_view key);

// Readings of like strings side by side: those that `alike` pairs with the first of each lot.
std::vector<std::vector<PlacedReading>> lots_of(const std::vector<PlacedReading>& all,
                                                bool (*alike)(const PlacedReading&, const PlacedReading&));

}  // namespace boxproof
