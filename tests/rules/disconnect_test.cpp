// Whether a disconnect is needed and of which kind, by edition, place, current and fuses. 2008: none. 2011:
// 690.16(B), fused boxes. 2014: 690.15(C) on roofs, else as 2011. From 2017 on 690.15: an equipment
// disconnect above 30 A, an isolating device up to it. (Trade press for 2011, 2014 and 2017; 2020 and 2023
// from memory, unverified.)
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view missing = "disconnect/missing", not_load_break = "disconnect/not-load-break";

// Two strings: 2 · 1.25 · Isc, so 12 A makes exactly 30 A.
constexpr double at_30_a = 12, over_30_a = 12.0001;

struct Case {
  std::string_view edition, place;
  bool fused;
  double isc;
};

// Every edition, place, fused or not, at and just over 30 A.
std::vector<Case> every_case() {
  std::vector<Case> out;
  for (std::string_view edition : edition_names)
    for (std::string_view place : {"roof", "wall", "ground"})
      for (bool fused : {true, false})
        for (double isc : {at_30_a, over_30_a}) out.push_back({edition, place, fused, isc});
  return out;
}

Json design_of(const Case& c) {
  Json design = with_box({{"mounting", {{"place", c.place}}}});
  design["combiners"][0]["circuits"][0]["strings"] = 2;
  design["modules"]["M"]["isc_a"] = c.isc;
  if (!c.fused) design["combiners"][0].erase("fuse");
  return design;
}

enum class Asked { nothing, isolating, load_break };

Asked asked(const Case& c) {
  if (c.edition == "2008") return Asked::nothing;
  if (c.edition == "2014" && c.place == "roof") return Asked::load_break;
  if (c.edition <= "2014") return c.fused ? Asked::isolating : Asked::nothing;
  return c.isc > at_30_a ? Asked::load_break : Asked::isolating;
}

}  // namespace

TEST_CASE("a disconnect that is needed and not there") {
  for (const Case& c : every_case()) {
    CAPTURE(c.edition, c.place, c.fused, c.isc);
    Json design = design_of(c);
    design["combiners"][0].erase("disconnect");
    const auto judged = judge(design, c.edition);
    const Finding* f = judged->find(missing);
    switch (asked(c)) {
      case Asked::nothing: CHECK(f == nullptr); break;
      case Asked::load_break:
        REQUIRE(f != nullptr);
        CHECK(f->severity == Severity::correction);
        CHECK(std::get<std::string>(f->required) == "load-break disconnect");
        CHECK(f->ask == "Provide a disconnect rated to break the output's current at its voltage.");
        break;
      case Asked::isolating:  // holders that isolate their fuses would serve, which the plan does not say
        REQUIRE(f != nullptr);
        CHECK(f->severity == (c.fused ? Severity::query : Severity::correction));
        CHECK(std::get<std::string>(f->required) == "isolating device");
        CHECK(f->ask.empty());  // the rule's remedy, which speaks of the isolating device
        CHECK((f->message.find("fuse holders") != std::string::npos) == c.fused);
    }
    if (f != nullptr) {
      CHECK(std::get<std::string>(f->found) == "none");
      CHECK(f->part == "disconnect");
      CHECK(f->place.pointer == "/combiners/0");
    }
    // The other rules on disconnects have nothing to look at.
    for (std::string_view rule : {"disconnect/not-load-break", "disconnect/too-far",
                                  "disconnect/current-rating", "disconnect/handle"})
      CHECK(judged->find(rule) == nullptr);
  }
}

TEST_CASE("null is no disconnect, and a disconnect that is there is not missing") {
  CHECK(severity_of(with_box({{"disconnect", nullptr}}), missing) == "correction");
  for (const Case& c : every_case()) {
    CAPTURE(c.edition, c.place, c.fused, c.isc);
    CHECK(severity_of(design_of(c), missing, c.edition) == "none");
  }
}

TEST_CASE("an isolating switch where a load-break one is needed") {
  for (const Case& c : every_case()) {
    CAPTURE(c.edition, c.place, c.fused, c.isc);
    const bool needed = asked(c) == Asked::load_break;
    Json design = design_of(c);
    CHECK(severity_of(design, not_load_break, c.edition) == "none");
    Json& load_break = design["combiners"][0]["disconnect"]["load_break"];
    load_break = false;
    const auto judged = judge(design, c.edition);
    const Finding* f = judged->find(not_load_break);
    CHECK(severity_name(f) == (needed ? "hazard" : "none"));
    if (f != nullptr) {
      CHECK(std::get<std::string>(f->found) == "isolating");
      CHECK(std::get<std::string>(f->required) == "load-break");
      CHECK(f->place.pointer == "/combiners/0/disconnect/load_break");
    }
    design["combiners"][0]["disconnect"].erase("load_break");
    const auto unstated = judge(design, c.edition);
    const Finding* query = unstated->find(not_load_break);
    CHECK(severity_name(query) == (needed ? "query" : "none"));
    if (query != nullptr) CHECK(query->part == "disconnect/load_break");
  }
}

TEST_CASE("2014 needs to know whether the box is on a roof, the other editions do not") {
  for (std::string_view edition : edition_names)
    for (bool there : {true, false}) {
      CAPTURE(edition, there);
      Json design = sound_design();
      design["combiners"][0]["mounting"].erase("place");
      if (!there) design["combiners"][0].erase("disconnect");
      const auto judged = judge(design, edition);
      unsigned queries = 0;
      for (const Finding& f : judged->findings()) {
        if (f.part != "mounting/place") continue;
        ++queries;
        CHECK(f.severity == Severity::query);
        const bool asks = f.message.find("disconnect/") != std::string::npos;
        CHECK(asks == (edition == "2014"));
        if (edition == "2014") CHECK(f.message.find(there ? not_load_break : missing) != std::string::npos);
      }
      CHECK(queries == 1);  // conductor/insulation asks in every edition
      if (!there && edition == "2014") CHECK(judged->find(missing) == nullptr);
    }
}

TEST_CASE("as built, a disconnect that is not there is missing") {
  const Json record = {{"format", "boxproof-asbuilt/1"},
                       {"boxes", {{{"id", "A-01"}, {"disconnect", {{"present", false}}}}}}};
  const auto judged = judge(sound_design(), {}, record);
  const Finding* f = judged->find(missing);
  REQUIRE(f != nullptr);
  CHECK(f->severity == Severity::correction);
  CHECK(f->basis == Basis::as_built);
}
