// Ground-fault and arc-fault protection and rapid shutdown. 690.5, 690.35(C) and 690.45(B) up to 2014,
// 690.41(B) since: two strings in parallel at most, off buildings, solidly grounded, are excepted. 690.11
// from 2011 on, from 80 V; 690.12 from 2014 on, on buildings.
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view ground_rule = "protection/ground-fault", arc_rule = "protection/arc-fault",
                           shutdown_rule = "protection/rapid-shutdown";

// The sound design for this use of the site and with these keys of the inverter; null removes a key.
Json system(std::string_view use, const Json& inverter = Json::object()) {
  Json design = sound_design();
  design["site"]["use"] = use;
  design["inverters"]["I"].merge_patch(inverter);
  if (use == "ground") design["combiners"][0]["mounting"]["place"] = "ground";
  return design;
}
Json with_strings(Json design, int strings) {
  design["combiners"][0]["circuits"][0]["strings"] = strings;
  return design;
}
bool asks(const Json& design, std::string_view rule, std::string_view key, std::string_view edition) {
  const auto judged = judge(design, edition);
  for (const Finding& f : judged->findings())
    if (f.box_id == "A-01" && f.part == key && f.message.find(rule) != std::string::npos)
      return f.severity == Severity::query;
  return false;
}
bool says(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

// Ground fault protection that is not there, on a ground-mounted site.
Json unprotected(int strings, const Json& grounding) {
  return with_strings(system("ground", {{"ground_fault_protection", false}, {"grounding", grounding}}),
                      strings);
}

}  // namespace

TEST_CASE("ground fault: needed in every edition on every site, under the section of its array") {
  for (std::string_view edition : edition_names)
    for (std::string_view use : use_names)
      for (std::string_view grounding : {"solid", "ungrounded", "functional"}) {
        CAPTURE(edition, use, grounding);
        const bool older = edition <= "2014";
        const auto judged =
            judge(system(use, {{"ground_fault_protection", false}, {"grounding", grounding}}), edition);
        const Finding* f = judged->find(ground_rule);
        check_words(f, "none", "ground-fault protection",
                    !older                      ? "690.41(B)"
                    : grounding == "solid"      ? "690.5"
                    : grounding == "ungrounded" ? "690.35(C)"
                                                : "690.5, 690.35(C)");
        CHECK(f->severity == Severity::correction);
        CHECK(f->box_id == "A-01");
        CHECK(f->part == "inverter I");
        CHECK(f->place.pointer == "/inverters/I/ground_fault_protection");
        // Larger grounding conductors instead: up to 2014, grounded arrays, not on dwellings.
        const bool larger = older && use != "dwelling" && grounding != "ungrounded";
        CHECK(says(f->ask, "690.45(B)") == larger);
        CHECK(says(f->ask, "at least 2 times") == larger);
        CHECK(severity_of(system(use, {{"grounding", grounding}}), ground_rule, edition) == "none");
      }
}

TEST_CASE(
    "ground fault: two strings off buildings on a solidly grounded inverter are excepted, three are not") {
  for (std::string_view edition : edition_names) {
    CAPTURE(edition);
    CHECK(severity_of(unprotected(1, "solid"), ground_rule, edition) == "none");
    CHECK(severity_of(unprotected(2, "solid"), ground_rule, edition) == "none");
    CHECK(severity_of(unprotected(3, "solid"), ground_rule, edition) == "correction");
    CHECK(severity_of(unprotected(2, "ungrounded"), ground_rule, edition) == "correction");
    for (std::string_view use : {"building", "dwelling"}) {
      Json design = unprotected(2, "solid");
      design["site"]["use"] = use;
      CHECK(severity_of(design, ground_rule, edition) == "correction");
    }
  }
}

TEST_CASE("ground fault: the strings of all boxes of the inverter count, and of no other") {
  const Json two = unprotected(2, "solid");
  std::size_t found = 0;
  const auto judged = judge(with_second_box(two));
  for (const Finding& f : judged->findings()) found += f.rule->id == ground_rule;
  CHECK(found == 2);
  CHECK(severity_of(with_second_box(unprotected(1, "solid")), ground_rule) == "none");
  Json other = with_second_box(two, {{"inverter", "J"}});
  other["inverters"]["J"] = other["inverters"]["I"];
  CHECK(severity_of(other, ground_rule) == "none");
}

TEST_CASE("ground fault: what is not stated is asked where it decides") {
  constexpr std::string_view own = "inverters/I/ground_fault_protection", grounding = "inverters/I/grounding";
  const Json missing = {{"ground_fault_protection", nullptr}};
  for (std::string_view edition : edition_names) {
    CAPTURE(edition);
    for (std::string_view use : use_names) CHECK(asks(system(use, missing), ground_rule, own, edition));
    CHECK_FALSE(asks(with_strings(system("ground", missing), 2), ground_rule, own, edition));  // excepted
    CHECK(asks(with_strings(system("ground", missing), 3), ground_rule, own, edition));
    // The grounding decides only where the exception could apply.
    CHECK(asks(unprotected(2, nullptr), ground_rule, grounding, edition));
    CHECK(severity_of(unprotected(3, nullptr), ground_rule, edition) == "correction");
    CHECK_FALSE(asks(unprotected(3, nullptr), ground_rule, grounding, edition));
    Json has = unprotected(2, nullptr);
    has["inverters"]["I"]["ground_fault_protection"] = true;
    CHECK_FALSE(asks(has, ground_rule, grounding, edition));
  }
}

TEST_CASE("ground fault: functional grounding decides nothing in an edition that does not know the word") {
  for (std::string_view edition : edition_names) {
    CAPTURE(edition);
    const auto judged = judge(unprotected(2, "functional"), edition);
    const Finding* f = judged->find(ground_rule);
    CHECK(severity_name(f) == (edition <= "2014" ? "query" : "correction"));
    if (edition <= "2014") CHECK(f->place.pointer == "/inverters/I/grounding");
  }
}

TEST_CASE("as built: a third string takes the exception away") {
  const Json record = {{"format", "boxproof-asbuilt/1"},
                       {"boxes", {{{"id", "A-01"}, {"count", {{"positive", 3}, {"negative", 3}}}}}}};
  const auto judged = judge(unprotected(2, "solid"), {}, record);
  const Finding* f = judged->find(ground_rule);
  REQUIRE(f != nullptr);
  CHECK(f->basis == Basis::as_built);
}

TEST_CASE("arc fault: by edition and site") {
  for (std::string_view edition : edition_names)
    for (std::string_view use : use_names) {
      CAPTURE(edition, use);
      const bool entering = edition == "2011" && use == "ground";  // only circuits that enter a building
      const bool needed = edition >= "2011" && !entering;
      const auto judged = judge(system(use, {{"arc_fault_protection", false}}), edition);
      const Finding* f = judged->find(arc_rule);
      CHECK(severity_name(f) == (needed ? "correction" : entering ? "query" : "none"));
      if (entering) {
        for (const Json& state : {Json(false), Json()}) {
          const auto asked = judge(system(use, {{"arc_fault_protection", state}}), edition);
          const Finding* q = asked->find(arc_rule);
          check_words(q, state.is_null() ? "not stated" : "none",
                      "arc-fault protection from 80 V on, for circuits that enter a building", "690.11");
          CHECK(q->severity == Severity::query);
          CHECK(q->place.pointer == (state.is_null() ? "/inverters/I" : "/inverters/I/arc_fault_protection"));
          CHECK(says(q->message, "the 2011 edition asks for it where circuits enter one: do they?"));
        }
      } else if (f != nullptr) {
        check_words(f, "none", "arc-fault protection from 80 V on", "690.11");
        CHECK(f->part == "inverter I");
        CHECK(f->place.pointer == "/inverters/I/arc_fault_protection");
        CHECK(says(f->message, "metal raceway") == (edition >= "2017" && use == "ground"));
      }
      CHECK(asks(system(use, {{"arc_fault_protection", nullptr}}), arc_rule,
                 "inverters/I/arc_fault_protection", edition) == needed);
      CHECK(severity_of(system(use), arc_rule, edition) == "none");
    }
}

TEST_CASE("arc fault: from 80 V on") {
  // One module at 25 °C, where its open-circuit voltage is that of the string.
  const auto at = [](double volts) {
    Json design = system("building", {{"arc_fault_protection", false}});
    design["site"]["low_c"] = 25;
    design["modules"]["M"].merge_patch({{"voc_v", volts}});
    design["combiners"][0]["circuits"][0]["series"] = 1;
    return design;
  };
  for (std::string_view edition : {"2011", "2014", "2017", "2020", "2023"}) {
    CAPTURE(edition);
    CHECK(severity_of(at(79.9), arc_rule, edition) == "none");
    CHECK(severity_of(at(80), arc_rule, edition) == "correction");
    CHECK(severity_of(at(80.1), arc_rule, edition) == "correction");
  }
  Json below = at(79.9);
  below["inverters"]["I"].erase("arc_fault_protection");
  CHECK(severity_of(below, arc_rule) == "none");  // nothing to ask either
  CHECK(says(judge(at(80.1))->find(arc_rule)->message, "reach 80.1 V, and it is asked for from 80 V on"));
}

TEST_CASE("arc fault: where the highest voltage is not known, that at 25 °C is the least it can be") {
  const auto unknown = [](double volts, const Json& protection, const char* missing = "/site/low_c") {
    Json design = system("building", {{"arc_fault_protection", protection}});
    design["modules"]["M"]["voc_v"] = volts;
    design["combiners"][0]["circuits"][0]["series"] = 2;
    Json patch = Json::object();
    patch[Json::json_pointer(missing)] = nullptr;
    design.merge_patch(patch);
    return design;
  };
  for (std::string_view edition : {"2011", "2014", "2017", "2020", "2023"}) {
    CAPTURE(edition);
    for (double volts : {40.0, 40.1}) {
      CHECK(severity_of(unknown(volts, false), arc_rule, edition) == "correction");
      CHECK(asks(unknown(volts, nullptr), arc_rule, "inverters/I/arc_fault_protection", edition));
      CHECK_FALSE(asks(unknown(volts, false), arc_rule, "site/low_c", edition));
    }
    CHECK(severity_of(unknown(39.9, false), arc_rule, edition) == "none");
    CHECK(asks(unknown(39.9, false), arc_rule, "site/low_c", edition));
    CHECK(asks(unknown(39.9, nullptr), arc_rule, "site/low_c", edition));
    CHECK_FALSE(asks(unknown(39.9, true), arc_rule, "site/low_c", edition));
  }
  CHECK(says(judge(unknown(40, false))->find(arc_rule)->message, "reach at least 80 V, and it is asked for"));
  const auto worked = judge(unknown(40, false), {}, nullptr, {{}, true});
  REQUIRE(worked->find(arc_rule)->working.size() == 1);
  CHECK(worked->find(arc_rule)->working[0].formula == "n · Voc");
  CHECK(worked->find(arc_rule)->working[0].value == 80);
  CHECK(judge(unknown(40, false))->find("voltage/no-factor") != nullptr);
  // A coefficient that is wanting is asked for in the same way.
  Json thin = unknown(39.9, false, "/modules/M/voc_coeff_pct_per_c");
  thin["modules"]["M"]["cell"] = "thin-film";
  CHECK(asks(thin, arc_rule, "modules/M/voc_coeff_pct_per_c", "2017"));
}

TEST_CASE("arc fault: of two groups the one that is not known may be the higher") {
  Json design = system("building", {{"arc_fault_protection", false}});
  Json second = design["combiners"][0]["circuits"][0];
  second["id"] = "2";
  second["module"] = "N";
  design["modules"]["N"] = design["modules"]["M"];
  design["modules"]["N"].erase("voc_coeff_pct_per_c");
  design["modules"]["N"]["cell"] = "thin-film";
  design["combiners"][0]["circuits"][0]["series"] = 2;  // 60 V · 1.105
  design["combiners"][0]["circuits"].push_back(second);
  CHECK(says(judge(design)->find(arc_rule)->message, "reach at least 540 V"));  // 18 · 30 V
}

TEST_CASE("rapid shutdown: on buildings from 2014 on") {
  for (std::string_view edition : edition_names)
    for (std::string_view use : use_names) {
      CAPTURE(edition, use);
      const bool needed = edition >= "2014" && use != "ground";
      const auto judged = judge(system(use, {{"rapid_shutdown", false}}), edition);
      const Finding* f = judged->find(shutdown_rule);
      CHECK(severity_name(f) == (needed ? "correction" : "none"));
      if (f != nullptr) {
        CHECK(f->section == "690.12");
        CHECK(f->part == "inverter I");
        CHECK(f->place.pointer == "/inverters/I/rapid_shutdown");
      }
      CHECK(asks(system(use, {{"rapid_shutdown", nullptr}}), shutdown_rule, "inverters/I/rapid_shutdown",
                 edition) == needed);
      CHECK(severity_of(system(use), shutdown_rule, edition) == "none");
    }
}

TEST_CASE("rapid shutdown: the finding carries the edition's numbers") {
  const auto finding = [](std::string_view edition) {
    const auto judged = judge(system("building", {{"rapid_shutdown", false}}), edition);
    return *judged->find(shutdown_rule);
  };
  const Finding first = finding("2014");
  CHECK(says(first.message,
             "conductors more than 3 m from the array (1.5 m inside a building) must come down to 30 V and "
             "240 VA within 10 s."));
  CHECK(says(first.ask, "A proposed amendment of 2016 to this edition said 30 s"));
  CHECK(says(first.ask, "its incoming PV source circuits are controlled too"));
  for (std::string_view edition : {"2017", "2020", "2023"}) {
    CAPTURE(edition);
    const Finding f = finding(edition);
    CHECK(says(f.message,
               "conductors more than 0.3 m from the array must come down to 30 V within 30 s, nearer ones to "
               "80 V within 30 s."));
    CHECK_FALSE(says(f.ask, "proposed amendment"));
    CHECK(says(f.ask, "a listed rapid-shutdown array") == (edition == "2017"));
    CHECK(says(f.ask, "a listed PV hazard control system") == (edition >= "2020"));
    CHECK(says(f.ask, "carports") == (edition == "2023"));
    CHECK(says(f.ask, "Where the box is more than 0.3 m from the array its incoming"));
  }
  CHECK(says(finding("2023").ask, "PV string circuits"));  // the edition's own term
}
