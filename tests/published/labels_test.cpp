// Labels by edition: which, where, when, with which values, under which section. Sections and values of the
// DC power source label: a label engraver's page (2008), secondary summaries for 2020 and 2023, else from
// memory. Live parts on both sides: a label maker's page (2008, 2011). Raceways: a forum thread (2011, and
// the 3 m), EC&M (2020), notes on the 2025 California code (2023). Ungrounded arrays and directories: label
// makers' pages (2011). Identification of circuits: SolarPro (2011), a label maker's page (2014), a series on
// the 2020 edition. What is marked true in the last column is from memory, unverified.
#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/design.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

using namespace boxproof;

namespace {

using Values = std::vector<LabelValue>;
constexpr LabelValue max_v = LabelValue::max_v, max_a = LabelValue::max_a, isc_a = LabelValue::isc_a,
                     vmp_v = LabelValue::vmp_v, imp_a = LabelValue::imp_a;

struct Row {
  std::string_view edition, kind;
  LabelAt at;
  LabelWhen when;
  Values values;
  std::string_view section;
  bool unverified;
};

constexpr auto box = LabelAt::box;
constexpr auto sw = LabelAt::disconnect;
constexpr auto by_switch = LabelWhen::disconnect;

// In the order of the kinds, oldest edition first.
// clang-format off
const std::vector<Row> rows{
    {"2008", "dc-power-source", sw, by_switch, {imp_a, vmp_v, max_v, isc_a}, "690.53", false},
    {"2008", "shock-both-sides", sw, by_switch, {}, "690.17", false},
    {"2008", "ground-fault", LabelAt::inverter, LabelWhen::grounded, {}, "690.5(C)", false},
    {"2008", "ungrounded-system", box, LabelWhen::ungrounded, {}, "690.35(F)", true},
    {"2008", "disconnect", sw, by_switch, {}, "110.22(A)", true},

    {"2011", "box-identification", box, LabelWhen::always, {}, "690.4(B)", false},
    {"2011", "dc-power-source", sw, by_switch, {imp_a, vmp_v, max_v, isc_a}, "690.53", true},
    {"2011", "shock-both-sides", sw, by_switch, {}, "690.17", false},
    {"2011", "raceway-power-source", LabelAt::raceway, LabelWhen::raceway, {}, "690.31(E)(3)", false},
    {"2011", "ground-fault", LabelAt::inverter, LabelWhen::grounded, {}, "690.5(C)", false},
    {"2011", "ungrounded-system", box, LabelWhen::ungrounded, {}, "690.35(F)", false},
    {"2011", "disconnect", sw, by_switch, {}, "110.22(A)", true},
    {"2011", "directory", box, LabelWhen::far_disconnect, {}, "690.16(B)", false},

    {"2014", "box-identification", box, LabelWhen::always, {}, "690.31(B)", false},
    {"2014", "dc-power-source", sw, by_switch, {imp_a, vmp_v, max_v, max_a}, "690.53", true},
    {"2014", "shock-both-sides", sw, by_switch, {}, "690.13(B), 690.17(E)", true},
    {"2014", "raceway-power-source", LabelAt::raceway, LabelWhen::raceway, {}, "690.31(G)(3)", true},
    {"2014", "ground-fault", LabelAt::inverter, LabelWhen::grounded, {}, "690.5(C)", false},
    {"2014", "ungrounded-system", box, LabelWhen::ungrounded, {}, "690.35(F)", true},
    {"2014", "rapid-shutdown", LabelAt::service, LabelWhen::building, {}, "690.56(C)", true},
    {"2014", "disconnect", sw, by_switch, {}, "110.22(A)", true},
    {"2014", "directory", box, LabelWhen::far_disconnect, {}, "690.16(B)", true},

    {"2017", "box-identification", box, LabelWhen::always, {}, "690.31(B)", true},
    {"2017", "max-voltage", sw, by_switch, {max_v, max_a}, "690.53", true},
    {"2017", "shock-both-sides", sw, by_switch, {}, "690.13(B), 690.15", true},
    {"2017", "raceway-power-source", LabelAt::raceway, LabelWhen::raceway, {}, "690.31(G)(3)", true},
    {"2017", "rapid-shutdown", LabelAt::service, LabelWhen::building, {}, "690.56(C)", true},
    {"2017", "disconnect", sw, by_switch, {}, "110.22(A)", true},

    {"2020", "box-identification", box, LabelWhen::always, {}, "690.31(B)", false},
    {"2020", "max-voltage", LabelAt::system, LabelWhen::always, {max_v}, "690.53", false},
    {"2020", "shock-both-sides", sw, by_switch, {}, "690.13(B), 690.15", true},
    {"2020", "raceway-power-source", LabelAt::raceway, LabelWhen::raceway, {}, "690.31(D)", true},
    {"2020", "rapid-shutdown", LabelAt::service, LabelWhen::building, {}, "690.56(C)", true},
    {"2020", "disconnect", sw, by_switch, {}, "110.22(A)", true},

    {"2023", "box-identification", box, LabelWhen::always, {}, "690.31(B)", true},
    {"2023", "max-voltage", LabelAt::system, LabelWhen::always, {max_v}, "690.7(D)", false},
    {"2023", "shock-both-sides", sw, by_switch, {}, "690.13(B), 690.15", true},
    {"2023", "raceway-power-source", LabelAt::raceway, LabelWhen::raceway, {}, "690.31(D)(2)", true},
    {"2023", "rapid-shutdown", LabelAt::service, LabelWhen::building, {}, "690.12(D)", true},
    {"2023", "disconnect", sw, by_switch, {}, "110.22(A)", true},
};
// clang-format on

const LabelRule& rule_of(std::string_view edition, std::string_view kind) {
  const LabelRule* rule = edition_of(edition).labels.find(kind);
  REQUIRE(rule != nullptr);
  return *rule;
}

}  // namespace

TEST_CASE("labels: each kind of each edition") {
  for (const Row& row : rows) {
    CAPTURE(row.edition, row.kind);
    const LabelRule& rule = rule_of(row.edition, row.kind);
    CHECK(rule.at == row.at);
    CHECK(rule.when == row.when);
    CHECK(rule.values == row.values);
    CHECK(rule.section == row.section);
    CHECK(rule.unverified == row.unverified);
  }
}

TEST_CASE("labels: no edition has another kind, and each stands in the order of the kinds") {
  for (const std::string_view edition : edition_names) {
    std::vector<std::string> listed, there;
    for (const Row& row : rows)
      if (row.edition == edition) listed.emplace_back(row.kind);
    for (const LabelRule& rule : edition_of(edition).labels.kinds) there.push_back(rule.kind);
    CAPTURE(edition);
    CHECK(there == listed);
    std::size_t at = 0;
    for (const std::string& kind : there) {
      while (at < label_kinds.size() && label_kinds[at] != kind) ++at;
      CHECK(at < label_kinds.size());
    }
  }
}

TEST_CASE("labels: distance, letters, colours and wording of what is marked on raceways and on buildings") {
  // 3 m (10 ft) from the forum thread on 2011; capitals of 9.5 mm (3/8 in), white on red, from memory.
  for (const std::string_view edition : edition_names)
    for (const LabelRule& rule : edition_of(edition).labels.kinds) {
      CAPTURE(edition, rule.kind);
      const bool raceway = rule.kind == "raceway-power-source";
      const bool shutdown = rule.kind == "rapid-shutdown";
      const bool tall = (raceway && edition != "2011") || (shutdown && edition == "2014");
      CHECK(rule.every == (raceway ? std::optional(Metres(3)) : std::nullopt));
      CHECK(rule.letter == (tall ? std::optional(Millimetres(9.5)) : std::nullopt));
      // From 2017 on by type of shutdown, from 2020 on (2023: as proposed) in one form; a label at the
      // switch.
      CHECK(rule.look == (tall        ? "white capitals on red, reflective"
                          : !shutdown ? ""
                          : edition == "2017"
                              ? "of the form for the type of shutdown; a second label at its switch"
                              : "one form, whatever the type of shutdown; a second label at its switch"));
      if (!raceway) CHECK(rule.words.empty());
    }
  const std::string_view warning = "WARNING: PHOTOVOLTAIC POWER SOURCE";
  CHECK(rule_of("2011", "raceway-power-source").words == "PHOTOVOLTAIC POWER SOURCE");
  for (const std::string_view edition : {"2014", "2017", "2020"})
    CHECK(rule_of(edition, "raceway-power-source").words == warning);
  CHECK(rule_of("2023", "raceway-power-source").words ==
        "WARNING: PHOTOVOLTAIC POWER SOURCE, or WARNING: SOLAR PV DC CIRCUIT");
}

TEST_CASE("labels: the directory is asked for over 1.8 m, and nothing else by distance") {
  for (const std::string_view edition : edition_names)
    for (const LabelRule& rule : edition_of(edition).labels.kinds) {
      CAPTURE(edition, rule.kind);
      CHECK(rule.over == (rule.kind == "directory" ? std::optional(Metres(1.8)) : std::nullopt));
    }
}

TEST_CASE("labels: only the voltage label may be served by another kind") {
  for (const std::string_view edition : edition_names)
    for (const LabelRule& rule : edition_of(edition).labels.kinds) {
      CAPTURE(edition, rule.kind);
      CHECK(rule.served_by == (rule.kind == "max-voltage" ? std::vector<std::string>{"dc-power-source"}
                                                          : std::vector<std::string>{}));
    }
}

TEST_CASE("labels: over 10 % above the computed describes another circuit, which is our judgement") {
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    CHECK(edition_of(edition).labels.over_pct == 10);
    CHECK(edition_of(edition).labels.solid_section == "200.6");  // from memory, as the schedule says
    CHECK(edition_of(edition).labels.other_section == "690.31(B)");
  }
}

TEST_CASE("design_low: 30 °C, the warmest that a design file may state, so that it binds nobody") {
  for (const std::string_view edition : edition_names)
    CHECK(edition_of(edition).design_low_at_most.value() == 30);
}

TEST_CASE("unless_output_up_to_m: 0, no such exception, in every case of every edition") {
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    const DisconnectRules& rules = edition_of(edition).disconnect;
    CHECK(rules.large.unless_output_up_to.value() == 0);
    CHECK(rules.small.unless_output_up_to.value() == 0);
    CHECK(rules.roof.has_value() == (edition == "2014"));
    if (rules.roof) CHECK(rules.roof->unless_output_up_to.value() == 0);
  }
}
