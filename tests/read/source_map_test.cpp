// From a JSON Pointer back to its place; where a box does not state a value, to that of its type; where
// neither does, to the nearest value around it.
#include "src/read/source_map.hpp"

#include <tuple>

#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::string place(read::SourceMap& places, std::string_view pointer) {
  const auto found = places.find(pointer);
  return found.pointer + " " + std::to_string(found.at.line) + ":" + std::to_string(found.at.column);
}

}  // namespace

TEST_CASE("a pointer leads back to its place") {
  const Document document{"design.json", as_json(small_design)};
  const DesignFile file = read_design(document);
  using Row = std::tuple<std::string_view, std::string_view>;
  const std::vector<Row> table{
      {"", " 1:1"},
      {"/site", "/site 3:11"},
      {"/site/use", "/site/use 3:43"},
      {"/site/low_c", "/site 3:11"},
      {"/modules/M-1/isc_a", "/modules/M-1/isc_a 6:36"},
      {"/combiners", "/combiners 13:16"},
      {"/combiners/1", "/combiners/1 15:5"},
      {"/combiners/1/circuits/0/run/conductor", "/combiners/1/circuits/0/run/conductor 19:78"},
      {"/combiners/1/fuse/v", "/combiners/1/fuse 21:15"},
      {"/combiners/7", " 1:1"},
      {"/nothing", " 1:1"},
      {"/combiners/0/mounting/wet", "/box_types/T-1/mounting/wet 11:54"},
      {"/combiners/0/inverter", "/box_types/T-1/inverter 11:26"},
  };
  for (const auto& [pointer, expected] : table) {
    CAPTURE(std::string(pointer));
    CHECK(place(*file.places, pointer) == expected);
  }
}

TEST_CASE("a value that neither the box nor its type states") {
  // The box is found first and the types behind it: reading them must not move the box away. Run under a
  // sanitizer.
  const Document document{"design.json", as_json(small_design)};
  const DesignFile file = read_design(document);
  CHECK(place(*file.places, "/combiners/0/circuits/0/run/method") == "/combiners/0/circuits/0 14:49");
  CHECK(place(*file.places, "/combiners/0/fuse/v") == "/combiners/0 14:5");
}
