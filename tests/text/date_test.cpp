// Days as YYYY-MM-DD. Which years are leap years: the Gregorian rule (ISO 8601); 2000 and 2028 are, 2100 is
// not.
#include "boxproof/date.hpp"

#include "tests/support/catch.hpp"

using namespace boxproof;

TEST_CASE("a day that the calendar has is read and written alike") {
  for (const char* text :
       {"2027-03-18", "2027-01-01", "2027-12-31", "2028-02-29", "2000-02-29", "2027-04-30"}) {
    CAPTURE(text);
    const auto date = parse_date(text);
    REQUIRE(date.has_value());
    CHECK(to_text(*date) == text);
  }
  CHECK(*parse_date("2026-12-31") < *parse_date("2027-01-01"));
  CHECK(*parse_date("2027-01-31") < *parse_date("2027-02-01"));
}

TEST_CASE("what is no day, and what should stand there") {
  const std::string form = "a day as YYYY-MM-DD", months = "a day of the calendar; months are 01 to 12";
  const auto days = [](const std::string& last) {
    return "a day of the calendar; that month has the days 01 to " + last;
  };
  const std::pair<const char*, std::string> table[] = {
      {"", form},
      {"2027", form},
      {"2027-3-18", form},
      {"18.03.2027", form},
      {"2027/03/18", form},
      {"2027-03-18T10:00", form},
      {" 2027-03-18", form},
      {"-027-03-18", form},
      {"2027-03-1x", form},
      {"2027-00-10", months},
      {"2027-13-10", months},
      {"2027-01-00", days("31")},
      {"2027-01-32", days("31")},
      {"2027-04-31", days("30")},
      {"2027-02-29", days("28")},
      {"2027-02-30", days("28")},
      {"2028-02-30", days("29")},
      {"2100-02-29", days("28")},
  };
  for (const auto& [text, expected] : table) {
    CAPTURE(text);
    CHECK_FALSE(parse_date(text).has_value());
    CHECK(expected_date(text) == expected);
  }
}
