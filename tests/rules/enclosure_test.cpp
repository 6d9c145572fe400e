// Enclosures: type by place and position (Table 110.28), air space behind metal boxes in wet locations
// (312.2, 6 mm), listing (690.4).
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view type_rule = "enclosure/type", gap_rule = "enclosure/air-gap",
                           listing_rule = "enclosure/not-listed";

// An enclosure of this type, mounted so. Null removes a key.
Json box(std::string_view type, const Json& mounting) {
  Json design = with_box({{"enclosure", {{"type", type}}}});
  design["combiners"][0]["mounting"].merge_patch(mounting);
  return design;
}
Json wet_metal(const Json& gap) {
  return with_box({{"mounting", {{"air_gap_mm", gap}}}});
}
Json record_of(const Json& enclosure) {
  return {{"format", "boxproof-asbuilt/1"}, {"boxes", {{{"id", "A-01"}, {"enclosure", enclosure}}}}};
}

// Whether the design's only query on this key speaks for the rule.
bool asks(const Json& design, std::string_view rule, std::string_view key, std::string_view edition = {}) {
  const auto judged = judge(design, edition);
  for (const Finding& f : judged->findings())
    if (f.part == key && f.message.find(rule) != std::string::npos) return f.severity == Severity::query;
  return false;
}

}  // namespace

TEST_CASE("outdoors: types for indoor use are corrections, in every edition and place") {
  for (std::string_view edition : edition_names)
    for (std::string_view place : {"roof", "wall", "ground"}) {
      CAPTURE(edition, place);
      for (std::string_view type : {"1", "2", "5", "12", "12K", "12k", "13"}) {
        CAPTURE(type);
        const auto judged = judge(box(type, {{"place", place}}), edition);
        const Finding* f = judged->find(type_rule);
        check_words(f, type == "12k" ? "12K" : type, "a type for outdoor use",
                    edition == "2008" ? "110.20, Table 110.20" : "110.28, Table 110.28");
        CHECK(f->severity == Severity::correction);
        CHECK(f->part == "enclosure");
        CHECK(f->place.pointer == "/combiners/0/enclosure/type");
      }
      for (std::string_view type : {"3", "3R", "3S", "3X", "3RX", "3SX", "4", "4X", "4x", "6", "6P"}) {
        CAPTURE(type);
        CHECK(severity_of(box(type, {{"place", place}}), type_rule, edition) == "none");
      }
    }
}

TEST_CASE("cover up under the sky: the rainproof types are corrections, the raintight ones are not") {
  for (std::string_view place : {"roof", "wall", "ground"}) {
    CAPTURE(place);
    for (std::string_view type : {"3R", "3RX"}) {
      CAPTURE(type);
      const auto judged = judge(box(type, {{"place", place}, {"cover", "up"}}));
      const Finding* f = judged->find(type_rule);
      check_words(f, "cover up", "cover to the side, or a raintight type", "110.28, Table 110.28");
      CHECK(f->severity == Severity::correction);
      CHECK(f->part == "enclosure position");
      CHECK(f->place.pointer == "/combiners/0/mounting/cover");
      CHECK(severity_of(box(type, {{"place", place}, {"cover", "side"}}), type_rule) == "none");
    }
    for (std::string_view type : {"3", "3S", "3X", "3SX", "4", "4X", "6", "6P"}) {
      CAPTURE(type);
      CHECK(severity_of(box(type, {{"place", place}, {"cover", "up"}}), type_rule) == "none");
    }
  }
  // Indoors no rain falls on it.
  CHECK(severity_of(box("3R", {{"place", "indoor"}, {"cover", "up"}, {"wet", false}}), type_rule) == "none");
}

TEST_CASE("cover not stated: asked of rainproof types on roof and ground; a box on a wall faces sideways") {
  const auto asked = [](std::string_view type, std::string_view place) {
    return asks(box(type, {{"place", place}, {"cover", nullptr}}), type_rule, "mounting/cover");
  };
  CHECK(asked("3R", "roof"));
  CHECK(asked("3RX", "ground"));
  CHECK_FALSE(asked("3R", "wall"));
  CHECK(severity_of(box("3R", {{"place", "wall"}, {"cover", nullptr}}), type_rule) == "none");
  CHECK_FALSE(asked("4X", "roof"));
  CHECK_FALSE(asked("1", "roof"));  // its fault is another one
  CHECK(severity_of(box("1", {{"place", "roof"}, {"cover", nullptr}}), type_rule) == "correction");
}

TEST_CASE("indoors: dry anything; wet by what the type keeps off") {
  struct Row {
    std::string_view type, wet;
  };
  const std::vector<Row> rows{{"1", "correction"}, {"2", "query"},  {"5", "query"},   {"12", "query"},
                              {"12K", "query"},    {"13", "query"}, {"3", "query"},   {"3R", "query"},
                              {"3S", "query"},     {"3X", "query"}, {"3RX", "query"}, {"3SX", "query"},
                              {"4", "none"},       {"4X", "none"},  {"6", "none"},    {"6P", "none"}};
  for (const Row& row : rows) {
    CAPTURE(row.type);
    const auto indoors = [&](const Json& wet) {
      return box(row.type, {{"place", "indoor"}, {"wet", wet}, {"cover", nullptr}});
    };
    CHECK(severity_of(indoors(false), type_rule) == "none");
    const auto wet = judge(indoors(true));
    const Finding* f = wet->find(type_rule);
    CHECK(severity_name(f) == row.wet);
    if (f != nullptr) {
      check_words(f, row.type, "a type for the water there", "110.28, Table 110.28");
      CHECK((f->message.find("hose") != std::string::npos) == (row.wet == "query"));
    }
    CHECK(asks(indoors(nullptr), type_rule, "mounting/wet") == (row.wet != "none"));
  }
}

TEST_CASE("a word that is no type is queried, an IP code with its reason") {
  for (std::string_view type : {"IP65", "ip 66", "NEMA 4X", "weatherproof", "IP", "4XX"})
    for (std::string_view place : {"roof", "indoor"}) {
      CAPTURE(type, place);
      const auto judged = judge(box(type, {{"place", place}}));
      const Finding* f = judged->find(type_rule);
      check_words(f, type, "a type of the table", "110.28, Table 110.28");
      CHECK(f->severity == Severity::query);
      const bool code = type == "IP65" || type == "ip 66";
      CHECK((f->message.find("IP code") != std::string::npos) == code);
      CHECK(f->ask.find("one of 1, 2, 3, 3R,") != std::string::npos);
    }
}

TEST_CASE("no type and no place are asked for") {
  CHECK(asks(with_box({{"enclosure", {{"type", nullptr}}}}), type_rule, "enclosure/type"));
  CHECK(asks(with_box({{"enclosure", nullptr}}), type_rule, "enclosure/type"));
  CHECK(asks(box("3R", {{"place", nullptr}}), type_rule, "mounting/place"));
  CHECK(asks(with_box({{"mounting", nullptr}}), type_rule, "mounting/place"));
}

TEST_CASE("as built: a cover that is not secured and a gasket that is not seated take the type away") {
  const auto judged = judge(sound_design(), {}, record_of({{"secured", false}, {"gasket_seated", false}}));
  const Finding* cover = judged->find(type_rule, "enclosure cover");
  check_words(cover, "not secured", "secured", "110.28, Table 110.28");
  CHECK(cover->severity == Severity::correction);
  CHECK(cover->basis == Basis::as_built);
  CHECK(cover->place.pointer == "/boxes/0/enclosure/secured");
  const Finding* gasket = judged->find(type_rule, "enclosure gasket");
  check_words(gasket, "not seated", "seated", "110.28, Table 110.28");
  CHECK(gasket->place.pointer == "/boxes/0/enclosure/gasket_seated");

  const auto one = judge(sound_design(), {}, record_of({{"secured", true}, {"gasket_seated", false}}));
  CHECK(one->find(type_rule)->part == "enclosure gasket");
  for (const Json& seen : {Json{{"secured", true}, {"gasket_seated", true}}, Json{{"type", "4X"}}})
    CHECK(judge(sound_design(), {}, record_of(seen))->find(type_rule) == nullptr);
}

TEST_CASE("as built: the type and the position found are judged") {
  const auto judged = judge(sound_design(), {}, record_of({{"type", "3R"}, {"cover", "up"}}));
  const Finding* f = judged->find(type_rule);
  REQUIRE(f != nullptr);
  CHECK(f->part == "enclosure position");
  CHECK(f->basis == Basis::as_built);
  CHECK(f->place.pointer == "/boxes/0/enclosure/cover");
  CHECK(judge(sound_design(), {}, record_of({{"type", "3R"}}))->find(type_rule) == nullptr);
  // A fault of the plan's does not hide another one found.
  const auto both = judge(box("3R", {{"cover", "up"}}), {}, record_of({{"type", "12"}}));
  CHECK(both->find(type_rule, "enclosure position") == nullptr);
  REQUIRE(both->judgement.gone.size() == 1);
  CHECK(both->judgement.gone[0].part == "enclosure position");
  CHECK(both->find(type_rule, "enclosure")->basis == Basis::as_built);
}

TEST_CASE("air space behind a metal box in a wet location: 6 mm") {
  for (std::string_view edition : edition_names) {
    CAPTURE(edition);
    CHECK(severity_of(wet_metal(6), gap_rule, edition) == "none");
    CHECK(severity_of(wet_metal(6.1), gap_rule, edition) == "none");
    for (double gap : {0.0, 5.9}) {
      const auto judged = judge(wet_metal(gap), edition);
      const Finding* f = judged->find(gap_rule);
      check_numbers(f, gap, 6, "mm", edition == "2008" ? "312.2(A)" : "312.2");
      CHECK(f->severity == Severity::correction);
      CHECK(f->place.pointer == "/combiners/0/mounting/air_gap_mm");
    }
  }
}

TEST_CASE("air space: which boxes are looked at") {
  const auto severity = [](std::string_view place, const Json& wet, const Json& metal) {
    Json design = box("4X", {{"place", place}, {"wet", wet}, {"air_gap_mm", 0}});
    design["combiners"][0]["enclosure"].merge_patch({{"metal", metal}});
    return severity_of(design, gap_rule);
  };
  for (std::string_view place : {"roof", "wall", "ground"}) {
    CAPTURE(place);
    CHECK(severity(place, nullptr, true) == "correction");  // outdoors is wet
    CHECK(severity(place, true, true) == "correction");
    // Said not to be wet where rain comes: is it under cover? A wall may be under eaves.
    CHECK(severity(place, false, true) == (place == "wall" ? "none" : "query"));
    CHECK(severity(place, true, false) == "none");
    CHECK(severity(place, false, false) == "none");
  }
  CHECK(severity("indoor", true, true) == "correction");
  CHECK(severity("indoor", false, true) == "none");
  CHECK(severity("indoor", nullptr, false) == "none");
}

TEST_CASE("air space: a metal box on a roof or on open ground that is said not to be wet") {
  const auto dry = [](std::string_view place, const Json& gap, const Json& metal = true) {
    Json design = box("4X", {{"place", place}, {"wet", false}, {"air_gap_mm", gap}});
    design["combiners"][0]["enclosure"].merge_patch({{"metal", metal}});
    return design;
  };
  for (std::string_view place : {"roof", "ground"}) {
    CAPTURE(place);
    for (double gap : {0.0, 5.9}) {
      const auto judged = judge(dry(place, gap));
      const Finding* f = judged->find(gap_rule);
      check_numbers(f, gap, 6, "mm", "312.2");
      CHECK(f->severity == Severity::query);
      CHECK(f->place.pointer == "/combiners/0/mounting/wet");
    }
    CHECK(severity_of(dry(place, 6), gap_rule) == "none");
    CHECK(severity_of(dry(place, nullptr), gap_rule) == "query");
    CHECK(asks(dry(place, 0, nullptr), gap_rule, "enclosure/metal"));
    CHECK_FALSE(asks(dry(place, nullptr), gap_rule, "mounting/air_gap_mm"));  // the one question first
  }
  CHECK(
      judge(dry("roof", 5.9))->find(gap_rule)->message ==
      "The metal box A-01 stands on a roof and is said not to be wet, with 5.9 mm of air behind it; 6 mm are "
      "asked for in wet locations: is it under cover?");
  CHECK(
      judge(dry("ground", nullptr))->find(gap_rule)->message ==
      "The metal box A-01 stands on the ground outdoors and is said not to be wet, with no air space stated "
      "behind it; 6 mm are asked for in wet locations: is it under cover?");
}

TEST_CASE("air space: what is asked for") {
  CHECK(asks(wet_metal(nullptr), gap_rule, "mounting/air_gap_mm"));
  CHECK(asks(with_box({{"enclosure", {{"metal", nullptr}}}}), gap_rule, "enclosure/metal"));
  CHECK(asks(with_box({{"enclosure", nullptr}}), gap_rule, "enclosure/metal"));
  CHECK(asks(box("4X", {{"place", "indoor"}, {"wet", nullptr}}), gap_rule, "mounting/wet"));
  CHECK(asks(box("4X", {{"place", nullptr}, {"wet", nullptr}}), gap_rule, "mounting/place"));
  CHECK(asks(with_box({{"mounting", nullptr}}), gap_rule, "mounting/place"));
  CHECK_FALSE(asks(box("4X", {{"place", nullptr}}), gap_rule, "mounting/place"));  // stated to be wet
  // Nothing is asked of a box that is not of metal.
  Json plastic = box("4X", {{"air_gap_mm", nullptr}, {"wet", nullptr}});
  plastic["combiners"][0]["enclosure"]["metal"] = false;
  CHECK(judge(plastic)->summary().empty());
}

TEST_CASE("as built: the air space found is judged") {
  const auto judged = judge(sound_design(), {}, record_of({{"air_gap_mm", 3}}));
  check_numbers(judged->find(gap_rule), 3, 6, "mm", "312.2");
  CHECK(judged->find(gap_rule)->place.pointer == "/boxes/0/enclosure/air_gap_mm");
}

TEST_CASE("a combiner that is not listed; from 2017 on a field label would do") {
  for (std::string_view edition : edition_names) {
    CAPTURE(edition);
    const bool label = edition >= "2017";
    const auto judged = judge(with_box({{"enclosure", {{"listed", false}}}}), edition);
    const Finding* f = judged->find(listing_rule);
    check_words(f, "not listed", label ? "listed or field labelled" : "listed",
                edition <= "2011" ? "690.4(D)" : "690.4(B)");
    CHECK(f->severity == Severity::correction);
    CHECK((f->message.find("field label") != std::string::npos) == label);
    CHECK((f->ask.find("field evaluation") != std::string::npos) == label);
    CHECK(f->place.pointer == "/combiners/0/enclosure/listed");
    CHECK(severity_of(with_box({{"enclosure", {{"listed", true}}}}), listing_rule, edition) == "none");
    CHECK(asks(with_box({{"enclosure", {{"listed", nullptr}}}}), listing_rule, "enclosure/listed", edition));
    CHECK(asks(with_box({{"enclosure", nullptr}}), listing_rule, "enclosure/listed", edition));
  }
  const auto found = judge(sound_design(), {}, record_of({{"listed", false}}));
  REQUIRE(found->find(listing_rule) != nullptr);
  CHECK(found->find(listing_rule)->basis == Basis::as_built);
}
