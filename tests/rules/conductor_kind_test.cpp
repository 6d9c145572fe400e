// The kind of wire: insulation by place, method and type (NFPA 70 690.31(B), 690.31(C)(1) and 310.10(C), from
// memory, unverified: USE-2 and PV wire may lie exposed; from 2020 on USE-2 and RHW-2 only where marked
// sunlight resistant; a raceway outdoors is wet inside), aluminum (smallest size 12 AWG), fine strands
// (terminals identified for them).
#include <algorithm>

#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view insulation = "conductor/insulation", aluminum = "conductor/aluminum";
constexpr std::string_view fine = "conductor/fine-strand";
constexpr std::string_view source = "circuit 1 conductor", output = "output conductor";

// The string conductor with this insulation, laid this way, at this place.
Json string_in(std::string_view type, std::string_view method, std::string_view place, bool wet = false) {
  Json design = sound_design();
  design["conductors"]["string"]["insulation"] = type;
  design["combiners"][0]["circuits"][0]["run"]["method"] = method;
  design["combiners"][0]["mounting"].merge_patch({{"place", place}, {"wet", wet}});
  return design;
}

Json record_of(const Json& box) {
  Json record = {{"format", "boxproof-asbuilt/1"}, {"boxes", {{{"id", "A-01"}}}}};
  record["boxes"][0].merge_patch(box);
  return record;
}

}  // namespace

TEST_CASE("exposed outdoors: PV wire, and by edition USE-2") {
  struct Row {
    std::string_view type, up_to_2017, from_2020;
  };
  const std::vector<Row> rows{{"PV wire", "none", "none"},
                              {"USE-2", "none", "query"},
                              {"RPVU", "query", "query"},
                              {"RHW-2", "correction", "query"},
                              {"XHHW-2", "correction", "correction"},
                              {"THWN-2", "correction", "correction"},
                              {"THHN", "correction", "correction"},
                              {"USE", "correction", "correction"},
                              {"ABC-9", "query", "query"}};  // a type that is not known
  for (std::string_view edition : edition_names)
    for (std::string_view place : {"roof", "wall", "ground"})
      for (const Row& row : rows) {
        CAPTURE(edition, place, row.type);
        const std::string_view expected = edition >= "2020" ? row.from_2020 : row.up_to_2017;
        CHECK(severity_of(string_in(row.type, "free-air", place), insulation, edition, source) == expected);
      }
}

TEST_CASE("exposed on an ungrounded array: PV wire alone, up to 2014") {
  const auto exposed = [](std::string_view type, const Json& grounding,
                          std::string_view method = "free-air") {
    Json design = string_in(type, method, "roof");
    design["combiners"][0]["fuse"]["poles"] = "both";
    design["inverters"]["I"].merge_patch({{"grounding", grounding}});
    return design;
  };
  const auto asks_grounding = [](const Json& design, std::string_view edition) {
    const auto judged = judge(design, edition);
    return std::any_of(judged->findings().begin(), judged->findings().end(), [](const Finding& f) {
      return f.part == "inverters/I/grounding" && f.message.find(insulation) != std::string::npos;
    });
  };
  for (std::string_view edition : edition_names) {
    CAPTURE(edition);
    const bool older = edition <= "2014";
    const std::string_view otherwise = edition >= "2020" ? "query" : "none";  // USE-2 if marked, from 2020 on
    const auto judged = judge(exposed("USE-2", "ungrounded"), edition);
    const Finding* f = judged->find(insulation, source);
    CHECK(severity_name(f) == (older ? "correction" : otherwise));
    if (older) check_words(f, "USE-2", "PV wire", "690.35(D)");
    CHECK(severity_of(exposed("PV wire", "ungrounded"), insulation, edition, source) == "none");
    CHECK(severity_of(exposed("USE-2", "ungrounded", "raceway"), insulation, edition, source) == "none");
    for (std::string_view grounding : {"solid", "functional"})
      CHECK(severity_of(exposed("USE-2", grounding), insulation, edition, source) == otherwise);
    // The grounding is asked for only where it decides.
    CHECK(asks_grounding(exposed("USE-2", nullptr), edition) == older);
    CHECK_FALSE(asks_grounding(exposed("PV wire", nullptr), edition));
    CHECK_FALSE(asks_grounding(exposed("USE-2", nullptr, "raceway"), edition));
    CHECK_FALSE(asks_grounding(exposed("THWN-2", nullptr), edition));
    CHECK(severity_of(exposed("THWN-2", "ungrounded"), insulation, edition, source) == "correction");
  }
}

TEST_CASE("inside a raceway outdoors: any type for wet locations, in every edition") {
  struct Row {
    std::string_view type, expected;
  };
  const std::vector<Row> rows{{"PV wire", "none"},    {"USE-2", "none"},     {"RHW-2", "none"},
                              {"XHHW-2", "none"},     {"THWN-2", "none"},    {"THW", "none"},
                              {"THHN", "correction"}, {"XHH", "correction"}, {"RHH", "correction"},
                              {"ABC-9", "query"}};
  for (std::string_view edition : edition_names)
    for (std::string_view place : {"roof", "wall", "ground"})
      for (const Row& row : rows) {
        CAPTURE(edition, place, row.type);
        CHECK(severity_of(string_in(row.type, "raceway", place), insulation, edition, source) ==
              row.expected);
      }
}

TEST_CASE("names in any case, and prints of several types") {
  struct Row {
    std::string_view type, exposed, raceway;
  };
  // In 2017: USE-2 and PV wire may lie exposed, RHW-2 not; all but THHN and XHH may be wet.
  const std::vector<Row> rows{
      {"pv WIRE", "none", "none"},           {"use-2", "none", "none"},
      {"xhhw-2", "correction", "none"},      {"thhn", "correction", "correction"},
      {"USE-2/RHW-2", "none", "none"},       {"RHW-2 or USE-2", "none", "none"},
      {"rhw-2 / use-2", "none", "none"},     {"XHHW-2/RHW-2", "correction", "none"},
      {"THHN/THWN-2", "correction", "none"}, {"THHN, XHH", "correction", "correction"},
      {"USE-2/ABC-9", "none", "none"},       {"THWN-2/ABC-9", "query", "none"},
      {"THHN/ABC-9", "query", "query"},      {"/", "query", "query"}};
  for (const Row& row : rows) {
    CAPTURE(row.type);
    CHECK(severity_of(string_in(row.type, "free-air", "roof"), insulation, "2017", source) == row.exposed);
    CHECK(severity_of(string_in(row.type, "raceway", "roof"), insulation, "2017", source) == row.raceway);
  }
  // From 2020 on USE-2 and RHW-2 only where marked.
  CHECK(severity_of(string_in("RHW-2/USE-2", "free-air", "roof"), insulation, "2020", source) == "query");
  CHECK(severity_of(string_in("USE-2/PV wire", "free-air", "roof"), insulation, "2020", source) == "none");
  // Ungrounded arrays up to 2014 want PV wire: one of the names must be that.
  for (const auto& [type, expected] : std::vector<std::pair<std::string_view, std::string_view>>{
           {"pv wire", "none"}, {"USE-2/PV Wire", "none"}, {"USE-2/RHW-2", "correction"}}) {
    Json design = string_in(type, "free-air", "roof");
    design["inverters"]["I"]["grounding"] = "ungrounded";
    design["combiners"][0]["fuse"]["poles"] = "both";
    CHECK(severity_of(design, insulation, "2011", source) == expected);
  }
}

TEST_CASE("the output of an indoor box: wet where the plan says so") {
  const auto of_output = [](std::string_view type, std::string_view method, bool wet) {
    Json design = string_in("PV wire", "raceway", "indoor", wet);
    design["conductors"]["feeder"]["insulation"] = type;
    design["combiners"][0]["output"]["run"]["method"] = method;
    return severity_of(design, insulation, {}, output);
  };
  for (std::string_view method : {"raceway", "free-air"}) {
    CAPTURE(method);
    CHECK(of_output("THHN", method, false) == "none");
    CHECK(of_output("THHN", method, true) == "correction");
    CHECK(of_output("THWN-2", method, true) == "none");
    CHECK(of_output("ABC-9", method, false) == "none");
    CHECK(of_output("ABC-9", method, true) == "query");
  }
}

TEST_CASE("strings come from modules outdoors, wherever the box is") {
  CHECK(severity_of(string_in("THHN", "raceway", "indoor", false), insulation, {}, source) == "correction");
  CHECK(severity_of(string_in("THWN-2", "raceway", "indoor", false), insulation, {}, source) == "none");
  CHECK(severity_of(string_in("THWN-2", "free-air", "indoor", false), insulation, {}, source) ==
        "correction");
  CHECK(severity_of(string_in("PV wire", "free-air", "indoor", false), insulation, {}, source) == "none");
}

TEST_CASE("what a finding on insulation says") {
  const auto exposed = judge(string_in("THWN-2", "free-air", "roof"));
  check_words(exposed->find(insulation, source), "THWN-2", "a sunlight-resistant PV type",
              "690.31(C)(1), 310.10(C)");
  CHECK(exposed->find(insulation, source)->place.pointer == "/combiners/0/circuits/0/run/conductor");
  const auto marked = judge(string_in("USE-2", "free-air", "roof"), "2023");
  check_words(marked->find(insulation, source), "USE-2", "marked sunlight resistant",
              "690.31(C)(1), 310.10(C)");
  const auto wet = judge(string_in("THHN", "raceway", "wall"), "2008");
  check_words(wet->find(insulation, source), "THHN", "a type for wet locations",
              "690.31(B), 690.35(D), 310.8(C)");
  const auto unknown = judge(string_in("ABC-9", "free-air", "roof"), "2011");
  check_words(unknown->find(insulation, source), "ABC-9", "a known insulation",
              "690.31(B), 690.35(D), 310.10(C)");

  Json design = sound_design();
  design["conductors"]["feeder"]["insulation"] = "THHN";
  const auto feeder = judge(design);
  check_words(feeder->find(insulation), "THHN", "a type for wet locations", "690.31(C)(1), 310.10(C)");
  CHECK(feeder->find(insulation)->part == output);
}

TEST_CASE("aluminum: advice from 12 AWG on, a query below it") {
  const auto severity = [](std::string_view size, std::string_view material, std::string_view edition) {
    Json design = sound_design();
    design["conductors"]["string"].merge_patch({{"size", size}, {"material", material}});
    return severity_of(design, aluminum, edition, source);
  };
  for (std::string_view edition : edition_names) {
    CAPTURE(edition);
    CHECK(severity("14 AWG", "aluminum", edition) == "query");
    CHECK(severity("12 AWG", "aluminum", edition) == "advice");
    CHECK(severity("10 AWG", "aluminum", edition) == "advice");
    CHECK(severity("14 AWG", "copper", edition) == "none");
    CHECK(severity("12 AWG", "copper", edition) == "none");
  }
  Json design = sound_design();
  design["conductors"]["string"].merge_patch({{"size", "14 AWG"}, {"material", "aluminum"}});
  const std::vector<std::pair<std::string_view, std::string_view>> sections{
      {"2008", "110.14, 310.5"},      {"2011", "110.14, 310.106(A)"}, {"2014", "110.14, 310.106(A)"},
      {"2017", "110.14, 310.106(A)"}, {"2020", "110.14, 310.3(A)"},   {"2023", "110.14, 310.3(A)"}};
  for (const auto& [edition, section] : sections) {
    CAPTURE(edition);
    check_words(judge(design, edition)->find(aluminum, source), "14 AWG", "12 AWG", section);
  }
}

TEST_CASE("aluminum found without oxide inhibitor is a query, as built") {
  Json design = sound_design();
  design["conductors"]["feeder"].merge_patch({{"size", "350 kcmil"}, {"material", "aluminum"}});
  CHECK(severity_of(design, aluminum, {}, output) == "advice");
  const auto inhibited = judge(design, {}, record_of({{"output", {{"antioxidant", true}}}}));
  CHECK(severity_name(inhibited->find(aluminum, output)) == "advice");
  const auto bare = judge(design, {}, record_of({{"output", {{"antioxidant", false}}}}));
  const Finding* query = nullptr;
  for (const Finding& f : bare->findings())
    if (f.rule->id == aluminum && f.basis == Basis::as_built) query = &f;
  REQUIRE(query != nullptr);
  CHECK(query->severity == Severity::query);
  CHECK(query->part == output);
  CHECK(std::get<std::string>(query->found) == "no oxide inhibitor");
  // On copper the same observation means nothing to this rule.
  CHECK(judge(sound_design(), {}, record_of({{"output", {{"antioxidant", false}}}}))->find(aluminum) ==
        nullptr);
}

TEST_CASE("fine strands: a query on the plan") {
  const std::vector<std::pair<std::string_view, std::string_view>> sections{
      {"2008", "690.31(F)"}, {"2011", "690.31(F)"},    {"2014", "690.31(H)"},
      {"2017", "690.31(H)"}, {"2020", "690.31(C)(5)"}, {"2023", "690.31(C)(5)"}};
  for (const auto& [edition, section] : sections)
    for (std::string_view stranding : {"fine", "coarse", "solid"}) {
      CAPTURE(edition, stranding);
      Json design = sound_design();
      design["conductors"]["string"]["stranding"] = stranding;
      const auto judged = judge(design, edition);
      const Finding* f = judged->find(fine, source);
      CHECK(severity_name(f) == (stranding == "fine" ? "query" : "none"));
      if (f != nullptr) check_words(f, "fine stranding", "terminals identified for it", section);
      CHECK(judged->find(fine, output) == nullptr);
    }
}

TEST_CASE("fine strands found in the output: by what the inspector says of the lugs") {
  // The plan says coarse, so every word on fine strands comes from the record.
  const auto found = [](const Json& patch) {
    Json seen = {{"stranding", "fine"}};
    seen.merge_patch(patch);
    return judge(sound_design(), {}, record_of({{"output", seen}}));
  };
  CHECK(severity_name(found(Json::object())->find(fine)) == "query");
  CHECK(severity_name(found({{"lug_for_fine_strand", true}})->find(fine)) == "none");
  const auto unsuited = found({{"lug_for_fine_strand", false}});
  const Finding* f = unsuited->find(fine);
  check_words(f, "fine stranding", "terminals identified for it", "690.31(H)");
  CHECK(f->severity == Severity::correction);
  CHECK(f->basis == Basis::as_built);
  CHECK(f->part == output);
  CHECK(f->place.pointer == "/boxes/0/output/lug_for_fine_strand");
  // Lugs without fine strands in them say nothing.
  CHECK(judge(sound_design(), {}, record_of({{"output", {{"lug_for_fine_strand", false}}}}))->find(fine) ==
        nullptr);
}
