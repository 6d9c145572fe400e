// A value that the plan does not state, asked for once, by the name it has in the file, also where the record
// changes the part that it belongs to.
#include <algorithm>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge_text.hpp"
#include "tests/support/limit_case.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// The parts of the queries of this rule for missing values.
std::vector<std::string> asked(const Json& design, const Json& seen, std::string_view rule) {
  Json box = seen;
  box["id"] = "A-01";
  const Json record{{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({box})}};
  const auto judged = judge_text(design.dump(1), edition_of("2017"), record.dump(1));
  std::vector<std::string> out;
  for (const Finding& f : judged->findings())
    if (f.lacking && f.rule->id == rule) out.push_back(f.part);
  return out;
}

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("a group found with strings of two lengths asks once for the length of its run") {
  const Json design = without(sound_design(), "/combiners/0/circuits/0/run/length_m");
  const Json nothing_seen = Json::object();
  CHECK(asked(design, nothing_seen, "conductor/voltage-drop") == Lines{"circuits 1/run/length_m"});
  const Json one_short{{"count", {{"series", {18, 18, 18, 18, 18, 18, 18, 18, 17}}}}};
  CHECK(asked(design, one_short, "conductor/voltage-drop") == Lines{"circuits 1/run/length_m"});
}

TEST_CASE("a conductor found in another size asks for what the plan lacks by the plan's name") {
  const Json design = without(sound_design(), "/conductors/feeder/stranding");
  CHECK(asked(design, {{"output", {{"size", "4/0 AWG"}}}}, "conductor/fine-strand") ==
        Lines{"conductors/feeder/stranding"});
  CHECK(asked(design, {{"output", {{"size", "3/0 AWG"}}}}, "conductor/fine-strand") ==
        Lines{"conductors/feeder/stranding"});
}

// Fuses that are unlike the others are fuses.
TEST_CASE("odd fuses found where the plan has none are fuses found") {
  const Json design = without(sound_design(), "/combiners/0/fuse");
  const Json record{{"format", "boxproof-asbuilt/1"},
                    {"boxes", {{{"id", "A-01"}, {"mixed_fuses", {{{"position", 1}, {"a", 15}}}}}}}};
  const auto judged = judge_text(design.dump(1), edition_of("2017"), record.dump(1));
  CAPTURE(judged->summary());
  CHECK(judged->find("tally/fuse", "fuse") != nullptr);
}
