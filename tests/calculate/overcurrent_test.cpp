// Overcurrent devices, by hand: the least rating is 1.25 · 1.25 = 1.5625 times the short-circuit current,
// never the rounded 1.56. Ratings: 240.6(A); next size up: 240.4(B) (see published/overcurrent_test.cpp).
#include <optional>
#include <utility>
#include <vector>

#include "boxproof/calculate.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

using namespace boxproof;
using Catch::Matchers::WithinRel;

namespace {

constexpr double exactly = 1e-15;

// The suggested fuse for one string of modules with this short-circuit current.
std::optional<Amps> suggested(double isc, const Edition& e) {
  Module m;
  m.isc = Amps(isc);
  Circuit c;
  c.module = &m;
  return standard_rating(least_rating(input_current(c, e), false, std::nullopt, e), e);
}

}  // namespace

TEST_CASE("least rating of a device that carries its current for hours") {
  struct Row {
    double max;
    bool full;
    std::optional<double> factor;
    double least;
  };
  for (const Row& r : std::vector<Row>{{12, false, {}, 15},
                                       {12, true, {}, 12},       // listed for 100 %
                                       {12, false, 0.8, 18.75},  // re-rated for heat
                                       {12, true, 0.8, 15},
                                       {12, false, 1.0, 15},
                                       {12, false, 1.2, 12.5},  // a cold box
                                       {108, false, {}, 135},
                                       {108, true, {}, 108},
                                       {14.2125, false, {}, 17.765625}})
    for (const std::string_view edition : edition_names) {
      CAPTURE(edition, r.max, r.full, r.factor.value_or(0));
      CHECK_THAT(least_rating(Amps(r.max), r.full, r.factor, edition_of(edition)).value(),
                 WithinRel(r.least, exactly));
    }
}

TEST_CASE("a current that lands exactly on a rating gets that rating") {
  // rating / 1.5625
  for (const auto& [isc, rating] : std::vector<std::pair<double, double>>{{0.64, 1},
                                                                          {1.92, 3},
                                                                          {3.84, 6},
                                                                          {6.4, 10},
                                                                          {9.6, 15},
                                                                          {12.8, 20},
                                                                          {16, 25},
                                                                          {19.2, 30},
                                                                          {22.4, 35},
                                                                          {25.6, 40},
                                                                          {28.8, 45},
                                                                          {32, 50}})
    for (const std::string_view edition : edition_names) {
      CAPTURE(edition, isc);
      const auto fuse = suggested(isc, edition_of(edition));
      REQUIRE(fuse);
      CHECK(fuse->value() == rating);
    }
}

TEST_CASE("1.5625, never 1.56: just above the exact current the next rating is due") {
  // Each of these passes with the smaller rating where 1.56 is used: 1.56 · 9.61 = 14.99, 1.5625 · 9.61
  // = 15.02.
  for (const auto& [isc, rating] : std::vector<std::pair<double, double>>{
           {9.61, 20}, {9.601, 20}, {12.81, 25}, {16.02, 30}, {6.41, 15}, {3.845, 10}}) {
    CAPTURE(isc);
    const auto by_rounded = standard_rating(Amps(1.56 * isc), edition_of("2017"));
    CHECK(by_rounded->value() < rating);
    CHECK(suggested(isc, edition_of("2017"))->value() == rating);
  }
}

TEST_CASE("the smallest standard rating at or above") {
  // Additional fuse ratings 1, 3, 6, 10 (10 is a main one from 2023) and 601 count; customary ones (12, 16,
  // 32) do not.
  const std::vector<std::pair<double, double>> expected{
      {0.2, 1},      {1, 1},       {1.001, 3},  {3, 3},       {3.5, 6},        {6, 6},          {6.001, 10},
      {10, 10},      {10.1, 15},   {12, 15},    {15, 15},     {15 + 5e-9, 15}, {15 + 5e-8, 20}, {15.5, 20},
      {20.1, 25},    {30.1, 35},   {46, 50},    {50.1, 60},   {100, 100},      {100.1, 110},    {135, 150},
      {151, 175},    {226, 250},   {600, 600},  {600.5, 601}, {601, 601},      {601.5, 700},    {800, 800},
      {800.1, 1000}, {5001, 6000}, {6000, 6000}};
  for (const std::string_view edition : edition_names) {
    for (const auto& [least, rating] : expected) {
      CAPTURE(edition, least);
      const auto found = standard_rating(Amps(least), edition_of(edition));
      REQUIRE(found);
      CHECK(found->value() == rating);
    }
    CHECK_FALSE(standard_rating(Amps(6000.1), edition_of(edition)));
  }
}

TEST_CASE("a device protects a conductor at or below its ampacity, or as the next size up to 800 A") {
  struct Row {
    double rating, ampacity;
    bool protects;
  };
  for (const Row& r : std::vector<Row>{{15, 20, true},        {15, 15, true},
                                       {15 + 5e-9, 15, true},  // within the slack
                                       {16, 15, false},        // 15 A is a standard rating: no next size up
                                       {20, 15, false},       {20, 15 + 5e-9, false},  // still 15 A
                                       {20, 15.1, true},      {20, 19.9, true},
                                       {25, 19.9, false},     {25, 20, false},
                                       {16, 15.5, true},   // below the next standard rating, 20 A
                                       {20, 14.9, false},  // the next one is 15 A
                                       {32, 31, true},        {32, 30, false},
                                       {50, 45.6, true},      {60, 45.6, false},
                                       {175, 150.1, true},    {175, 150, false},
                                       {700, 650, true},      {800, 750, true},
                                       {800, 701, true},      {800, 700, false},
                                       {801, 790, false},  // above 800 A there is no next size up
                                       {1000, 850, false},    {1000, 999.9, false},
                                       {1000, 1000, true},    {1200, 1300, true}})
    for (const std::string_view edition : edition_names) {
      CAPTURE(edition, r.rating, r.ampacity);
      CHECK(protects(Amps(r.rating), Amps(r.ampacity), edition_of(edition)) == r.protects);
    }
}

TEST_CASE("nothing protects a conductor without any ampacity left") {
  // Past the end of the correction table the ampacity is 0, which lies between no two ratings.
  for (const double rating : {1.0, 3.0, 15.0}) {
    CAPTURE(rating);
    CHECK_FALSE(protects(Amps(rating), Amps(0), edition_of("2017")));
  }
}

TEST_CASE("the working of a least rating") {
  struct Row {
    bool full;
    std::optional<double> factor;
    const char *formula, *numbers, *section;
  };
  for (const Row& r : std::vector<Row>{{false, {}, "kc · Imax", "1.25 · 12", "690.9(B)(1)"},
                                       {true, {}, "kc · Imax", "1 · 12", "690.9(B)(2)"},
                                       {false, 0.8, "kc · Imax / f", "1.25 · 12 / 0.8", "690.9(B)(1)"},
                                       {true, 0.8, "kc · Imax / f", "1 · 12 / 0.8", "690.9(B)(2)"}}) {
    Working working;
    const Amps least = least_rating(Amps(12), r.full, r.factor, edition_of("2017"), &working);
    REQUIRE(working.size() == 1);
    CHECK(working[0].symbol == "Imin");
    CHECK(working[0].formula == r.formula);
    CHECK(working[0].numbers == r.numbers);
    CHECK(working[0].section == r.section);
    CHECK(working[0].value == least.value());
    CHECK(working[0].unit == "A");
  }
}
