// What the editions ask of the system behind the boxes. Ground fault: 690.5 and 690.35(C) up to 2014 (trade
// press for 2014, a forum's quotation for the exceptions of 2008 and 2011), 690.41(B) since (a fitting
// maker's index for 2017; 2020 and 2023 from memory, unverified). Arc fault: 690.11, trade press for 2011 to
// 2017. Rapid shutdown: 690.12; the times of 2014 as a proposed amendment of 2016 tells them, distance and
// times of 2017 from trade press, the 80 V and 2020 from memory, unverified; exceptions of 2023 from
// code-change summaries.
#include <optional>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

using boxproof::Edition;

TEST_CASE("ground-fault protection by edition") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const boxproof::GroundFaultRules& g = edition_of(name).ground_fault;
    const bool older = name <= "2014";
    CHECK(g.exempt_up_to_strings == 2);
    CHECK(g.section == (older ? "690.5" : "690.41(B)"));
    CHECK(g.ungrounded_section == (older ? "690.35(C)" : ""));
    CHECK(g.larger_grounding_factor == (older ? std::optional<double>(2) : std::nullopt));
    CHECK(g.larger_grounding_section == (older ? "690.45(B)" : ""));
  }
}

TEST_CASE("arc-fault protection by edition") {
  struct Case {
    std::string_view edition, section;
    bool on_buildings_only, outputs_off_buildings_exempt;
  };
  const std::vector<Case> cases{{"2011", "690.11", true, false},
                                {"2014", "690.11", false, false},
                                {"2017", "690.11", false, true},
                                {"2020", "690.11", false, true},
                                {"2023", "690.11", false, true}};
  for (const Case& c : cases) {
    CAPTURE(c.edition);
    const boxproof::ArcFaultRules& a = edition_of(c.edition).arc_fault;
    CHECK(a.section == c.section);
    CHECK(a.from.value() == 80);
    CHECK(a.on_buildings_only == c.on_buildings_only);
    CHECK(a.outputs_off_buildings_exempt == c.outputs_off_buildings_exempt);
  }
  CHECK(edition_of("2008").arc_fault.section.empty());
}

TEST_CASE("rapid shutdown by edition") {
  for (const std::string_view none : {"2008", "2011"}) CHECK(edition_of(none).rapid_shutdown.section.empty());

  const boxproof::RapidShutdownRules& first = edition_of("2014").rapid_shutdown;
  CHECK(first.section == "690.12");
  CHECK(first.beyond.value() == 3);
  REQUIRE(first.beyond_in_building.has_value());
  CHECK(first.beyond_in_building->value() == 1.5);
  CHECK(first.outside.max.value() == 30);
  CHECK(first.outside.max_voltamperes == 240);
  CHECK(first.outside.within_seconds == 10);
  CHECK(first.proposed_seconds == 30);
  CHECK_FALSE(first.inside.has_value());
  CHECK(first.exempt_structures.empty());

  for (const std::string_view name : {"2017", "2020", "2023"}) {
    CAPTURE(name);
    const boxproof::RapidShutdownRules& r = edition_of(name).rapid_shutdown;
    CHECK(r.section == "690.12");
    CHECK(r.beyond.value() == 0.3);
    CHECK_FALSE(r.beyond_in_building.has_value());
    CHECK(r.outside.max.value() == 30);
    CHECK_FALSE(r.outside.max_voltamperes.has_value());
    CHECK(r.outside.within_seconds == 30);
    CHECK_FALSE(r.proposed_seconds.has_value());
    REQUIRE(r.inside.has_value());
    CHECK(r.inside->max.value() == 80);
    CHECK(r.inside->within_seconds == 30);
    CHECK((r.inside->instead.find("hazard control") != std::string::npos) == (name >= "2020"));
    CHECK((r.exempt_structures.find("carports") != std::string::npos) == (name == "2023"));
  }
}
