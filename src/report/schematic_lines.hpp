// Making the lines that stand beside the parts of a drawn box.
#pragma once

#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "src/report/part_words.hpp"
#include "src/report/schematic_words.hpp"
#include "src/rules/notes.hpp"

namespace boxproof::report {

using Kind = DrawnLine::Kind;

inline DrawnLine title(std::string text) {
  return {Kind::title, std::move(text)};
}
inline DrawnLine detail(std::string text) {
  return {Kind::detail, std::move(text)};
}

// One of two words; "listing ?" where nothing is stated.
inline std::string word_or_unknown(std::optional<bool> value, std::string_view yes, std::string_view no,
                                   std::string_view what) {
  return value ? std::string(*value ? yes : no) : fmt::format("{} ?", what);
}

// What was found, and below it the plan's, where the two differ; else `as_planned` alone.
inline void tell(DrawnLines& out, const std::string& found, const std::string& planned) {
  if (found == planned) return out.push_back(detail(found));
  out.push_back({Kind::differs, "≠ " + found});
  out.push_back(detail("plan " + planned));
}

// A number of the three accounts; "–" where an account has none.
inline std::string of_account(const std::optional<double>& value) {
  return value ? boxproof::shown(*value) : "–";
}

template <class T>
std::optional<double> number(const std::optional<T>& value) {
  if (!value) return std::nullopt;
  if constexpr (requires { value->value(); })
    return value->value();
  else
    return static_cast<double>(*value);
}

// Plan, posted and found in columns; what differs from the plan is odd.
inline DrawnLine row_of(std::string name, std::optional<double> plan, std::optional<double> posted,
                        std::optional<double> found) {
  const auto odd = [&](const std::optional<double>& value) {
    return value && plan && (exceeds(*value, *plan) || exceeds(*plan, *value));
  };
  return {Kind::row,
          std::move(name),
          {of_account(plan), of_account(posted), of_account(found)},
          {false, odd(posted), odd(found)}};
}

}  // namespace boxproof::report
