// Which boxes become a type, and what it states.
#include "src/draft/box_types.hpp"

#include "tests/support/catch.hpp"
#include "tests/support/drafted.hpp"
#include "tests/support/judge.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

Json design_of(const std::string& csv) {
  const Folder folder;
  return Json::parse(drafted(folder, csv, small_site()));
}

}  // namespace

TEST_CASE("without a column for types, boxes that are built alike become one") {
  const Json design = design_of(
      "id,inverter,sheet,location,module,series,fuse_a,output_conductor,output_length_m,labels\n"
      "A,I,E-1,north,M,18,20,feeder,10,disconnect\n"
      "B,I,E-1,south,M,18,20,feeder,10,disconnect\n"
      "C,J,E-2,east,M,17,20,feeder,30,none\n"
      "D,I,E-2,west,M,18,15,feeder,10,disconnect\n"  // other fuses: of its own kind
      "E,I,,,M,18,25,,,\n"
      "F,I,,,M,18,25,,,\n");
  CHECK(design["box_types"] == Json::parse(R"({
    "type-1": {"inverter": "I", "circuits": [{"module": "M", "series": 18}], "fuse": {"a": 20},
               "output": {"run": {"conductor": "feeder", "length_m": 10}}, "labels": [{"kind": "disconnect"}]},
    "type-2": {"inverter": "I", "circuits": [{"module": "M", "series": 18}], "fuse": {"a": 25}}})"));
  CHECK(design["combiners"] == Json::parse(R"([
    {"id": "A", "type": "type-1", "sheet": "E-1", "location": "north"},
    {"id": "B", "type": "type-1", "sheet": "E-1", "location": "south"},
    {"id": "C", "type": "type-1", "inverter": "J", "sheet": "E-2", "location": "east",
     "circuits": [{"module": "M", "series": 17}], "output": {"run": {"length_m": 30}}, "labels": []},
    {"id": "D", "inverter": "I", "sheet": "E-2", "location": "west", "circuits": [{"module": "M", "series": 18}],
     "fuse": {"a": 15}, "output": {"run": {"conductor": "feeder", "length_m": 10}}, "labels": [{"kind": "disconnect"}]},
    {"id": "E", "type": "type-2"}, {"id": "F", "type": "type-2"}])"));
}

TEST_CASE("no two boxes alike: no types") {
  const Json design = design_of("id,inverter,module,series,fuse_a\nA,I,M,18,15\nB,I,M,18,20\n");
  CHECK_FALSE(design.contains("box_types"));
  CHECK_FALSE(design["combiners"][0].contains("type"));
}

TEST_CASE("with a column for types, it says which boxes are of one; most of them say what it states") {
  const Json design = design_of(
      "id,type,inverter,module,series,fuse_a,fuse_v,disconnect_rated_v,disconnect_distance_m,egc_size\n"
      "A,T,I,M,18,20,1000,1000,0,\n"
      "B,T,I,M,18,20,1000,1000,0,\n"
      "C,T,I,M,18,25,,1000,2,6 AWG\n"  // another fuse, its voltage not stated; a switch farther off
      "D,,I,M,18,20,1000,1000,0,\n"    // of no type
      "E,U,J,M,17,,,,,\n"              // one box of a type
      "F,T,I,M,18,,,,,\n");            // no fuses and no switch
  CHECK(design["box_types"] == Json::parse(R"({
    "T": {"inverter": "I", "circuits": [{"module": "M", "series": 18}], "fuse": {"a": 20, "v": 1000},
          "disconnect": {"rated_v": 1000, "distance_m": 0}},
    "U": {"inverter": "J", "circuits": [{"module": "M", "series": 17}]}})"));
  CHECK(design["combiners"][0] == Json({{"id", "A"}, {"type", "T"}}));
  CHECK(design["combiners"][2] == Json::parse(R"({"id": "C", "type": "T", "fuse": {"a": 25, "v": null},
    "disconnect": {"distance_m": 2}, "egc": {"size": "6 AWG"}})"));
  CHECK_FALSE(design["combiners"][3].contains("type"));
  CHECK(design["combiners"][4] == Json({{"id", "E"}, {"type", "U"}}));
  CHECK(design["combiners"][5] ==
        Json::parse(R"({"id": "F", "type": "T", "fuse": null, "disconnect": null})"));
}

TEST_CASE("half of the boxes are not most of them") {
  const Json design = design_of(
      "id,type,inverter,module,series,fuse_a,sheet\n"
      "A,T,I,M,18,20,E-1\nB,T,J,M,18,20,E-1\nC,T,I,M,18,,E-1\nD,T,J,M,18,,E-1\n");
  CHECK(design["box_types"]["T"] == Json::parse(R"({"circuits": [{"module": "M", "series": 18}]})"));
  CHECK(design["combiners"][1] ==
        Json::parse(R"({"id": "B", "type": "T", "inverter": "J", "sheet": "E-1", "fuse": {"a": 20}})"));
  CHECK(design["combiners"][3] ==
        Json::parse(R"({"id": "D", "type": "T", "inverter": "J", "sheet": "E-1"})"));
}
