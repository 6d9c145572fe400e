// Days of the calendar, as files and the command line write them: YYYY-MM-DD (ISO 8601).
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace boxproof {

using Date = std::chrono::year_month_day;

// The day, if the text is one: four, two and two digits, and the calendar has it.
std::optional<Date> parse_date(std::string_view text);

// What a text that is no day should have been: "a day as YYYY-MM-DD", or what the calendar has in its place.
std::string expected_date(std::string_view text);

std::string to_text(Date date);

}  // namespace boxproof
