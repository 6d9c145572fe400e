// The section under which every rule stands, edition by edition. Most come from trade press, training and
// code change summaries; those marked * are from memory, unverified, and the program says so with the
// finding.
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
    {"fuse/poles", {"690.35(B), 240.22", "=", "=", "690.9(C), 240.22", "690.9(C), 240.22*", "690.9(C), 240.22"}},
    {"fuse/heat", {"110.3(B)*", "690.8(B)(1)(c)*", "110.3(B)*", "=", "=", "="}},
    {"conductor/before-conditions", {"690.8(B)(1)", "690.8(B)(2)", "690.8(B)(1)", "=", "=", "="}},
    {"conductor/after-conditions", {"690.8(B)(1)", "690.8(B)(2)", "=", "=", "=", "="}},
    {"conductor/unprotected", {"240.4(B)*", "=", "=", "=", "=", "240.4(B)"}},
    {"conductor/small-size-limit", {"240.4(D)", "=", "=", "=", "=", "="}},
    {"conductor/insulation", {"690.31(B), 310.8(C)*", "690.31(B), 310.10(C)*", "690.31(C)(1), 310.10(C)*", "=", "=", "="}},
    {"conductor/aluminum", {"110.14, 310.5*", "110.14, 310.106(A)*", "=", "=", "110.14, 310.3(A)*", "="}},
    {"conductor/fine-strand", {"690.31(F)*", "=", "690.31(H)*", "=", "690.31(C)(5)*", "="}},
    {"conductor/grounding-size", {"690.45(A), Table 250.122", "=", "=", "690.45, Table 250.122", "=", "="}},
    {"conductor/voltage-drop", {"common practice", "=", "=", "=", "=", "="}},
    {"disconnect/missing", {"-", "690.16(B)", "690.15(C), 690.16(B)", "690.15", "690.15(D)", "690.15(A)"}},
    {"disconnect/not-load-break", {"-", "-", "690.15(C)", "690.15(D)", "690.15(C)", "690.15(A)"}},
    {"disconnect/too-far", {"-", "690.16(B)", "690.15(C), 690.16(B)", "690.15(A)", "=", "690.15(D)"}},
    {"disconnect/current-rating", {"690.17*", "=", "=", "690.15(D)*", "690.15(C)", "690.15"}},
    {"disconnect/handle", {"-", "690.17*", "=", "690.15(D)*", "690.15(C)", "690.15"}},
    {"label/missing", {"690.53, 690.17, 690.5(C), 690.35(F), 110.22(A)",
                       "690.53, 690.17, 690.4(B), 690.31(E)(3), 690.5(C), 690.35(F), 690.16(B), 110.22(A)",
                       "690.53, 690.17(E), 690.31(B), 690.31(G)(3), 690.5(C), 690.35(F), 690.16(B), 690.56(C), 110.22(A)*",
                       "690.53, 690.13(B), 690.15, 690.31(B), 690.31(G)(3), 690.56(C), 110.22(A)*",
                       "690.53, 690.13(B), 690.15, 690.31(B), 690.31(D), 690.56(C), 110.22(A)*",
                       "690.7(D), 690.13(B), 690.15, 690.31(B), 690.31(D)(2), 690.12(D), 110.22(A)*"}},
    {"label/values", {"690.53", "690.53*", "=", "=", "690.53", "690.7(D)"}},
    {"site/totals", {"approved plan", "=", "=", "=", "=", "="}},
    {"site/grounding-term", {"690.41, 690.35*", "=", "=", "-", "-", "-"}},
    {"site/temperature-source", {"690.7(A)*", "=", "=", "=", "=", "="}},
    {"tally/strings", {"approved plan", "=", "=", "=", "=", "="}},
    {"tally/polarity", {"approved plan, 110.3(B)", "=", "=", "=", "=", "="}},
    {"tally/series", {"approved plan", "=", "=", "=", "=", "="}},
    {"tally/transposed", {"approved plan", "=", "=", "=", "=", "="}},
    {"tally/label", {"approved plan", "=", "=", "=", "=", "="}},
    {"tally/fuse", {"approved plan, 110.3(B)", "=", "=", "=", "=", "="}},
    {"tally/mixed-fuses", {"approved plan, 110.3(B)", "=", "=", "=", "=", "="}},
    {"tally/part", {"approved plan, 110.2", "=", "=", "=", "=", "="}},
    {"tally/not-visited", {"approved plan", "=", "=", "=", "=", "="}},
    {"tally/not-on-plan", {"approved plan, 110.2", "=", "=", "=", "=", "="}},
};
// clang-format on

// The families of rules whose sections stand above.
const std::set<std::string, std::less<>> families{"voltage",    "current", "fuse", "conductor",
                                                  "disconnect", "label",   "site", "tally"};

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
