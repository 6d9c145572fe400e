#include "boxproof/date.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace boxproof {
namespace {

// The three numbers of YYYY-MM-DD, whether or not the calendar has that day.
std::optional<Date> numbers_of(std::string_view text) {
  constexpr std::string_view form = "dddd-dd-dd";
  const bool fits = text.size() == form.size() &&
                    std::equal(text.begin(), text.end(), form.begin(),
                               [](char c, char as) { return as == 'd' ? c >= '0' && c <= '9' : c == as; });
  if (!fits) return std::nullopt;
  const auto number = [&](std::size_t from, std::size_t digits) {
    unsigned value = 0;
    for (const char c : text.substr(from, digits)) value = value * 10 + static_cast<unsigned>(c - '0');
    return value;
  };
  return Date(std::chrono::year(static_cast<int>(number(0, 4))), std::chrono::month(number(5, 2)),
              std::chrono::day(number(8, 2)));
}

}  // namespace

std::optional<Date> parse_date(std::string_view text) {
  const std::optional<Date> date = numbers_of(text);
  return date && date->ok() ? date : std::nullopt;
}

std::string expected_date(std::string_view text) {
  const std::optional<Date> date = numbers_of(text);
  if (!date) return "a day as YYYY-MM-DD";
  if (!date->month().ok()) return "a day of the calendar; months are 01 to 12";
  const std::chrono::year_month_day_last last(date->year(), std::chrono::month_day_last(date->month()));
  return fmt::format("a day of the calendar; that month has the days 01 to {:02}",
                     static_cast<unsigned>(last.day()));
}

std::string to_text(Date date) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

}  // namespace boxproof
