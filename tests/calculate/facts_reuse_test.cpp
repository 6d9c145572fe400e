// The facts of a box are filled into the memory of the box before it. Nothing of that one may be left in
// them.
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"

using namespace boxproof;
using namespace boxproof::test;

// The first box's second group reaches the highest voltage; the second box has one group, of which no voltage
// can be computed.
TEST_CASE("where no voltage is known, the highest circuit is one that the box has") {
  Json design = sound_design();
  design["modules"]["N"] = {{"voc_v", 30}, {"isc_a", 9.6}};  // neither coefficient nor kind of cell
  Json second = design["combiners"][0];
  second["id"] = "A-02";
  second["circuits"][0]["module"] = "N";
  Json longer = design["combiners"][0]["circuits"][0];
  longer["id"] = "2";
  longer["series"] = 19;
  design["combiners"][0]["circuits"].push_back(longer);
  design["combiners"].push_back(second);
  const auto judged = judge(design);
  BoxFacts facts;
  box_facts(judged->design.design, judged->design.design.combiners[0], judged->edition, facts);
  CHECK(facts.highest_circuit == 1);
  box_facts(judged->design.design, judged->design.design.combiners[1], judged->edition, facts);
  CHECK_FALSE(facts.max_voltage.has_value());
  REQUIRE(facts.circuits.size() == 1);
  CHECK(facts.highest_circuit < facts.circuits.size());
}
