// Ratings of overcurrent devices: 240.6(A) against public copies of the NFPA 70-2014 and 2023 tables, the
// additional fuse ratings against a trade magazine of 2019, 10 x 38 mm PV fuses against a maker's datasheet
// (7, 9 and 16 A and the NH sizes from 40 A on: from memory, unverified), 240.4(D) against a wire maker's
// page, 240.4(B) from memory for the older editions.
#include <algorithm>
#include <array>
#include <functional>
#include <map>
#include <optional>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

const std::vector<double> standard_to_2020{
    15,  20,  25,  30,  35,  40,  45,  50,  60,  70,   80,   90,   100,  110,  125,  150,  175,  200, 225,
    250, 300, 350, 400, 450, 500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000};

const std::vector<double> customary{1,   2,   3,   3.5, 4,   5,   6,   7,   8,   9,   10,
                                    12,  15,  16,  20,  25,  30,  32,  40,  50,  63,  80,
                                    100, 125, 160, 200, 250, 315, 350, 400, 500, 600, 630};

const std::array<std::string_view, 5> to_2020{"2008", "2011", "2014", "2017", "2020"};

}  // namespace

TEST_CASE("standard ratings to 2020 start at 15 A") {
  for (const std::string_view name : to_2020) {
    CAPTURE(name);
    CHECK(edition_of(name).standard_ratings == standard_to_2020);
  }
}

TEST_CASE("2023 takes 10 A into the standard ratings") {
  std::vector<double> expected = standard_to_2020;
  expected.insert(expected.begin(), 10);
  CHECK(edition_of("2023").standard_ratings == expected);
}

TEST_CASE("additional fuse ratings") {
  for (const std::string_view name : to_2020) {
    CAPTURE(name);
    CHECK(edition_of(name).additional_fuse_ratings == std::vector<double>{1, 3, 6, 10, 601});
  }
  CHECK(edition_of("2023").additional_fuse_ratings == std::vector<double>{1, 3, 6, 601});
}

TEST_CASE("customary PV fuses in every edition, rising") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    CHECK(edition_of(name).customary_fuse_ratings == customary);
  }
  CHECK(std::adjacent_find(customary.begin(), customary.end(), std::greater_equal<>{}) == customary.end());
}

TEST_CASE("the next size up is allowed to 800 A, and 800 A is a standard rating") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::Edition& edition = edition_of(name);
    CHECK(edition.next_size_up_to.value() == 800);
    const std::vector<double>& ratings = edition.standard_ratings;
    CHECK(std::find(ratings.begin(), ratings.end(), 800) != ratings.end());
  }
}

TEST_CASE("small conductors") {
  const std::array<std::map<std::string_view, double>, 2> expected{
      {{{"14 AWG", 15}, {"12 AWG", 20}, {"10 AWG", 30}}, {{"12 AWG", 15}, {"10 AWG", 25}}}};
  for (const std::string_view name : boxproof::edition_names)
    for (std::size_t material = 0; material < 2; ++material)
      for (std::size_t i = 0; i < boxproof::Size::count; ++i) {
        const std::string_view size = boxproof::Size(i).name();
        CAPTURE(name, material, size);
        const auto found = expected[material].find(size);
        const std::optional<double> limit =
            found == expected[material].end() ? std::nullopt : std::optional<double>(found->second);
        CHECK(edition_of(name).small_conductor_limit[material][i] == limit);
      }
}

TEST_CASE("which editions ask for both poles and for PV listing, and know functional grounding") {
  struct Row {
    std::string_view name;
    bool both_poles, pv_listed, functional;
  };
  for (const Row& row : std::vector<Row>{{"2008", true, false, false},
                                         {"2011", true, false, false},
                                         {"2014", true, true, false},
                                         {"2017", false, true, true},
                                         {"2020", false, true, true},
                                         {"2023", false, true, true}}) {
    CAPTURE(row.name);
    const boxproof::Edition& edition = edition_of(row.name);
    CHECK(edition.both_poles_if_ungrounded == row.both_poles);
    CHECK(edition.pv_listed == row.pv_listed);
    CHECK(edition.knows_functional_grounding == row.functional);
  }
}
