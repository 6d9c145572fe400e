// What a finding says, held against what it should.
#pragma once

#include <string>
#include <string_view>

#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"

namespace boxproof::test {

// Two numbers that are one, but for the last digits of the arithmetic.
inline bool close(double a, double b) {
  return !exceeds(a, b) && !exceeds(b, a);
}

inline std::string severity_name(const Finding* f) {
  return f == nullptr ? "none" : std::string(severity_names[static_cast<std::size_t>(f->severity)]);
}

// A finding that compares two numbers of one unit.
inline void check_numbers(const Finding* f, double found, double required, std::string_view unit,
                          std::string_view section) {
  REQUIRE(f != nullptr);
  CAPTURE(f->message, f->part, found, required);
  REQUIRE(std::holds_alternative<double>(f->found));
  REQUIRE(std::holds_alternative<double>(f->required));
  CAPTURE(std::get<double>(f->found), std::get<double>(f->required));
  CHECK(close(std::get<double>(f->found), found));
  CHECK(close(std::get<double>(f->required), required));
  CHECK(f->unit == unit);
  CHECK(f->section == section);
}

// A finding that compares words.
inline void check_words(const Finding* f, std::string_view found, std::string_view required,
                        std::string_view section) {
  REQUIRE(f != nullptr);
  CAPTURE(f->message, f->part);
  REQUIRE(std::holds_alternative<std::string>(f->found));
  REQUIRE(std::holds_alternative<std::string>(f->required));
  CHECK(std::get<std::string>(f->found) == found);
  CHECK(std::get<std::string>(f->required) == required);
  CHECK(f->unit.empty());
  CHECK(f->section == section);
}

// The sound design with one more box, B-02, that differs by a merge patch.
inline Json with_second_box(Json design, const Json& patch = Json::object()) {
  Json second = design["combiners"][0];
  second["id"] = "B-02";
  second.merge_patch(patch);
  design["combiners"].push_back(second);
  return design;
}

}  // namespace boxproof::test
