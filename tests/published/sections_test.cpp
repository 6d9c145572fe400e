// The section under which every rule stands, edition by edition. Most come from trade press, training and
// code change summaries; those marked * are, in whole or in part, from memory, unverified, and the program
// says so beside them.
#include <array>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

struct Row {
  std::string_view rule;
  std::array<std::string_view, 6> sections;  // oldest first; "=" as in the edition before, "-" no such rule
};

// clang-format off
const std::vector<Row> rules{
    {"voltage/site-limit", {"690.7(C)*", "=", "690.7(C)", "690.7", "=", "="}},
    {"voltage/module-rating", {"110.3(B)*", "=", "=", "=", "=", "="}},
    {"voltage/inverter-input", {"110.3(B)*", "=", "=", "=", "=", "="}},
    {"voltage/equipment-rating", {"110.4, 110.3(B)*", "=", "=", "=", "=", "="}},
    {"voltage/no-factor", {"690.7(A)", "=", "=", "=", "=", "="}},
    {"voltage/unequal-strings", {"common practice", "=", "=", "=", "=", "="}},
    {"voltage/tracking-window", {"common practice", "=", "=", "=", "=", "="}},
    {"current/box-rating", {"110.3(B)*", "=", "=", "=", "=", "="}},
    {"current/inverter-input", {"110.3(B)*", "=", "=", "=", "=", "="}},
    {"current/inputs", {"110.3(B)*", "=", "=", "=", "=", "="}},
    {"fuse/missing", {"690.9(A)", "=", "=", "=", "690.9(A)*", "690.9(A)"}},
    {"fuse/too-small", {"690.8(B)(1)", "690.8(B)(1)(a)", "690.9(B)", "690.9(B)(1)", "=", "="}},
    {"fuse/over-module-limit", {"110.3(B)*", "=", "=", "=", "=", "="}},
    {"fuse/not-standard", {"240.6(A)", "=", "=", "=", "=", "="}},
    {"fuse/not-dc", {"690.9(D)*", "=", "690.9(C)*", "690.9(B)", "690.9(B)*", "690.9(B)"}},
    {"fuse/not-pv-listed", {"-", "-", "690.9(D)*", "690.9(B)", "690.9(B)*", "690.9(B)"}},
    {"fuse/poles", {"690.35(B), 240.22*", "=", "=", "690.9(C), 240.22*", "=", "="}},
    {"fuse/heat", {"110.3(B)*", "690.8(B)(1)(c)*", "110.3(B)*", "=", "=", "="}},
    {"conductor/before-conditions", {"690.8(B)(1)", "690.8(B)(2)", "690.8(B)(1)", "=", "=", "="}},
    {"conductor/after-conditions", {"690.8(B)(1)", "690.8(B)(2)", "=", "=", "=", "="}},
    {"conductor/unprotected", {"240.4(B)*", "=", "=", "=", "=", "240.4(B)"}},
    {"conductor/small-size-limit", {"240.4(D)", "=", "=", "=", "=", "="}},
    {"conductor/insulation", {"690.31(B), 690.35(D), 310.8(C)*", "690.31(B), 690.35(D), 310.10(C)*", "690.31(C)(1), 690.35(D), 310.10(C)*", "690.31(C)(1), 310.10(C)*", "=", "="}},
    {"conductor/aluminum", {"110.14, 310.5*", "110.14, 310.106(A)*", "=", "=", "110.14, 310.3(A)*", "="}},
    {"conductor/fine-strand", {"690.31(F)*", "=", "690.31(H)*", "=", "690.31(C)(5)*", "="}},
    {"conductor/grounding-size", {"690.45(A), Table 250.122", "=", "=", "690.45, Table 250.122", "=", "="}},
    {"conductor/voltage-drop", {"common practice", "=", "=", "=", "=", "="}},
    {"disconnect/missing", {"-", "690.16(B)", "690.15(C), 690.16(B)*", "690.15", "690.15(D)", "690.15(A)"}},
    {"disconnect/not-load-break", {"-", "-", "690.15(C)", "690.15(D)", "690.15(C)", "690.15(A)"}},
    {"disconnect/too-far", {"-", "690.16(B)", "690.15(C), 690.16(B)*", "690.15(A)", "=", "690.15(D)"}},
    {"disconnect/current-rating", {"690.17*", "=", "=", "690.15(D)*", "690.15(C)", "690.15"}},
    {"disconnect/handle", {"-", "690.17*", "=", "690.15(D)*", "690.15(C)", "690.15"}},
    {"enclosure/type", {"110.20, Table 110.20*", "110.28, Table 110.28", "=", "=", "=", "="}},
    {"enclosure/air-gap", {"312.2(A)", "312.2", "=", "=", "=", "="}},
    {"enclosure/not-listed", {"690.4(D)*", "=", "690.4(B)*", "690.4(B)", "=", "="}},
    {"protection/ground-fault", {"690.5, 690.35(C)*", "=", "690.5, 690.35(C)", "690.41(B)", "690.41(B)*", "="}},
    {"protection/arc-fault", {"-", "690.11", "=", "=", "690.11*", "690.11"}},
    {"protection/rapid-shutdown", {"-", "-", "690.12", "=", "690.12*", "690.12"}},
    {"label/missing", {"690.53, 690.17, 690.5(C), 690.35(F), 110.22(A)*",
                       "690.53, 690.17, 690.4(B), 690.31(E)(3), 690.5(C), 690.35(F), 690.16(B), 110.22(A)*",
                       "690.53, 690.13(B), 690.17(E), 690.31(B), 690.31(G)(3), 690.5(C), 690.35(F), 690.16(B), 690.56(C), 110.22(A)*",
                       "690.53, 690.13(B), 690.15, 690.31(B), 690.31(G)(3), 690.56(C), 110.22(A)*",
                       "690.53, 690.13(B), 690.15, 690.31(B), 690.31(D), 690.56(C), 110.22(A)*",
                       "690.7(D), 690.13(B), 690.15, 690.31(B), 690.31(D)(2), 690.12(D), 110.22(A)*"}},
    {"label/values", {"690.53", "690.53*", "=", "=", "690.53", "690.7(D)"}},
    {"site/totals", {"approved plan", "=", "=", "=", "=", "="}},
    {"site/grounding-term", {"690.41, 690.35*", "=", "=", "-", "-", "-"}},
    {"site/temperature-source", {"690.7(A)*", "=", "=", "=", "=", "="}},
    {"tally/strings", {"approved plan", "=", "=", "=", "=", "="}},
    {"tally/polarity", {"approved plan, 110.3(B)*", "=", "=", "=", "=", "="}},
    {"tally/series", {"approved plan", "=", "=", "=", "=", "="}},
    {"tally/transposed", {"approved plan", "=", "=", "=", "=", "="}},
    {"tally/label", {"approved plan", "=", "=", "=", "=", "="}},
    {"tally/fuse", {"approved plan, 110.3(B)*", "=", "=", "=", "=", "="}},
    {"tally/mixed-fuses", {"approved plan, 110.3(B)*", "=", "=", "=", "=", "="}},
    {"tally/part", {"approved plan, 110.2*", "=", "=", "=", "=", "="}},
    {"tally/not-visited", {"approved plan", "=", "=", "=", "=", "="}},
    {"tally/not-on-plan", {"approved plan, 110.2*", "=", "=", "=", "=", "="}},
    {"measured/series-count", {"approved plan, IEC 62446-1*", "=", "=", "=", "=", "="}},
    {"measured/spread", {"IEC 62446-1*", "=", "=", "=", "=", "="}},
    {"measured/reversed", {"IEC 62446-1*", "=", "=", "=", "=", "="}},
    {"measured/current", {"IEC 62446-1*", "=", "=", "=", "=", "="}},
    {"measured/insulation", {"IEC 62446-1*", "=", "=", "=", "=", "="}},
    {"condition/burned-terminal", {"110.12(C)*", "110.12(B)*", "=", "=", "=", "="}},
    {"condition/burned-bus", {"110.12(C)*", "110.12(B)*", "=", "=", "=", "="}},
    {"condition/arc-marks", {"110.12(C)*", "110.12(B)*", "=", "=", "=", "="}},
    {"condition/melted-part", {"110.12(C)*", "110.12(B)*", "=", "=", "=", "="}},
    {"condition/water-inside", {"312.2(A), 110.12(C)*", "312.2, 110.12(B)*", "=", "=", "=", "="}},
    {"condition/handle-leak", {"312.2(A)*", "312.2", "=", "=", "=", "="}},
    {"condition/chafed-conductor", {"300.4, 110.12(C)*", "300.4, 110.12(B)*", "=", "=", "=", "="}},
    {"condition/nicked-conductor", {"110.12(C)*", "110.12(B)*", "=", "=", "=", "="}},
    {"condition/pinched-conductor", {"300.4, 110.12(C)*", "300.4, 110.12(B)*", "=", "=", "=", "="}},
    {"condition/loose-terminal", {"110.3(B), 110.14(A)*", "=", "=", "110.14(D)", "=", "110.14(D)*"}},
    {"condition/missing-barrier", {"110.27(A)*", "=", "=", "=", "=", "="}},
    {"condition/corroded-terminal", {"110.12(C)*", "110.12(B)*", "=", "=", "=", "="}},
    {"condition/cracked-bushing", {"300.4(G), 110.12(C)*", "300.4(G), 110.12(B)*", "=", "=", "=", "="}},
    {"condition/missing-bushing", {"300.4(G)", "=", "=", "=", "=", "="}},
    {"condition/conductor-off-center", {"110.12*", "=", "=", "=", "=", "="}},
    {"condition/sharp-bend", {"312.6*", "=", "=", "=", "=", "="}},
    {"condition/gasket-damaged", {"110.20*", "110.28*", "=", "=", "=", "="}},
    {"condition/latch-open", {"110.20*", "110.28*", "=", "=", "=", "="}},
    {"condition/unsealed-opening", {"110.12(A), 312.2(A)*", "110.12(A), 312.2*", "=", "=", "=", "="}},
    {"condition/missing-inhibitor", {"110.14*", "=", "=", "=", "=", "="}},
    {"condition/no-strain-relief", {"312.5(C)*", "=", "=", "=", "=", "="}},
    {"condition/debris-inside", {"110.12(C)*", "110.12(B)*", "=", "=", "=", "="}},
    {"condition/loose-mounting", {"110.13(A)*", "=", "=", "=", "=", "="}},
    {"condition/standing-water", {"110.11*", "=", "=", "=", "=", "="}},
    {"condition/label-illegible", {"110.21*", "=", "110.21(B)", "110.21(B)*", "=", "="}},
    {"condition/label-missing", {"110.21*", "=", "=", "=", "=", "="}},
    {"condition/wrong-torque-mark", {"110.3(B)*", "=", "=", "110.14(D)", "=", "110.14(D)*"}},
    {"condition/counterfeit-mark", {"110.2, 110.3(A)*", "=", "=", "=", "=", "="}},
};
// clang-format on

// The families of rules whose sections stand above.
const std::set<std::string, std::less<>> families{"voltage",    "current",   "fuse",     "conductor",
                                                  "disconnect", "enclosure", "label",    "site",
                                                  "protection", "tally",     "measured", "condition"};

std::string section_of(const boxproof::Edition& edition, std::string_view rule) {
  const auto found = edition.rules.find(rule);
  if (found == edition.rules.end()) return "-";
  return found->second.section + (found->second.unverified ? "*" : "");
}

}  // namespace

TEST_CASE("section of every rule in every edition") {
  for (const Row& row : rules) {
    std::string_view expected;
    for (std::size_t i = 0; i < row.sections.size(); ++i) {
      if (row.sections[i] != "=") expected = row.sections[i];
      CAPTURE(row.rule, boxproof::edition_names[i]);
      CHECK(section_of(edition_of(boxproof::edition_names[i]), row.rule) == expected);
    }
  }
}

TEST_CASE("no edition has a rule of these families that is not listed here") {
  std::set<std::string_view> listed;
  for (const Row& row : rules) CHECK(listed.insert(row.rule).second);
  for (const std::string_view name : boxproof::edition_names)
    for (const auto& [rule, section] : edition_of(name).rules) {
      CAPTURE(name, rule);
      if (families.count(rule.substr(0, rule.find('/'))) == 1) CHECK(listed.count(rule) == 1);
    }
}
