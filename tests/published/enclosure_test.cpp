// Enclosures. Types: Table 110.28 as in a public machine-readable copy of the 2023 tables; its indoor block
// was not held against a second copy, and the number 110.20 of 2008 is from memory, unverified. Of the types
// for outdoor use, 3R and 3RX are rainproof, the others raintight or better (from memory, unverified). Air
// space: 312.2 (312.2(A) in 2008), 6 mm or 1/4 in, as quoted in a forum. Listing: 690.4(D) of 2008 and 2011,
// 690.4(B) since, field labels since 2017 (up to 2014 from memory, unverified).
#include <cmath>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

using boxproof::EnclosureType;

namespace {

// As the table prints them: rows on the outdoor side, rows on the indoor side.
struct Row {
  std::string_view type;
  bool rain;       // outdoor block: rain, snow and sleet
  bool raintight;  // not only rainproof
  bool dripping;   // indoor block: falling liquids and light splashing
  bool hose;       // indoor block: hosedown and splashing water
  bool in_indoor_block;
};

// clang-format off
const std::vector<Row> table{
    {"1",   false, false, false, false, true},
    {"2",   false, false, true,  false, true},
    {"3",   true,  true,  false, false, false},
    {"3R",  true,  false, false, false, false},
    {"3S",  true,  true,  false, false, false},
    {"3X",  true,  true,  false, false, false},
    {"3RX", true,  false, false, false, false},
    {"3SX", true,  true,  false, false, false},
    {"4",   true,  true,  true,  true,  true},
    {"4X",  true,  true,  true,  true,  true},
    {"5",   false, false, true,  false, true},
    {"6",   true,  true,  true,  true,  true},
    {"6P",  true,  true,  true,  true,  true},
    {"12",  false, false, true,  false, true},
    {"12K", false, false, true,  false, true},
    {"13",  false, false, true,  false, true},
};
// clang-format on

// Indoors in a wet location: by the hose row; where that says no, what else holds water off is asked about.
EnclosureType::Wet wet_indoors(const Row& row) {
  if (row.hose) return EnclosureType::Wet::yes;
  return row.dripping || row.rain ? EnclosureType::Wet::ask : EnclosureType::Wet::no;
}

}  // namespace

TEST_CASE("fitness of the enclosure types in every edition") {
  for (const std::string_view name : boxproof::edition_names) {
    const auto& types = edition_of(name).enclosure.types;
    REQUIRE(types.size() == table.size());
    for (std::size_t i = 0; i < table.size(); ++i) {
      CAPTURE(name, table[i].type);
      CHECK(types[i].name == table[i].type);
      CHECK(types[i].outdoor == table[i].rain);
      CHECK(types[i].lid_up == table[i].raintight);
      CHECK(types[i].wet_indoors == wet_indoors(table[i]));
    }
  }
}

TEST_CASE("air space, listing and sections by edition") {
  struct Case {
    std::string_view edition, types, air_gap, listing;
    bool or_field_labelled;
  };
  const std::vector<Case> cases{{"2008", "110.20, Table 110.20", "312.2(A)", "690.4(D)", false},
                                {"2011", "110.28, Table 110.28", "312.2", "690.4(D)", false},
                                {"2014", "110.28, Table 110.28", "312.2", "690.4(B)", false},
                                {"2017", "110.28, Table 110.28", "312.2", "690.4(B)", true},
                                {"2020", "110.28, Table 110.28", "312.2", "690.4(B)", true},
                                {"2023", "110.28, Table 110.28", "312.2", "690.4(B)", true}};
  constexpr double quarter_inch_mm = 25.4 / 4;  // which the metric text rounds to 6 mm
  for (const Case& c : cases) {
    CAPTURE(c.edition);
    const auto& e = edition_of(c.edition).enclosure;
    CHECK(e.types_section == c.types);
    CHECK(e.air_gap_section == c.air_gap);
    CHECK(e.least_air_gap.value() == std::round(quarter_inch_mm));
    CHECK(e.listing_section == c.listing);
    CHECK(e.or_field_labelled == c.or_field_labelled);
  }
}
