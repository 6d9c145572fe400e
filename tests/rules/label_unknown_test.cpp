// Where the plan does not state what decides whether a label is needed, label/missing asks for that value:
// grounding (ungrounded arrays up to 2014), the disconnect's distance (directory, 2011 and 2014), the method
// of the runs (raceways on buildings, from 2011).
#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view missing = "label/missing";

// Whether the query on this part names label/missing among those that need it. On the box, or on the site.
bool asks(const Json& design, std::string_view edition, std::string_view part, bool on_box = true) {
  bool out = false;
  const auto judged = judge(design, edition);
  for (const Finding& f : judged->findings()) {
    if (f.part != part || f.box.has_value() != on_box || f.message.find(missing) == std::string::npos)
      continue;
    CHECK(f.severity == Severity::query);
    CHECK_FALSE(out);
    out = true;
  }
  return out;
}

bool corrects(const Json& design, std::string_view edition) {
  const auto judged = judge(design, edition);
  for (const Finding& f : judged->findings())
    if (f.rule->id == missing && f.severity == Severity::correction) return true;
  return false;
}

}  // namespace

TEST_CASE("label/missing asks for the grounding up to 2014") {
  const Json design = without(sound_design(), "/inverters/I/grounding");
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    CHECK(asks(design, edition, "inverters/I/grounding") == (edition <= "2014"));
    CHECK_FALSE(asks(sound_design(), edition, "inverters/I/grounding"));
    CHECK_FALSE(corrects(design, edition));
    // A plan that calls for the label is asked all the same: whether it may stand is not known.
    CHECK(asks(with_labels(design, all_labels()), edition, "inverters/I/grounding") == (edition <= "2014"));
  }
}

TEST_CASE("label/missing asks for the disconnect's distance in 2011 and 2014") {
  const Json design = without(sound_design(), "/combiners/0/disconnect/distance_m");
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    CHECK(asks(design, edition, "disconnect/distance_m") == (edition == "2011" || edition == "2014"));
    CHECK_FALSE(asks(sound_design(), edition, "disconnect/distance_m"));
    CHECK_FALSE(asks(without(design, "/combiners/0/fuse"), edition, "disconnect/distance_m"));
  }
}

TEST_CASE("label/missing asks for how runs are laid, where none is known to lie in raceway") {
  const Json free = put(sound_design(), "/combiners/0/output/run/method", "free-air");
  struct Row {
    std::string taken, part;
  };
  for (const std::string_view edition : edition_names)
    for (const Row& r :
         {Row{"/combiners/0/circuits/0/run/method", "circuits 1/run/method"},
          Row{"/combiners/0/circuits/0/run", "circuits 1/run"},
          Row{"/combiners/0/output/run/method", "output/run/method"},
          Row{"/combiners/0/output/run", "output/run"}, Row{"/combiners/0/output", "output/run"}}) {
      CAPTURE(edition, r.taken);
      const Json design = without(free, r.taken);
      CHECK(asks(design, edition, r.part) == (edition != "2008"));
      CHECK_FALSE(asks(free, edition, r.part));
      // Not in a field, and not where another run is known to lie in raceway.
      CHECK_FALSE(asks(put(design, "/site/use", "ground"), edition, r.part));
    }
  for (const std::string_view edition : edition_names)
    CHECK_FALSE(asks(without(sound_design(), "/combiners/0/circuits/0/run/method"), edition,
                     "circuits 1/run/method"));
}

TEST_CASE("of several runs that say nothing the first is asked for") {
  Json design = put(sound_design(), "/combiners/0/output/run/method", "free-air");
  Json second = design["combiners"][0]["circuits"][0];
  second["id"] = "2";
  second["run"].erase("method");
  design["combiners"][0]["circuits"].push_back(second);
  CHECK(asks(design, "2017", "circuits 2/run/method"));
  design["combiners"][0]["circuits"][0]["run"].erase("method");
  CHECK(asks(design, "2017", "circuits 1/run/method"));
}

TEST_CASE("the site asks for the grounding where no box calls for the ground-fault label") {
  const Json design = without(sound_design(), "/inverters/I/grounding");
  const Json bare = with_labels(design, labels_without(all_labels(), {"ground-fault"}));
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    CHECK(asks(bare, edition, "inverters/I/grounding", false) == (edition <= "2014"));
    CHECK_FALSE(asks(design, edition, "inverters/I/grounding", false));
  }
}

TEST_CASE(
    "functional grounding up to 2014: site/grounding-term asks, and label/missing says nothing besides") {
  const Json functional = put(sound_design(), "/inverters/I/grounding", "functional");
  const Json bare =
      with_labels(functional, labels_without(all_labels(), {"ground-fault", "ungrounded-system"}));
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    const auto judged = judge(bare, edition);
    CHECK(told_by(*judged, missing).empty());
    CHECK(told_by(*judged, "site/grounding-term").size() == (edition <= "2014" ? 1 : 0));
    CHECK_FALSE(asks(bare, edition, "inverters/I/grounding"));
    CHECK_FALSE(asks(bare, edition, "inverters/I/grounding", false));
  }
  // Where an amendment takes that rule away, label/missing asks.
  const Json alone = put(bare, "/code/amendments", {{"rules", {{"site/grounding-term", nullptr}}}});
  CHECK(asks(alone, "2011", "inverters/I/grounding"));
  CHECK(asks(alone, "2011", "inverters/I/grounding", false));
}
