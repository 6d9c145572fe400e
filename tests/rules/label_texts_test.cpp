// What labels state as text: the name of the box is compared, a number written as text is asked for, and a
// key that is not known is asked about like one with a number.
#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view values = "label/values";
using Words = std::vector<std::string>;

Json stating(const Json& stated) {
  return put(sound_design(), "/combiners/0/labels/0/values", stated);
}

}  // namespace

TEST_CASE("the id on a label is that of the box") {
  CHECK(judge(stating({{"id", "A-01"}}))->summary().empty());
  for (const char* other : {"A-02", "a-01", "A-01 ", ""}) {
    CAPTURE(other);
    const auto judged = judge(stating({{"id", other}}));
    const Finding* f = judged->find(values);
    check_words(f, other, "A-01", "690.31(B)");
    CHECK(f->severity == Severity::correction);
    CHECK(f->part == "label box-identification id");
    CHECK(f->place.pointer == "/combiners/0/labels/0/values/id");
    CHECK(f->message ==
          "The box-identification label of A-01 states id " + std::string(other) + "; the box is A-01.");
  }
}

TEST_CASE("an id that is written as a number") {
  const Json seven = put(stating({{"id", 7}}), "/combiners/0/id", "7");
  CHECK(judge(seven)->summary().empty());
  CHECK(severity_of(put(seven, "/combiners/0/id", "8"), values) == "correction");
}

TEST_CASE("a number that is stated as text is asked for") {
  for (const std::string key : {"max_v", "max_a", "isc_a", "vmp_v", "imp_a", "strings", "series", "fuse_a"}) {
    CAPTURE(key);
    const auto judged = judge(stating({{key, "30 A"}}));
    const Finding* f = judged->find(values);
    check_words(f, "30 A", "a number", "690.31(B)");
    CHECK(f->severity == Severity::query);
    CHECK(f->part == "label box-identification " + key);
    CHECK(f->place.pointer == "/combiners/0/labels/0/values/" + key);
    CHECK(f->message ==
          "The box-identification label of A-01 states \"30 A\" as text; state the number for " + key + ".");
  }
}

TEST_CASE("a text under a key that is not known, and one whose key needs escaping") {
  const auto judged = judge(stating({{"a/b", "x"}}));
  const Finding* f = judged->find(values);
  check_words(f, "a/b", "id, max_v, max_a, isc_a, vmp_v, imp_a, strings, series or fuse_a", "690.31(B)");
  CHECK(f->severity == Severity::query);
  CHECK(f->place.pointer == "/combiners/0/labels/0/values/a~1b");
  CHECK(says(*f, "states \"a/b\", which is not known here, so nothing is held against it."));
}

TEST_CASE("findings stand under the section of the label's kind where the edition has it") {
  struct Row {
    std::string_view edition, section;
  };
  // 2008 has no such kind: that of the source label.
  for (const Row& r : {Row{"2008", "690.53"}, Row{"2011", "690.4(B)"}, Row{"2014", "690.31(B)"},
                       Row{"2017", "690.31(B)"}, Row{"2020", "690.31(B)"}, Row{"2023", "690.31(B)"}}) {
    CAPTURE(r.edition);
    const auto judged = judge(stating({{"strings", 8}}), r.edition);
    REQUIRE(judged->find(values) != nullptr);
    CHECK(judged->find(values)->section == r.section);
  }
}

TEST_CASE("of an illegible label the texts are not judged either") {
  Json labels = found_labels(
      {"box-identification", "max-voltage", "shock-both-sides", "raceway-power-source", "disconnect"});
  labels[0]["values"] = {{"id", "A-02"}, {"strings", "8"}};
  CHECK(told_by(*judge(sound_design(), {}, visit_with({{"labels", labels}})), values) ==
        Words{"correction label box-identification id", "query label box-identification strings"});
  labels[0]["legible"] = false;
  CHECK(told_by(*judge(sound_design(), {}, visit_with({{"labels", labels}})), values).empty());
}

TEST_CASE("numbers and texts of a label are kept apart, in the design and in the record; a note is neither") {
  const Json stated = {{"id", "A-01"}, {"strings", 9}, {"inverter", "x"}, {"note", "seen from below"}};
  const auto judged = judge(stating(stated), {},
                            visit_with({{"labels", {{{"kind", "box-identification"}, {"values", stated}}}}}));
  const Label& planned = judged->design.design.combiners[0].labels->front();
  const FoundLabel& found = judged->record->record.boxes[0].labels.front();
  const std::vector<std::pair<std::string, double>> numbers{{"strings", 9}};
  const std::vector<std::pair<std::string, std::string>> texts{{"id", "A-01"}, {"inverter", "x"}};
  CHECK(planned.values == numbers);
  CHECK(planned.texts == texts);
  CHECK(found.values == numbers);
  CHECK(found.texts == texts);
}
