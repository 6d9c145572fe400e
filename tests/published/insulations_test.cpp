// Which insulations may lie in the open in the array's wiring, and in wet places. From memory, unverified:
// 690.31(B) of 2008 and 2011 and 690.31(C)(1) since name USE-2 and PV wire, from 2020 on USE-2 and RHW-2 if
// marked sunlight resistant. RPVU is no type of the NEC: the Canadian counterpart of PV wire, so it counts if
// it is marked (our own judgement). 690.35(D) of 2008 to 2014 wants PV wire where single conductors of
// ungrounded arrays are exposed.
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

namespace {

enum class Sunlight { no, if_marked, yes };

struct Row {
  std::string_view type;
  Sunlight to_2017, from_2020;
  bool wet;
};

// clang-format off
const std::vector<Row> types{
    {"PV wire", Sunlight::yes, Sunlight::yes, true},
    {"RPVU", Sunlight::if_marked, Sunlight::if_marked, true},
    {"USE-2", Sunlight::yes, Sunlight::if_marked, true},
    {"USE", Sunlight::no, Sunlight::no, true},
    {"RHW-2", Sunlight::no, Sunlight::if_marked, true},
    {"RHW", Sunlight::no, Sunlight::no, true},
    {"RHH", Sunlight::no, Sunlight::no, false},
    {"THW", Sunlight::no, Sunlight::no, true},
    {"THW-2", Sunlight::no, Sunlight::no, true},
    {"THWN", Sunlight::no, Sunlight::no, true},
    {"THWN-2", Sunlight::no, Sunlight::no, true},
    {"THHN", Sunlight::no, Sunlight::no, false},
    {"XHHW", Sunlight::no, Sunlight::no, true},
    {"XHHW-2", Sunlight::no, Sunlight::no, true},
    {"XHH", Sunlight::no, Sunlight::no, false},
};
// clang-format on

}  // namespace

TEST_CASE("fitness of the insulations by edition") {
  for (const std::string_view name : boxproof::edition_names) {
    const boxproof::Edition& edition = edition_of(name);
    CHECK(edition.insulations.size() == types.size());
    for (const Row& row : types) {
      CAPTURE(name, row.type);
      const auto found = edition.insulations.find(row.type);
      REQUIRE(found != edition.insulations.end());
      const Sunlight expected = name < "2020" ? row.to_2017 : row.from_2020;
      // "Only if marked" may come with or without the plain permission; "yes" and "no" are clear.
      CHECK(found->second.sunlight_only_if_marked == (expected == Sunlight::if_marked));
      if (expected != Sunlight::if_marked) CHECK(found->second.sunlight == (expected == Sunlight::yes));
      CHECK(found->second.wet == row.wet);
    }
  }
}

TEST_CASE("exposed conductors of ungrounded arrays must be PV wire up to 2014") {
  for (const std::string_view name : boxproof::edition_names) {
    CAPTURE(name);
    const auto& exposed = edition_of(name).ungrounded_exposed;
    CHECK(exposed.has_value() == (name <= "2014"));
    if (!exposed) continue;
    CHECK(exposed->section == "690.35(D)");
    CHECK(exposed->insulations == std::vector<std::string>{"PV wire"});
  }
}
