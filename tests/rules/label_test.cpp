// Labels that the edition asks for and nobody calls for, on the plan. Which edition needs which: a label
// engraver's page (2008), label makers' pages and trade press (2011, 2014), secondary summaries (2020, 2023),
// the rest from memory, unverified; see tests/published/labels_test.cpp.
#include <algorithm>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view missing = "label/missing";
using Words = std::vector<std::string>;

const Words on_box{"box-identification",   "max-voltage",       "dc-power-source", "shock-both-sides",
                   "raceway-power-source", "ungrounded-system", "disconnect",      "directory"};

// A building, solidly grounded, an output in raceway, a disconnect at hand.
Json plain_box() {
  return with_labels(sound_design(), all_labels());
}
// The same ungrounded, with its disconnect 2 m away.
Json far_box() {
  return put(put(plain_box(), "/inverters/I/grounding", "ungrounded"), "/combiners/0/disconnect/distance_m",
             2);
}
// In a field, without a disconnect.
Json field_box() {
  return without(put(plain_box(), "/site/use", "ground"), "/combiners/0/disconnect");
}

Json call_for_none(Json design) {
  return with_labels(std::move(design), Json::array());
}

// The findings on the box of label/missing.
Words told_on_box(const Json& design, std::string_view edition) {
  Words out;
  const auto judged = judge(design, edition);
  for (const Finding& f : judged->findings())
    if (f.rule->id == missing && f.box)
      out.push_back(std::string(severity_names[static_cast<std::size_t>(f.severity)]) + " " + f.part);
  return out;
}

Words corrections(const Words& kinds) {
  Words out;
  for (const std::string& kind : kinds) out.push_back("correction label " + kind);
  return out;
}

struct Needed {
  std::string_view edition;
  Words plain, far, field;
};

const std::vector<Needed> needed_by{
    {"2008",
     {"dc-power-source", "shock-both-sides", "disconnect"},
     {"dc-power-source", "shock-both-sides", "ungrounded-system", "disconnect"},
     {}},
    {"2011",
     {"box-identification", "dc-power-source", "shock-both-sides", "raceway-power-source", "disconnect"},
     {"box-identification", "dc-power-source", "shock-both-sides", "raceway-power-source",
      "ungrounded-system", "disconnect", "directory"},
     {"box-identification"}},
    {"2014",
     {"box-identification", "dc-power-source", "shock-both-sides", "raceway-power-source", "disconnect"},
     {"box-identification", "dc-power-source", "shock-both-sides", "raceway-power-source",
      "ungrounded-system", "disconnect", "directory"},
     {"box-identification"}},
    {"2017",
     {"box-identification", "max-voltage", "shock-both-sides", "raceway-power-source", "disconnect"},
     {"box-identification", "max-voltage", "shock-both-sides", "raceway-power-source", "disconnect"},
     {"box-identification"}},
    {"2020",
     {"box-identification", "shock-both-sides", "raceway-power-source", "disconnect"},
     {"box-identification", "shock-both-sides", "raceway-power-source", "disconnect"},
     {"box-identification"}},
    {"2023",
     {"box-identification", "shock-both-sides", "raceway-power-source", "disconnect"},
     {"box-identification", "shock-both-sides", "raceway-power-source", "disconnect"},
     {"box-identification"}},
};

}  // namespace

TEST_CASE("a plan that calls for no label at all lacks those that the edition needs") {
  for (const Needed& n : needed_by) {
    CAPTURE(n.edition);
    CHECK(told_on_box(call_for_none(plain_box()), n.edition) == corrections(n.plain));
    CHECK(told_on_box(call_for_none(far_box()), n.edition) == corrections(n.far));
    CHECK(told_on_box(call_for_none(field_box()), n.edition) == corrections(n.field));
  }
}

TEST_CASE("a plan that calls for every kind lacks none, and one kind less is missed where it is needed") {
  for (const Needed& n : needed_by)
    for (const auto& [design, kinds] :
         {std::pair(plain_box(), n.plain), std::pair(far_box(), n.far), std::pair(field_box(), n.field)}) {
      CHECK(told_on_box(design, n.edition).empty());
      for (const std::string& kind : on_box) {
        CAPTURE(n.edition, kind);
        const bool asked = std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
        const bool served = kind == "max-voltage";  // by the DC power source label
        CHECK(told_on_box(with_labels(design, labels_without(all_labels(), {kind})), n.edition) ==
              (asked && !served ? corrections({kind}) : Words{}));
      }
    }
}

TEST_CASE("what the finding says") {
  const auto judged = judge(with_labels(sound_design(), labels_without(all_labels(), {"shock-both-sides"})));
  const Finding* f = judged->find(missing);
  check_words(f, "not called for", "shock-both-sides", "690.13(B), 690.15");
  CHECK(f->severity == Severity::correction);
  CHECK(f->basis == Basis::design);
  CHECK(f->place.file == "design.json");
  CHECK(f->place.pointer == "/combiners/0/labels");
  CHECK(f->place.line > 1);
  CHECK(f->message ==
        "The plan calls for no shock-both-sides label on A-01; one is needed at its disconnect.");
  for (const auto& [kind, where] : {std::pair("box-identification", "on the box"),
                                    std::pair("raceway-power-source", "on its raceways")}) {
    const auto other = judge(with_labels(sound_design(), labels_without(all_labels(), {kind})));
    REQUIRE(other->find(missing) != nullptr);
    CHECK(says(*other->find(missing), std::string("one is needed ") + where));
  }
}

TEST_CASE("the four values of the older editions serve as the voltage label, and not the other way round") {
  const Json neither =
      with_labels(sound_design(), labels_without(all_labels(), {"max-voltage", "dc-power-source"}));
  const Json source = with_labels(sound_design(), labels_without(all_labels(), {"max-voltage"}));
  const Json voltage = with_labels(sound_design(), labels_without(all_labels(), {"dc-power-source"}));
  CHECK(told_on_box(neither, "2017") == corrections({"max-voltage"}));
  CHECK(told_on_box(source, "2017").empty());
  CHECK(told_on_box(voltage, "2017").empty());
  CHECK(told_on_box(neither, "2014") == corrections({"dc-power-source"}));
  CHECK(told_on_box(source, "2014").empty());
  CHECK(told_on_box(voltage, "2014") == corrections({"dc-power-source"}));
}

TEST_CASE("a directory is needed over 1.8 m, at fuses, in 2011 and 2014") {
  struct Row {
    double metres;
    bool needed;
  };
  for (const std::string_view edition : edition_names)
    for (const Row& r : {Row{0, false}, Row{1.79, false}, Row{1.8, false}, Row{1.8 * (1 + 5e-10), false},
                         Row{1.8 * (1 + 2e-9), true}, Row{20, true}}) {
      CAPTURE(edition, r.metres);
      const Json design = put(sound_design(), "/combiners/0/disconnect/distance_m", r.metres);
      const bool asked = r.needed && (edition == "2011" || edition == "2014");
      CHECK(told_on_box(design, edition) == (asked ? corrections({"directory"}) : Words{}));
      CHECK(told_on_box(without(design, "/combiners/0/fuse"), edition).empty());
    }
}

TEST_CASE("raceways are marked on and in buildings, whichever run lies in one") {
  const Json bare = with_labels(sound_design(), labels_without(all_labels(), {"raceway-power-source"}));
  const auto lay = [&](const char* circuit, const char* output) {
    return put(put(bare, "/combiners/0/circuits/0/run/method", circuit), "/combiners/0/output/run/method",
               output);
  };
  for (const char* use : {"building", "dwelling", "ground"}) {
    CAPTURE(use);
    const Words marked = std::string(use) == "ground" ? Words{} : corrections({"raceway-power-source"});
    CHECK(told_on_box(put(lay("raceway", "free-air"), "/site/use", use), "2017") == marked);
    CHECK(told_on_box(put(lay("free-air", "raceway"), "/site/use", use), "2017") == marked);
    CHECK(told_on_box(put(lay("free-air", "free-air"), "/site/use", use), "2017").empty());
  }
}

TEST_CASE("labels that are not stated at all are one query, told by label/missing") {
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    const auto judged = judge(without(sound_design(), "/combiners/0/labels"), edition);
    const Finding* f = judged->find(missing, "labels");
    REQUIRE(f != nullptr);
    CHECK(f->severity == Severity::query);
    CHECK(std::get<std::string>(f->found) == "not stated");
    CHECK(told_on_box(without(sound_design(), "/combiners/0/labels"), edition) == Words{"query labels"});
  }
  // Nothing is asked for, nothing is lacking.
  CHECK(told_on_box(without(field_box(), "/combiners/0/labels"), "2008").empty());
}

TEST_CASE("an amendment of the labels is applied and named") {
  const Json design = put(call_for_none(sound_design()), "/code/amendments",
                          {{"labels", {{"kinds", {{"disconnect", {{"section", "Trial 7"}}}}}}}});
  const auto judged = judge(design);
  const Finding* f = judged->find(missing, "label disconnect");
  REQUIRE(f != nullptr);
  CHECK(f->section == "Trial 7");
  CHECK(f->amended == Words{"labels.kinds.disconnect.section"});
  CHECK(says(*f, "Amended locally: labels.kinds.disconnect.section."));
  // An amended distance moves the boundary of the directory.
  const Json far = put(put(sound_design(), "/combiners/0/disconnect/distance_m", 4), "/code/amendments",
                       {{"labels", {{"kinds", {{"directory", {{"over_m", 5}}}}}}}});
  CHECK(told_on_box(far, "2014").empty());
  CHECK(told_on_box(put(far, "/combiners/0/disconnect/distance_m", 5.1), "2014") ==
        corrections({"directory"}));
}

TEST_CASE("an amended section of the rule itself is named, and touches no other rule") {
  const Json design = put(without(without(sound_design(), "/combiners/0/labels"), "/combiners/0/fuse/dc"),
                          "/code/amendments", {{"rules", {{"label/missing", {{"section", "Trial 9"}}}}}});
  const auto judged = judge(design);
  const Finding* f = judged->find(missing, "labels");
  REQUIRE(f != nullptr);
  CHECK(f->section == "Trial 9");
  CHECK(f->amended == Words{"rules.label/missing.section"});
  CHECK(says(*f, "Amended locally: rules.label/missing.section."));
  REQUIRE(judged->find("fuse/not-dc") != nullptr);
  CHECK(judged->find("fuse/not-dc")->amended.empty());
}
