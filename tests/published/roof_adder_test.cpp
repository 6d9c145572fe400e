// Kelvin added to the ambient of raceways and cables over a sunlit roof. 2008 to 2014 by height: public
// source code that states the 2014 table in °F (60, 40, 30, 25); the heights in millimetres are from memory,
// unverified. From 2017 on one height: code change summaries of 2017 and 2020 (23 mm, 7/8 in) and 2023 (19
// mm, 3/4 in).
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

struct Band {
  double up_to_mm, adder_k;
};

void check_adder(std::string_view name, bool limit_included, const std::vector<Band>& bands,
                 const std::vector<std::string>& exempt) {
  CAPTURE(name);
  const boxproof::RoofAdder& adder = edition_of(name).roof_adder;
  CHECK(adder.limit_included == limit_included);
  CHECK(adder.exempt == exempt);
  REQUIRE(adder.bands.size() == bands.size());
  for (std::size_t i = 0; i < bands.size(); ++i) {
    CAPTURE(bands[i].up_to_mm);
    CHECK(adder.bands[i].up_to.value() == bands[i].up_to_mm);
    CHECK(adder.bands[i].adder.value() == bands[i].adder_k);
  }
}

const std::vector<Band> by_height{{13, 33}, {90, 22}, {300, 17}, {900, 14}};

}  // namespace

TEST_CASE("roof adder by height, 2008 to 2014") {
  check_adder("2008", true, by_height, {});
  check_adder("2011", true, by_height, {});
  check_adder("2014", true, by_height, {"XHHW-2"});
}

TEST_CASE("roof adder below one height, from 2017 on") {
  check_adder("2017", false, {{23, 33}}, {"XHHW-2"});
  check_adder("2020", false, {{23, 33}}, {"XHHW-2"});
  check_adder("2023", false, {{19, 33}}, {"XHHW-2"});
}

TEST_CASE("the adders are 60, 40, 30 and 25 °F, to the kelvin") {
  const std::vector<double> fahrenheit{60, 40, 30, 25};
  const boxproof::RoofAdder& adder = edition_of("2014").roof_adder;
  REQUIRE(adder.bands.size() == fahrenheit.size());
  for (std::size_t i = 0; i < fahrenheit.size(); ++i)
    CHECK(adder.bands[i].adder.value() == std::round(fahrenheit[i] * 5 / 9));
}
