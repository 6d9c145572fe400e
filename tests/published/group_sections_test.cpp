// Title, terms and the section of every group of values, edition by edition.
#include <array>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

using boxproof::Edition;

struct Row {
  std::string_view what;
  std::function<std::string(const Edition&)> read;
  std::array<std::string_view, 6> expected;  // oldest first; "=" as in the edition before
};

// clang-format off
const std::vector<Row> rows{
    {"string circuit", [](const Edition& e) { return e.terms.string_circuit; },
     {"PV source circuit", "=", "=", "=", "=", "PV string circuit"}},
    {"output circuit", [](const Edition& e) { return e.terms.output_circuit; },
     {"PV output circuit", "=", "=", "=", "=", "PV source circuit"}},
    {"maximum voltage", [](const Edition& e) { return e.voltage_section; },
     {"690.7(A)", "=", "=", "=", "=", "="}},
    {"limit, dwelling", [](const Edition& e) { return e.limit(boxproof::Use::dwelling).section; },
     {"690.7(C)", "=", "=", "690.7", "=", "690.7(2)"}},
    {"limit, building", [](const Edition& e) { return e.limit(boxproof::Use::building).section; },
     {"690.7(C), Part IX", "=", "=", "690.7", "=", "690.7(1)"}},
    {"limit, ground", [](const Edition& e) { return e.limit(boxproof::Use::ground).section; },
     {"690.7(C), Part IX", "=", "=", "690.7", "=", "690.7(3), 690.31(G)"}},
    {"cold table", [](const Edition& e) { return e.cold.section; },
     {"Table 690.7", "=", "=", "Table 690.7(A)", "=", "="}},
    {"maximum current", [](const Edition& e) { return e.maximum_current_section; },
     {"690.8(A)(1)", "=", "=", "690.8(A)(1)(1)", "690.8(A)(1)(a)(1)", "="}},
    {"output current", [](const Edition& e) { return e.output_current_section; },
     {"690.8(A)(2)", "=", "=", "=", "690.8(A)(1)(b)", "="}},
    {"overcurrent", [](const Edition& e) { return e.overcurrent_section; },
     {"690.8(B)(1)", "690.8(B)(1)(a)", "690.9(B)", "690.9(B)(1)", "=", "="}},
    {"before conditions", [](const Edition& e) { return e.before_section; },
     {"690.8(B)(1)", "690.8(B)(2)", "690.8(B)(1)", "=", "=", "="}},
    {"after conditions", [](const Edition& e) { return e.after_section; },
     {"690.8(B)(1)", "690.8(B)(2)", "=", "=", "=", "="}},
    {"100 % rated", [](const Edition& e) { return e.rated_100_section; },
     {"690.8(B)(1) Exception", "=", "=", "690.9(B)(2)", "=", "="}},
    {"standard ratings", [](const Edition& e) { return e.standard_section; },
     {"240.6(A)", "=", "=", "=", "=", "="}},
    {"next size up", [](const Edition& e) { return e.next_size_section; },
     {"240.4(B)", "=", "=", "=", "=", "="}},
    {"small conductors", [](const Edition& e) { return e.small_conductor_section; },
     {"240.4(D)", "=", "=", "=", "=", "="}},
    {"omission", [](const Edition& e) { return e.omission_section; },
     {"690.9(A) Exception", "=", "=", "=", "690.9(A)(1)", "="}},
    {"raceway", [](const Edition& e) { return e.raceway.section; },
     {"Table 310.16", "Table 310.15(B)(16)", "=", "=", "Table 310.16", "="}},
    {"free air", [](const Edition& e) { return e.free_air.section; },
     {"Table 310.17", "Table 310.15(B)(17)", "=", "=", "Table 310.17", "="}},
    {"PV wire", [](const Edition& e) { return e.pv_wire_raceway ? e.pv_wire_raceway->section : ""; },
     {"", "=", "=", "=", "Table 690.31(A)(b)", "Table 690.31(A)(3)(1)"}},
    {"correction", [](const Edition& e) { return e.correction.section; },
     {"Table 310.16, correction factors", "Table 310.15(B)(2)(a)", "=", "=", "Table 310.15(B)(1)", "Table 310.15(B)(1)(1)"}},
    {"correction of PV wire", [](const Edition& e) { return e.pv_wire_correction ? e.pv_wire_correction->section : ""; },
     {"", "=", "=", "=", "Table 690.31(A)(a)", "Table 690.31(A)(3)(2)"}},
    {"adjustment", [](const Edition& e) { return e.adjustment.section; },
     {"310.15(B)(2)(a)", "310.15(B)(3)(a)", "=", "=", "310.15(C)(1)", "="}},
    {"roof adder", [](const Edition& e) { return e.roof_adder.section; },
     {"310.15(B)(2)(c)", "310.15(B)(3)(c)", "=", "=", "310.15(B)(2)", "="}},
    {"terminals", [](const Edition& e) { return e.terminal_default.section; },
     {"110.14(C)", "690.8(B)(1)(b), 110.14(C)", "110.14(C)", "=", "=", "="}},
    {"grounding", [](const Edition& e) { return e.grounding.section; },
     {"690.45(A)", "=", "=", "690.45", "=", "="}},
    {"grounding table", [](const Edition& e) { return e.grounding.table_section; },
     {"Table 250.122", "=", "=", "=", "=", "="}},
    {"assumed rating", [](const Edition& e) { return e.grounding.assumed_section; },
     {"690.45(A)", "=", "=", "690.45, 690.9(B)", "=", "="}},
    {"resistance", [](const Edition& e) { return e.resistance.section; },
     {"Chapter 9 Table 8", "=", "=", "=", "=", "="}},
    {"disconnect, large", [](const Edition& e) { return e.disconnect.large.section; },
     {"", "690.16(B)", "=", "690.15(D)", "690.15(C)", "690.15(A)"}},
    {"disconnect, small", [](const Edition& e) { return e.disconnect.small.section; },
     {"", "690.16(B)", "=", "690.15(C)", "690.15(B)", "690.15(A)"}},
    {"disconnect, roof", [](const Edition& e) { return e.disconnect.roof ? e.disconnect.roof->section : ""; },
     {"", "=", "690.15(C)", "", "=", "="}},
    {"disconnect, current", [](const Edition& e) { return e.disconnect.current_section; },
     {"690.17", "=", "=", "690.15(D)", "690.15(C)", "690.15"}},
};
// clang-format on

}  // namespace

TEST_CASE("terms and sections of every group in every edition") {
  for (const Row& row : rows) {
    std::string_view expected;
    for (std::size_t i = 0; i < row.expected.size(); ++i) {
      if (row.expected[i] != "=") expected = row.expected[i];
      CAPTURE(row.what, boxproof::edition_names[i]);
      CHECK(row.read(edition_of(boxproof::edition_names[i])) == expected);
    }
  }
}

TEST_CASE("name and title of every edition") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    CHECK(edition_of(name).name == name);
    CHECK(edition_of(name).title == "NFPA 70 (National Electrical Code), " + std::string(name) + " edition");
    CHECK(edition_of(name).amended.empty());
  }
}
