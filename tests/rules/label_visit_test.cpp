// Labels as an inspector listed them: absent, illegible, on raceways that run away from the box. By the 2017
// edition the sound design needs five kinds at the box; the voltage label may be either of two.
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

Json five() {
  return found_labels(
      {"box-identification", "max-voltage", "shock-both-sides", "raceway-power-source", "disconnect"});
}

Words told(const Json& labels, const Json& design = sound_design()) {
  return told_by(*judge(design, {}, visit_with({{"labels", labels}})), missing);
}

}  // namespace

TEST_CASE("all that is needed was found") {
  CHECK(told(five()).empty());
  CHECK(told(all_labels()).empty());
  // What was not looked at is not missing.
  CHECK(told_by(*judge(sound_design(), {}, visit_with(Json::object())), missing).empty());
}

TEST_CASE("a label that is not among those found") {
  for (const std::string kind : {"box-identification", "max-voltage", "shock-both-sides", "disconnect"}) {
    CAPTURE(kind);
    CHECK(told(labels_without(five(), {kind})) == Words{"correction label " + kind});
  }
  const auto judged =
      judge(sound_design(), {}, visit_with({{"labels", labels_without(five(), {"disconnect"})}}));
  const Finding* f = judged->find(missing);
  check_words(f, "not among the labels found", "disconnect", "110.22(A)");
  CHECK(f->basis == Basis::as_built);
  CHECK(f->in_record);
  CHECK(f->place.file == "record.json");
  CHECK(f->place.pointer == "/boxes/0/labels");
  CHECK(f->place.line > 1);
  CHECK(f->message == "A-01 has no disconnect label; one is needed at its disconnect.");
}

TEST_CASE("a list of labels does not say that nobody marked the raceways: a query") {
  const auto judged =
      judge(sound_design(), {}, visit_with({{"labels", labels_without(five(), {"raceway-power-source"})}}));
  const Finding* f = judged->find(missing);
  check_words(f, "not among the labels found", "raceway-power-source", "690.31(G)(3)");
  CHECK(f->severity == Severity::query);
  CHECK(f->message ==
        "The record of A-01 lists no raceway-power-source label; was it looked for on its raceways?");
}

TEST_CASE("a list without labels: none was there") {
  CHECK(told(Json::array()) == Words{"correction label box-identification", "correction label max-voltage",
                                     "correction label shock-both-sides", "correction label disconnect",
                                     "query label raceway-power-source"});
}

TEST_CASE("a label that cannot be read") {
  for (std::size_t i = 0; i < 5; ++i) {
    Json labels = five();
    labels[i]["legible"] = false;
    CAPTURE(labels[i].dump());
    CHECK(told(labels) == Words{"correction label " + labels[i]["kind"].get<std::string>()});
    const auto judged = judge(sound_design(), {}, visit_with({{"labels", labels}}));
    const Finding* f = judged->find(missing);
    REQUIRE(f != nullptr);
    CHECK(std::get<std::string>(f->found) == "illegible");
    CHECK(says(*f, "cannot be read"));
    CHECK(f->place.pointer.starts_with("/boxes/0/labels"));
    CHECK(says(*f, "is needed"));
    // A second one of the kind that can be read does what is asked; the first is still to be replaced.
    labels.push_back({{"kind", labels[i]["kind"]}, {"legible", true}});
    CHECK(told(labels) == Words{"correction label " + labels[i]["kind"].get<std::string>()});
    const auto second = judge(sound_design(), {}, visit_with({{"labels", labels}}));
    CHECK(second->find(missing)->message ==
          "One of the " + labels[i]["kind"].get<std::string>() + " labels of A-01 cannot be read.");
    CHECK(second->find(missing)->place.pointer == "/boxes/0/labels/" + std::to_string(i));
  }
}

TEST_CASE("an illegible voltage label is served by a DC power source label that can be read") {
  Json labels = five();
  labels[1]["legible"] = false;
  labels.push_back({{"kind", "dc-power-source"}});
  CHECK(told(labels) == Words{"correction label max-voltage"});
  const auto served = judge(sound_design(), {}, visit_with({{"labels", labels}}));
  CHECK(served->find(missing)->message == "The max-voltage label of A-01 cannot be read.");
  labels.back()["legible"] = false;
  CHECK(told(labels) == Words{"correction label max-voltage", "correction label dc-power-source"});
  const auto none = judge(sound_design(), {}, visit_with({{"labels", labels}}));
  CHECK(none->find(missing, "label dc-power-source")->message ==
        "The dc-power-source label of A-01 cannot be read; it is needed at its disconnect.");
}

TEST_CASE("a label that cannot be read is told though no edition asks for it, and each kind once") {
  Json labels = five();
  labels.push_back({{"kind", "ground-fault"}, {"legible", false}});
  labels.push_back({{"kind", "ground-fault"}, {"legible", false}});
  const auto judged = judge(sound_design(), {}, visit_with({{"labels", labels}}));
  CHECK(told_by(*judged, missing) == Words{"correction label ground-fault"});
  CHECK(judged->find(missing)->message == "The ground-fault label of A-01 cannot be read.");
  CHECK(judged->find(missing)->place.pointer == "/boxes/0/labels/5");
  const auto old = judge(sound_design(), "2014", visit_with({{"labels", labels}}));
  CHECK(old->find(missing, "label ground-fault")->section == "690.5(C)");
  labels[5]["legible"] = true;
  labels.erase(6);
  CHECK(told(labels).empty());
}

TEST_CASE("what the plan lacks already is not told again as built, and what it states not asked twice") {
  const Json design = with_labels(sound_design(), labels_without(all_labels(), {"disconnect"}));
  const auto built = judge(design, {}, visit_with({{"labels", labels_without(five(), {"disconnect"})}}));
  const Finding* f = built->find(missing);
  REQUIRE(f != nullptr);
  CHECK(f->basis == Basis::design);
  // Labels that the plan does not state, and the record does: the box's query is answered, the site's stays.
  CHECK(told(five(), without(sound_design(), "/combiners/0/labels")) == Words{"query label rapid-shutdown"});
  // The raceway label neither called for nor found: the plan's correction, no query besides.
  CHECK(told(labels_without(five(), {"raceway-power-source"}),
             with_labels(sound_design(), labels_without(all_labels(), {"raceway-power-source"}))) ==
        Words{"correction label raceway-power-source"});
}

TEST_CASE("labels found stand on the disconnect that is there") {
  // No disconnect, so no label at one.
  const auto judged =
      judge(sound_design(), {},
            visit_with({{"labels", found_labels({"box-identification", "raceway-power-source"})},
                        {"disconnect", {{"present", false}}}}));
  CHECK(told_by(*judged, missing).empty());
}

TEST_CASE("a label that the plan does not call for, needed on the box as found: the place is in the plan") {
  // No disconnect on the plan, and one was found.
  const Json plan = with_labels(without(sound_design(), "/combiners/0/disconnect"),
                                labels_without(all_labels(), {"disconnect"}));
  const auto judged = judge(plan, {}, visit_with({{"disconnect", {{"present", true}}}}));
  const Finding* f = judged->find(missing, "label disconnect");
  check_words(f, "not called for", "disconnect", "110.22(A)");
  CHECK(f->basis == Basis::as_built);
  CHECK(f->place.file == "design.json");
  CHECK(f->place.pointer == "/combiners/0/labels");
}
