// What the values of options may be. Of options.cpp alone: it includes CLI11.
#pragma once

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/date.hpp"
#include "boxproof/design.hpp"
#include "src/text/nearest.hpp"

namespace boxproof::cli {

template <class Range>
std::vector<std::string> words(const Range& range) {
  return {std::begin(range), std::end(range)};
}

// A value out of a list, with the nearest one where it is misspelt.
inline CLI::Validator one_of(std::vector<std::string> allowed) {
  std::string names = fmt::format("{{{}}}", fmt::join(allowed, ","));
  return {[allowed = std::move(allowed)](std::string& value) {
            if (std::find(allowed.begin(), allowed.end(), value) != allowed.end()) return std::string();
            const std::vector<std::string_view> views(allowed.begin(), allowed.end());
            return fmt::format("found \"{}\", expected one of {}{}", value, fmt::join(allowed, ", "),
                               text::did_you_mean(value, views));
          },
          names};
}

inline CLI::Validator celsius(TemperatureRange range) {
  const auto [least, most] = range;
  return {[least = least, most = most](std::string& value) {
            double degrees = 0;
            const auto parsed = std::from_chars(value.data(), value.data() + value.size(), degrees);
            const bool whole = parsed.ec == std::errc() && parsed.ptr == value.data() + value.size();
            if (whole && degrees >= least && degrees <= most) return std::string();
            return fmt::format("found \"{}\", expected degrees Celsius from {} to {}", value, least, most);
          },
          fmt::format("{} to {}", least, most)};
}

inline CLI::Validator a_day() {
  return {[](std::string& value) {
            if (parse_date(value)) return std::string();
            return fmt::format("found \"{}\", expected {}", value, expected_date(value));
          },
          ""};
}

// A whole number from `least` to what a list of boxes can hold.
inline CLI::Validator whole_number(std::uint32_t least) {
  return {[least](std::string& value) {
            std::uint32_t number = 0;
            const auto parsed = std::from_chars(value.data(), value.data() + value.size(), number);
            if (parsed.ec == std::errc() && parsed.ptr == value.data() + value.size() && number >= least)
              return std::string();
            return fmt::format("found \"{}\", expected a whole number from {} on", value, least);
          },
          ""};
}

}  // namespace boxproof::cli
