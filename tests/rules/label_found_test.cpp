// What labels found on a box state, against the box as found. With 18 modules in series 596.7 V, with 19
// 629.85 V; 108 A from nine strings.
#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view values = "label/values", tally = "tally/label";
using Words = std::vector<std::string>;

Json found(const Json& voltage_label) {
  Json labels =
      found_labels({"box-identification", "shock-both-sides", "raceway-power-source", "disconnect"});
  labels.push_back(voltage_label);
  return labels;
}
Json voltage(const Json& stated) {
  return {{"kind", "max-voltage"}, {"values", stated}};
}

std::unique_ptr<Judged> visit(const Json& seen, const Json& design = sound_design()) {
  return judge(design, {}, visit_with(seen));
}

}  // namespace

TEST_CASE("a value read on the box is judged, at its place in the record") {
  CHECK(told_by(*visit({{"labels", found(voltage({{"max_v", 597}, {"max_a", 108}}))}}), values).empty());
  const auto judged = visit({{"labels", found(voltage({{"max_v", 500}, {"max_a", 108}}))}});
  const Finding* f = judged->find(values);
  check_numbers(f, 500, 596.7, "V", "690.53");
  CHECK(f->severity == Severity::correction);
  CHECK(f->basis == Basis::as_built);
  CHECK(f->in_record);
  CHECK(f->place.file == "record.json");
  CHECK(f->place.pointer == "/boxes/0/labels/4/values/max_v");
  CHECK(f->place.line > 1);
  CHECK(f->message ==
        "The max-voltage label of A-01 states 500 V as the highest voltage; 596.7 V is computed.");
  const auto high = visit({{"labels", found(voltage({{"max_v", 900}, {"max_a", 108}}))}});
  CHECK(told_by(*high, values) == Words{"advice label max-voltage max_v"});
}

TEST_CASE("a label found of which the record gives no values keeps those of the plan") {
  const Json longer = {{"series", 19}};
  const Json bare = {{"kind", "max-voltage"}};
  CHECK(told_by(*visit({{"labels", found(bare)}}), values).empty());
  // 629.85 V with the 19 modules that are there, and the plan's label says 597.
  CHECK(told_by(*visit({{"labels", found(bare)}, {"count", longer}}), values) ==
        Words{"correction label max-voltage max_v"});
  CHECK(told_by(*visit({{"labels", found(voltage({{"max_v", 630}, {"max_a", 108}}))}, {"count", longer}}),
                values)
            .empty());
  // A kind that the plan does not call for has no values to keep.
  const Json without_any =
      with_labels(sound_design(), labels_without(all_labels(), {"max-voltage", "dc-power-source"}));
  CHECK(told_by(*visit({{"labels", found(bare)}}, without_any), values) ==
        Words{"query label max-voltage contents"});
}

TEST_CASE("labels that nobody listed are the plan's") {
  // The plan's two labels say 597 V, and there are 19 modules in series, which work at 475 V.
  CHECK(told_by(*visit({{"count", {{"series", 19}}}}), values) ==
        Words{"correction label max-voltage max_v", "correction label dc-power-source max_v",
              "correction label dc-power-source vmp_v"});
}

TEST_CASE("what the plan's label says stands in the plan, though the box as found made it wrong") {
  struct Row {
    Json seen;
    std::string place;
  };
  const Json bare = found({{"kind", "max-voltage"}});
  for (const Row& r :
       {Row{{{"count", {{"series", 19}}}}, "/combiners/0/labels/1/values/max_v"},
        Row{{{"count", {{"series", 19}}}, {"labels", bare}}, "/combiners/0/labels/1/values/max_v"}}) {
    CAPTURE(r.seen.dump());
    const auto judged = visit(r.seen);
    const Finding* f = judged->find(values, "label max-voltage max_v");
    REQUIRE(f != nullptr);
    CHECK(f->basis == Basis::as_built);
    CHECK_FALSE(f->in_record);
    CHECK(f->place.file == "design.json");
    CHECK(f->place.pointer == r.place);
    CHECK(f->ask.find("--asbuilt") != std::string::npos);
  }
  // The contents that nobody states likewise.
  const Json empty = put(sound_design(), "/combiners/0/labels/1/values", Json::object());
  const auto judged =
      visit({{"labels", bare}, {"disconnect", {{"present", true}}}},
            without(put(empty, "/combiners/0/labels/2/kind", "directory"), "/combiners/0/labels/2/values"));
  const Finding* f = judged->find(values);
  REQUIRE(f != nullptr);
  CHECK(f->place.file == "design.json");
}

TEST_CASE("where no strings were found no label is called another circuit's") {
  const auto judged = visit({{"count", {{"positive", 0}, {"negative", 0}}}});
  CHECK(told_by(*judged, values).empty());
  CHECK(told_by(*visit({{"count", {{"positive", 1}, {"negative", 1}}}}), values).size() == 4);
}

TEST_CASE("the name of the box on a label found") {
  Json labels = found({{"kind", "max-voltage"}});
  labels[0]["values"] = {{"id", "A-02"}};
  const auto judged = visit({{"labels", labels}});
  const Finding* f = judged->find(values);
  check_words(f, "A-02", "A-01", "690.31(B)");
  CHECK(f->severity == Severity::correction);
  CHECK(f->place.pointer == "/boxes/0/labels/0/values/id");
  // Posted as well, the name is the tally's.
  const auto posted = visit({{"labels", labels}, {"posted", {{"id", "A-02"}}}});
  CHECK(told_by(*posted, values).empty());
  CHECK(told_by(*posted, tally).size() == 1);
  // A list without contents keeps the plan's name, and the posted one goes before it.
  const Json plan = put(sound_design(), "/combiners/0/labels/0/values", {{"id", "A-02"}});
  const Json bare = found({{"kind", "max-voltage"}});
  CHECK(told_by(*visit({{"labels", bare}}, plan), values) == Words{"correction label box-identification id"});
}

TEST_CASE("what cannot be read is not judged") {
  Json label = voltage({{"max_v", 500}});
  label["legible"] = false;
  const auto judged = visit({{"labels", found(label)}});
  CHECK(told_by(*judged, values).empty());
  CHECK(told_by(*judged, "label/missing") == Words{"correction label max-voltage"});
}

TEST_CASE("a posted value that is far too high is advice, one that is too low the tally's alone") {
  struct Row {
    const char* key;
    double stated;
    Words values, tally;
  };
  constexpr double v = 596.7 * 1.1, a = 108 * 1.1, inside = 1 + 5e-10, outside = 1 + 2e-9;
  for (const Row& r : std::vector<Row>{{"max_v", 500, {}, {"correction max_v"}},
                                       {"max_v", 597, {}, {}},
                                       {"max_v", v, {}, {}},
                                       {"max_v", v * inside, {}, {}},
                                       {"max_v", v * outside, {"advice posted label max_v"}, {}},
                                       {"max_v", 900, {"advice posted label max_v"}, {}},
                                       {"max_a", 90, {}, {"correction max_a"}},
                                       {"max_a", 108, {}, {}},
                                       {"max_a", a, {}, {}},
                                       {"max_a", a * inside, {}, {}},
                                       {"max_a", a * outside, {"advice posted label max_a"}, {}},
                                       {"max_a", 216, {"advice posted label max_a"}, {}}}) {
    CAPTURE(r.key, r.stated);
    const auto judged = visit({{"posted", {{r.key, r.stated}}}});
    CHECK(told_by(*judged, values) == r.values);
    CHECK(told_by(*judged, tally).size() == r.tally.size());
  }
  const auto judged = visit({{"posted", {{"max_v", 900}}}});
  const Finding* f = judged->find(values);
  check_numbers(f, 900, 656.37, "V", "690.53");
  CHECK(f->basis == Basis::as_built);
  CHECK(f->place.file == "record.json");
  CHECK(f->place.pointer == "/boxes/0/posted/max_v");
  CHECK(says(*f, "The label posted on A-01 states 900 V as the highest voltage, more than 10 % above"));
}

TEST_CASE("a posted value and the same on a label found are told once") {
  const auto judged = visit({{"posted", {{"max_v", 500}}}, {"labels", found(voltage({{"max_v", 500}}))}});
  CHECK(told_by(*judged, values) == Words{"query label max-voltage contents"});
  CHECK(told_by(*judged, tally).size() == 1);
}

TEST_CASE("a label found that says less than the posted one is not passed over") {
  const auto judged = visit({{"posted", {{"max_v", 597}, {"max_a", 108}}},
                             {"labels", found(voltage({{"max_v", 500}, {"max_a", 108}}))}});
  CHECK(told_by(*judged, values) == Words{"correction label max-voltage max_v"});
}

TEST_CASE("an identification label found with other counts than the box has") {
  Json labels = found({{"kind", "max-voltage"}});
  labels[0]["values"] = {{"strings", 12}, {"fuse_a", 15}};
  const auto judged = visit({{"labels", labels}});
  CHECK(told_by(*judged, values) == Words{"correction label box-identification strings"});
  CHECK(judged->find(values)->place.pointer == "/boxes/0/labels/0/values/strings");
  // Posted as well, the counts are the tally's.
  CHECK(told_by(*visit({{"labels", labels}, {"posted", {{"strings", 12}}}}), values).empty());
}
