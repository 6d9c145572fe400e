// Where in the drawing of a box each finding belongs: every part that the examples and the rule cases know
// has its line here, so that a new one must be given its place by intention.
#include "src/report/schematic_places.hpp"

#include <map>
#include <set>
#include <tuple>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/rule_case.hpp"

using namespace boxproof;
using namespace boxproof::report;
using namespace boxproof::test;

namespace {

using enum DrawnPart;

const std::map<std::string, DrawnPart, std::less<>> places{{"air gap", enclosure},
                                                           {"circuit 1", circuit},
                                                           {"circuit 1 conductor", circuit},
                                                           {"circuit far", circuit},
                                                           {"circuit high", circuit},
                                                           {"circuit low", circuit},
                                                           {"circuit near", circuit},
                                                           {"circuit rows", circuit},
                                                           {"circuits rows/run/length_m", circuit},
                                                           {"cold end", inverter},  // of its tracking window
                                                           {"hot end", inverter},
                                                           {"counts", strings},
                                                           {"disconnect", disconnect},
                                                           {"external handle", disconnect},
                                                           {"means to lock it open", disconnect},
                                                           {"egc", grounding},
                                                           {"enclosure", enclosure},
                                                           {"enclosure position", enclosure},
                                                           {"enclosure type", enclosure},
                                                           {"inputs", enclosure},
                                                           {"fuse", fuses},
                                                           {"fuse rating", fuses},
                                                           {"fuse/dc", fuses},
                                                           {"mixed fuses", fuses},
                                                           {"inverter I", inverter},
                                                           {"inverter INV-1", inverter},
                                                           {"label box-identification", label},
                                                           {"label dc-power-source imp_a", label},
                                                           {"label dc-power-source isc_a", label},
                                                           {"label dc-power-source max_a", label},
                                                           {"label dc-power-source max_v", label},
                                                           {"label dc-power-source vmp_v", label},
                                                           {"label disconnect", label},
                                                           {"label fuse_a", label},
                                                           {"label max-voltage max_a", label},
                                                           {"label max-voltage max_v", label},
                                                           {"label max_a", label},
                                                           {"label max_v", label},
                                                           {"label series", label},
                                                           {"label strings", label},
                                                           {"label ungrounded-system", label},
                                                           {"module M", circuit},
                                                           {"module M-450", strings},  // of both groups
                                                           {"modules/M/voc_coeff_pct_per_c", circuit},
                                                           {"output and source circuit", output},
                                                           {"output conductor", output},
                                                           {"output material", output},
                                                           {"output size", output},
                                                           {"polarity", strings},
                                                           {"series", strings},
                                                           {"strings", strings},
                                                           {"string 1", circuit},
                                                           {"string 2", circuit},
                                                           {"string 9", circuit},
                                                           {"visit", enclosure}};

// What an inspector wrote, by the condition; what has no line of its own is where "" says.
const std::map<std::string, std::map<std::string, DrawnPart, std::less<>>, std::less<>> seen{
    {"lug 3",
     {{"", bus},  // the terminals are the bus's
      {"handle-leak", disconnect},
      {"label-illegible", label},
      {"label-missing", label},
      {"gasket-damaged", enclosure},
      {"latch-open", enclosure},
      {"loose-mounting", enclosure},
      {"standing-water", enclosure},
      {"missing-inhibitor", output}}},
    {"inside", {{"", enclosure}, {"missing-inhibitor", output}}},
    {"output hub, lower left", {{"", output}}},
    {"under the fuse row", {{"", fuses}}},
    {"box", {{"", enclosure}}},
    {"lid, hinge side", {{"", enclosure}}},
    {"output lugs", {{"", output}}},
    {"floor of the box, about 1 cm", {{"", enclosure}}}};

std::string_view name(DrawnPart part) {
  return drawn_part_names[static_cast<std::size_t>(part)];
}

void check_places(const Judged& judged, std::set<std::string>& met) {
  for (const auto* list : {&judged.judgement.findings, &judged.judgement.gone})
    for (const Finding& f : *list) {
      if (!f.box) continue;  // the site's own are not drawn
      const Combiner& box = judged.design.design.combiners[*f.box];
      CAPTURE(std::string(f.rule->id), f.part);
      const std::string_view id = f.rule->id;
      constexpr std::string_view condition = "condition/";
      std::optional<DrawnPart> expected;
      if (id.starts_with(condition)) {
        const auto where = seen.find(f.part);
        REQUIRE(where != seen.end());
        const auto own = where->second.find(id.substr(condition.size()));
        expected = own == where->second.end() ? where->second.at("") : own->second;
      } else {
        const auto found = places.find(f.part);
        REQUIRE(found != places.end());
        expected = found->second;
      }
      met.insert(f.part);
      CHECK(name(place_of(f, box, box).part) == name(*expected));
    }
}

Finding finding(std::string_view rule, std::string part) {
  Finding f;
  f.rule = find_rule(rule);
  REQUIRE(f.rule != nullptr);
  f.part = std::move(part);
  return f;
}

}  // namespace

TEST_CASE("every part of the examples and of the rule cases has its place in the drawing") {
  std::set<std::string> met;
  for (const Example& example : examples) check_places(*judge_example(example), met);
  check_places(*judge_example("ferry-shed.json"), met);
  check_places(*judge_example("saltmarsh.json", "saltmarsh-visit.csv"), met);
  for (const RuleCase& c : every_rule_case())
    for (const char* edition : {"2008", "2017", "2023"}) check_places(*c.judged(edition, true), met);
  std::set<std::string> not_met;
  for (const auto& [part, place] : places)
    if (!met.contains(part)) not_met.insert(part);
  for (const auto& [part, place] : seen)
    if (!met.contains(part)) not_met.insert(part);
  CHECK(not_met == std::set<std::string>{});
}

TEST_CASE("parts that neither examples nor rule cases have find their place, too") {
  const auto judged = judge_example("saltmarsh.json");
  const Combiner& box = judged->design.design.combiners[0];  // groups "near" and "far" of 8 strings each
  REQUIRE(box.circuits.size() == 2);
  struct Case {
    std::string rule, part;
    DrawnPart expected;
    std::size_t circuit;
  };
  const std::vector<Case> cases{{"conductor/grounding-size", "bond of circuit far", bond, 0},
                                {"conductor/grounding-size", "bond/size", bond, 0},
                                {"conductor/grounding-size", "circuits far/bond/size", bond, 0},
                                {"conductor/grounding-size", "egc/size", grounding, 0},
                                {"conductor/insulation", "circuit far conductor", circuit, 1},
                                {"conductor/insulation", "circuits far/run/method", circuit, 1},
                                {"conductor/insulation", "circuit nowhere", strings, 0},
                                {"conductor/after-conditions", "conductors/rhw-350/size", output, 0},
                                {"conductor/after-conditions", "conductors/pv-10/size", strings, 0},
                                {"conductor/after-conditions", "conductors/none/size", enclosure, 0},
                                {"conductor/after-conditions", "output/run/method", output, 0},
                                {"conductor/after-conditions", "site/high_c", enclosure, 0},
                                {"fuse/too-small", "output device", device, 0},
                                {"fuse/too-small", "output/ocpd_a", device, 0},
                                {"tally/fuse", "fuse count", fuses, 0},
                                {"tally/part", "disconnect works", disconnect, 0},
                                {"tally/part", "source size", strings, 0},
                                {"tally/part", "enclosure listed", enclosure, 0},
                                {"tally/part", "egc present", grounding, 0},
                                {"voltage/unequal-strings", "operating voltage", strings, 0},
                                {"voltage/inverter-input", "inverters/INV-1/max_dc_v", inverter, 0},
                                {"current/box-rating", "enclosure/rated_a", enclosure, 0},
                                {"label/missing", "labels", label, 0},
                                {"label/values", "posted label max_v", label, 0},
                                {"enclosure/type", "mounting/place", enclosure, 0},
                                {"measured/reversed", "string 8", circuit, 0},
                                {"measured/reversed", "string 9", circuit, 1},
                                {"measured/reversed", "string 16", circuit, 1},
                                {"measured/reversed", "string 17", strings, 0},
                                {"measured/reversed", "entry 2", strings, 0},
                                {"measured/current", "measured/irradiance_w_m2", strings, 0},
                                {"condition/burned-terminal", "DC SWITCH, line side", disconnect, 0},
                                {"condition/loose-terminal", "grounding lug", grounding, 0},
                                {"condition/loose-terminal", "string 12, positive", circuit, 1},
                                {"condition/chafed-conductor", "bushing of the conduit", enclosure, 0},
                                {"condition/melted-part", "busbar cover", bus, 0},
                                {"condition/debris-inside", "", enclosure, 0},
                                {"condition/arc-marks", "circuit far, third terminal", circuit, 1}};
  for (const Case& c : cases) {
    CAPTURE(c.rule, c.part);
    const DrawnAt at = place_of(finding(c.rule, c.part), box, box);
    CHECK(name(at.part) == name(c.expected));
    CHECK(at.circuit == c.circuit);
  }
  CHECK(place_of(finding("measured/reversed", "string 9"), box, box).string == 1U);
  CHECK(place_of(finding("measured/reversed", "string 16"), box, box).string == 8U);
}

TEST_CASE("a group may be called anything") {
  Json design = sound_design();
  Json& circuits = design["combiners"][0]["circuits"];
  for (const char* id : {"1 conductor", "1/run"}) {
    circuits.push_back(circuits[0]);
    circuits.back()["id"] = id;
  }
  const auto judged = judge(design);
  const Combiner& box = judged->design.design.combiners[0];
  struct Case {
    std::string part;
    std::size_t circuit;
  };
  for (const Case& c : {Case{"circuit 1", 0},
                        {"circuit 1 conductor", 1},
                        {"circuit 1 conductor conductor", 1},
                        {"circuits 1/run/run/length_m", 2}}) {
    CAPTURE(c.part);
    const DrawnAt at = place_of(finding("conductor/insulation", c.part), box, box);
    CHECK(name(at.part) == "circuit");
    CHECK(at.circuit == c.circuit);
  }
}
