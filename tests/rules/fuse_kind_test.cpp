// What kind of fuse, in which poles, and how hot it sits. What the editions ask for:
// published/overcurrent_test.cpp.
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Words = std::array<std::string_view, 6>;  // one an edition, oldest first

const std::string fuse = "/combiners/0/fuse";

// The sound box on an inverter of this grounding, with fuses in these poles ("": not stated).
Json poles_design(const std::string& grounding, const std::string& poles) {
  Json design = put(sound_design(), "/inverters/I/grounding", grounding);
  return poles.empty() ? without(design, fuse + "/poles") : put(design, fuse + "/poles", poles);
}

void check_words(const Finding* f, Severity severity, const char* found, const char* required,
                 std::string_view section) {
  REQUIRE(f != nullptr);
  CHECK(f->severity == severity);
  CHECK(std::get<std::string>(f->found) == found);
  CHECK(std::get<std::string>(f->required) == required);
  CHECK(f->unit.empty());
  CHECK(f->section == section);
  CHECK(says(*f, "A-01"));
}

}  // namespace

TEST_CASE("a fuse that is not rated for direct current") {
  const Words section{"690.9(D)", "690.9(D)", "690.9(C)", "690.9(B)", "690.9(B)", "690.9(B)"};
  for (std::size_t e = 0; e < edition_names.size(); ++e) {
    CAPTURE(edition_names[e]);
    const auto judged = judge(put(sound_design(), fuse + "/dc", false), edition_names[e]);
    CHECK(judged->summary() == std::vector<std::string>{"fuse/not-dc hazard fuse"});
    check_words(judged->find("fuse/not-dc"), Severity::hazard, "not rated for DC", "rated for DC",
                section[e]);
    CHECK(severity_of(put(sound_design(), fuse + "/dc", true), "fuse/not-dc", edition_names[e]) == "none");
    check_missing(sound_design(), {{fuse + "/dc", "fuse/not-dc", "fuse/dc"}}, edition_names[e]);
  }
}

TEST_CASE("a fuse that is not listed for PV, from the 2014 edition on") {
  const Words section{"", "", "690.9(D)", "690.9(B)", "690.9(B)", "690.9(B)"};
  const std::string listed = fuse + "/pv_listed";
  for (std::size_t e = 0; e < edition_names.size(); ++e) {
    CAPTURE(edition_names[e]);
    const auto judged = judge(put(sound_design(), listed, false), edition_names[e]);
    if (section[e].empty()) {
      CHECK(judged->summary().empty());
      CHECK(judge(without(sound_design(), listed), edition_names[e])->summary().empty());
      continue;
    }
    CHECK(judged->summary() == std::vector<std::string>{"fuse/not-pv-listed correction fuse"});
    check_words(judged->find("fuse/not-pv-listed"), Severity::correction, "not listed for PV",
                "listed for PV", section[e]);
    check_missing(sound_design(), {{listed, "fuse/not-pv-listed", "fuse/pv_listed"}}, edition_names[e]);
  }
}

TEST_CASE("a local amendment turns what is asked on or off, and the finding says so") {
  const std::string asked = "/code/amendments/overcurrent/pv_listing/asked";
  CHECK(judge(put(put(sound_design(), fuse + "/pv_listed", false), asked, false))->summary().empty());
  const Json both =
      put(poles_design("ungrounded", "one"), "/code/amendments/overcurrent/poles/both_if_ungrounded", true);
  const auto judged = judge(both);
  const Finding* f = judged->find("fuse/poles");
  REQUIRE(f != nullptr);
  CHECK(f->severity == Severity::correction);
  CHECK(f->amended == std::vector<std::string>{"overcurrent.poles.both_if_ungrounded"});
}

TEST_CASE("poles that are fused, by grounding and edition") {
  struct Row {
    const char *grounding, *poles;
    Words severity;
  };
  const std::string_view N = "none", H = "hazard", C = "correction", Q = "query";
  const Words never{N, N, N, N, N, N}, all_hazard{H, H, H, H, H, H}, all_query{Q, Q, Q, Q, Q, Q};
  for (const Row& r : std::vector<Row>{{"solid", "one", never},
                                       {"solid", "both", all_hazard},
                                       {"solid", "", all_query},
                                       {"ungrounded", "one", {C, C, C, N, N, N}},
                                       {"ungrounded", "both", never},
                                       {"ungrounded", "", {Q, Q, Q, N, N, N}},
                                       {"functional", "one", never},
                                       {"functional", "both", never},
                                       {"functional", "", never}})
    for (std::size_t e = 0; e < edition_names.size(); ++e) {
      CAPTURE(r.grounding, r.poles, edition_names[e]);
      CHECK(severity_of(poles_design(r.grounding, r.poles), "fuse/poles", edition_names[e]) == r.severity[e]);
    }
}

TEST_CASE("what is said of fuses in the wrong poles") {
  const std::string_view old = "690.35(B), 240.22", since_2017 = "690.9(C), 240.22";
  const Words section{old, old, old, since_2017, since_2017, since_2017};
  for (std::size_t e = 0; e < edition_names.size(); ++e) {
    CAPTURE(edition_names[e]);
    const auto solid = judge(poles_design("solid", "both"), edition_names[e]);
    check_words(solid->find("fuse/poles", "fuse"), Severity::hazard, "both poles", "the ungrounded pole only",
                section[e]);
    if (e > 2) continue;
    const auto ungrounded = judge(poles_design("ungrounded", "one"), edition_names[e]);
    check_words(ungrounded->find("fuse/poles", "fuse"), Severity::correction, "one pole", "both poles",
                section[e]);
  }
}

TEST_CASE("poles or grounding not stated make one query") {
  for (const std::string_view edition : edition_names)
    check_missing(sound_design(),
                  {{fuse + "/poles", "fuse/poles", "fuse/poles"},
                   {"/inverters/I/grounding", "fuse/poles", "inverters/I/grounding"}},
                  edition);
}

TEST_CASE("a hot box without a re-rating factor for its fuses") {
  const Words section{"110.3(B)", "690.8(B)(1)(c)", "110.3(B)", "110.3(B)", "110.3(B)", "110.3(B)"};
  const std::string inside = "/combiners/0/enclosure/inside_c";
  for (std::size_t e = 0; e < edition_names.size(); ++e) {
    CAPTURE(edition_names[e]);
    check_limit({"fuse/heat",
                 "fuse",
                 "query",
                 "°C",
                 section[e],
                 sound_design(),
                 inside,
                 Stated::at_most,
                 40,
                 55,
                 {"55", "40"},
                 true,
                 edition_names[e]});
    check_missing(sound_design(), {{inside, "fuse/heat", "enclosure/inside_c"}}, edition_names[e]);
  }
  // With the factor there is nothing to ask, hot or not, stated or not.
  const Json factor = with_box({{"fuse", {{"a", 20}, {"ambient_factor", 0.8}}}});
  CHECK(severity_of(put(factor, inside, 70), "fuse/heat") == "none");
  CHECK(severity_of(without(factor, inside), "fuse/heat") == "none");
}

TEST_CASE("a box without fuses has none of the wrong kind") {
  // One string alone needs no fuse; on a box that is hot, and whatever the grounding.
  Json design = with_fitting_labels(with_circuit({{"strings", 1}}));
  design["combiners"][0].erase("fuse");
  design["combiners"][0]["enclosure"]["inside_c"] = 70;
  design["combiners"][0]["labels"].push_back({{"kind", "ungrounded-system"}});
  for (const char* grounding : {"solid", "ungrounded"})
    for (const std::string_view edition : edition_names) {
      CAPTURE(grounding, edition);
      CHECK(judge(put(design, "/inverters/I/grounding", grounding), edition)->summary().empty());
    }
}

TEST_CASE("a fuse of which nothing is stated is asked for each value once") {
  const auto judged = judge(put(sound_design(), fuse, Json::object()));
  CHECK(judged->summary() ==
        std::vector<std::string>{"fuse/not-dc query fuse/dc", "fuse/not-pv-listed query fuse/pv_listed",
                                 "fuse/poles query fuse/poles", "fuse/too-small query fuse/a",
                                 "voltage/equipment-rating query fuse/v"});
}
