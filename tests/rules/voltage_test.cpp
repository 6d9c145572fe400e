// Voltage rules at their limits. By hand: the sound string reaches 18 · 30 V · (1 + 0.3 % · 35) = 596.7 V at
// −10 °C; it works at 18 · 25 V · (1 − 0.4 % · 41) = 376.2 V with cells at 36 + 30 °C, and at 18 · 25 · (1 +
// 0.4 % · 35) = 513 V at −10 °C.
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/limit_case.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const std::string box = "/combiners/0";
using Editions = std::array<double, 6>;

}  // namespace

TEST_CASE("the string's voltage against every part that it reaches") {
  const Json sound = sound_design();
  const std::vector<std::string_view> numbers{"596.7", "590"};
  const std::string_view listing = "110.3(B)", parts = "110.4, 110.3(B)";
  for (const std::string_view edition : edition_names)
    for (const LimitCase& limit :
         std::vector<LimitCase>{{"voltage/module-rating", "circuit 1", "hazard", "V", listing, sound,
                                 "/modules/M/max_system_v", Stated::at_least, 596.7, 590, numbers},
                                {"voltage/inverter-input", "inverter I", "hazard", "V", listing, sound,
                                 "/inverters/I/max_dc_v", Stated::at_least, 596.7, 590, numbers},
                                {"voltage/equipment-rating", "fuse", "hazard", "V", parts, sound,
                                 box + "/fuse/v", Stated::at_least, 596.7, 590, numbers},
                                {"voltage/equipment-rating", "disconnect", "hazard", "V", parts, sound,
                                 box + "/disconnect/rated_v", Stated::at_least, 596.7, 590, numbers},
                                {"voltage/equipment-rating", "enclosure", "hazard", "V", parts, sound,
                                 box + "/enclosure/rated_v", Stated::at_least, 596.7, 590, numbers},
                                {"voltage/equipment-rating", "circuit 1 conductor", "hazard", "V", parts,
                                 sound, "/conductors/string/rated_v", Stated::at_least, 596.7, 590, numbers},
                                {"voltage/equipment-rating", "output conductor", "hazard", "V", parts, sound,
                                 "/conductors/feeder/rated_v", Stated::at_least, 596.7, 590, numbers}}) {
      LimitCase of_edition = limit;
      of_edition.edition = edition;
      check_limit(of_edition);
    }
}

TEST_CASE("an amended site limit is held to the same slack") {
  check_limit({"voltage/site-limit",
               "circuit 1",
               "hazard",
               "V",
               "690.7",
               sound_design(),
               "/code/amendments/voltage/limits/building/max_v",
               Stated::at_least,
               596.7,
               590,
               {"596.7", "590"}});
}

TEST_CASE("a finding under an amended limit names the amended key") {
  const auto judged = judge(put(sound_design(), "/code/amendments/voltage/limits/building/max_v", 590));
  const Finding* f = judged->find("voltage/site-limit");
  REQUIRE(f != nullptr);
  CHECK(f->amended == std::vector<std::string>{"voltage.limits.building.max_v"});
}

TEST_CASE("a site off buildings with a box on or in one is queried") {
  for (const std::string_view edition : edition_names)
    for (const char* use : {"dwelling", "building", "ground"})
      for (const char* place : {"roof", "wall", "ground", "indoor"}) {
        CAPTURE(edition, use, place);
        Json design = with_box({{"mounting", {{"place", place}}}});
        design["site"]["use"] = use;
        const bool doubtful =
            use == std::string("ground") && place != std::string("wall") && place != std::string("ground");
        const auto judged = judge(design, edition);
        const Finding* f = judged->find("voltage/site-limit", "use");
        CHECK((f != nullptr) == doubtful);
        if (f == nullptr) continue;
        CHECK(f->severity == Severity::query);
        CHECK(f->place.pointer == "/site/use");
        CHECK(f->message ==
              std::string("The plan says that the site is not on or in a building, and A-01 stands ") +
                  (place == std::string("roof") ? "on a roof" : "indoors") + ": which of the two is it?");
        for (const char* hangs : {"site limit", "ground-fault", "arc-fault", "rapid shutdown", "labels"})
          CHECK(f->ask.find(hangs) != std::string::npos);
      }
  // The voltage is judged all the same: 18 · 30 V · 1.105 = 596.7 V, at 52 V 1034.3 V.
  Json high = with({{"site", {{"use", "ground"}}}, {"modules", {{"M", {{"voc_v", 52}}}}}});
  CHECK(severity_of(high, "voltage/site-limit", "2014", "circuit 1") == "correction");
  CHECK(severity_of(high, "voltage/site-limit", "2014", "use") == "query");
  // Nothing is known where the box stands: enclosure/type asks for that.
  high["combiners"][0]["mounting"].erase("place");
  CHECK(severity_of(high, "voltage/site-limit", "2014", "use") == "none");
}

TEST_CASE("the edition's limit by where the array stands: a ban is a hazard, a threshold a correction") {
  struct Row {
    const char* use;
    Editions limit;
    std::array<const char*, 6> severity, section;
  };
  const char *H = "hazard", *C = "correction", *part_ix = "690.7(C), Part IX";
  for (const Row& r :
       std::vector<Row>{{"dwelling",
                         {600, 600, 600, 600, 600, 600},
                         {H, H, H, H, H, H},
                         {"690.7(C)", "690.7(C)", "690.7(C)", "690.7", "690.7", "690.7(2)"}},
                        {"building",
                         {600, 600, 1000, 1000, 1000, 1000},
                         {C, C, C, H, H, H},
                         {part_ix, part_ix, part_ix, "690.7", "690.7", "690.7(1)"}},
                        {"ground",
                         {600, 600, 1000, 1500, 1500, 1000},
                         {C, C, C, C, C, C},
                         {part_ix, part_ix, part_ix, "690.7", "690.7", "690.7(3), 690.31(G)"}}})
    for (std::size_t e = 0; e < edition_names.size(); ++e) {
      CAPTURE(r.use, edition_names[e]);
      // 20 modules at 25 °C, where the factor is 1: a twentieth of the limit each lands on it.
      Json design = with({{"site", {{"use", r.use}, {"low_c", 25}}}});
      design["combiners"][0]["circuits"][0]["series"] = 20;
      if (r.use == std::string("ground")) design["combiners"][0]["mounting"]["place"] = "ground";
      const auto at = [&](double times) { return put(design, "/modules/M/voc_v", r.limit[e] / 20 * times); };
      for (const double silent : {0.999, 1.0, 1 + 5e-10})
        CHECK(severity_of(at(silent), "voltage/site-limit", edition_names[e]) == "none");
      CHECK(severity_of(at(1 + 2e-9), "voltage/site-limit", edition_names[e]) == r.severity[e]);
      const auto judged = judge(at(1.01), edition_names[e]);
      const Finding* f = judged->find("voltage/site-limit", "circuit 1");
      REQUIRE(f != nullptr);
      CHECK(severity_names[static_cast<std::size_t>(f->severity)] == r.severity[e]);
      CHECK_THAT(std::get<double>(f->found), Catch::Matchers::WithinRel(r.limit[e] * 1.01, 1e-13));
      CHECK(std::get<double>(f->required) == r.limit[e]);
      CHECK(f->unit == "V");
      CHECK(f->section == r.section[e]);
      CHECK(says(*f, std::to_string(static_cast<int>(r.limit[e])) + " V"));
      CHECK(says(*f, std::to_string(static_cast<int>(r.limit[e] * 1.01 + 0.5)) + " V"));
    }
}

TEST_CASE("the box's highest string speaks, and a string's own wire is held to that string") {
  Json design = sound_design();
  Json longer = design["combiners"][0]["circuits"][0];
  longer["id"] = "2";
  longer["series"] = 20;  // 663 V
  longer["strings"] = 1;
  longer["run"]["conductor"] = "other";
  design["combiners"][0]["circuits"].push_back(longer);
  design["conductors"]["other"] = design["conductors"]["string"];
  for (const char* pointer : {"/inverters/I/max_dc_v", "/combiners/0/fuse/v"}) {
    const auto judged = judge(put(design, pointer, 600));
    const bool inverter = std::string_view(pointer).substr(1, 9) == "inverters";
    const Finding* f = judged->find(inverter ? "voltage/inverter-input" : "voltage/equipment-rating");
    REQUIRE(f != nullptr);
    CHECK_THAT(std::get<double>(f->found), Catch::Matchers::WithinRel(663, 1e-13));
    CHECK(says(*f, "circuit 2"));
  }
  // Each group against its own module: only circuit 2 is above 620 V.
  const auto module = judge(put(design, "/modules/M/max_system_v", 620));
  CHECK(module->find("voltage/module-rating", "circuit 1") == nullptr);
  CHECK(module->find("voltage/module-rating", "circuit 2") != nullptr);
  // A 600 V wire does on the short strings, and not on the long ones.
  CHECK(judge(put(design, "/conductors/string/rated_v", 600))->find("voltage/equipment-rating") == nullptr);
  CHECK(judge(put(design, "/conductors/other/rated_v", 600))
            ->find("voltage/equipment-rating", "circuit 2 conductor") != nullptr);
}

TEST_CASE("equipment: one finding for each part") {
  Json design = sound_design();
  for (const char* pointer :
       {"/combiners/0/fuse/v", "/combiners/0/disconnect/rated_v", "/combiners/0/enclosure/rated_v",
        "/conductors/string/rated_v", "/conductors/feeder/rated_v"})
    design = put(design, pointer, 500);
  const std::string rule = "voltage/equipment-rating hazard ";
  CHECK(judge(design)->summary() == std::vector<std::string>{rule + "fuse", rule + "disconnect",
                                                             rule + "enclosure", rule + "circuit 1 conductor",
                                                             rule + "output conductor"});
  // A part that is not there has no rating to exceed.
  design["combiners"][0].erase("disconnect");
  CHECK(judge(design)->find("voltage/equipment-rating", "disconnect") == nullptr);
}

TEST_CASE("the tracking window at its two ends") {
  const Json sound = sound_design();
  check_limit({"voltage/tracking-window",
               "hot end",
               "advice",
               "V",
               "common practice",
               sound,
               "/inverters/I/mppt_min_v",
               Stated::at_most,
               376.2,
               400,
               {"376.2", "400"}});
  check_limit({"voltage/tracking-window",
               "cold end",
               "advice",
               "V",
               "common practice",
               sound,
               "/inverters/I/mppt_max_v",
               Stated::at_least,
               513,
               500,
               {"513", "500"}});
  // Without a coefficient of Vmp it is silent, however narrow the window; that of Voc is no substitute.
  Json narrow = put(put(sound, "/inverters/I/mppt_min_v", 449), "/inverters/I/mppt_max_v", 451);
  CHECK(judge(narrow)->summary().size() == 2);
  CHECK(judge(without(narrow, "/modules/M/vmp_coeff_pct_per_c"))->summary().empty());
}

TEST_CASE("a voltage that is not stated makes one query") {
  check_missing(sound_design(),
                {{"/site/low_c", "voltage/no-factor", "site/low_c"},
                 {"/modules/M/max_system_v", "voltage/module-rating", "modules/M/max_system_v"},
                 {"/inverters/I/max_dc_v", "voltage/inverter-input", "inverters/I/max_dc_v"},
                 {"/inverters/I/mppt_min_v", "voltage/tracking-window", "inverters/I/mppt_min_v"},
                 {"/inverters/I/mppt_max_v", "voltage/tracking-window", "inverters/I/mppt_max_v"},
                 {"/modules/M/vmp_v", "voltage/tracking-window", "modules/M/vmp_v"},
                 {"/combiners/0/fuse/v", "voltage/equipment-rating", "fuse/v"},
                 {"/combiners/0/disconnect/rated_v", "voltage/equipment-rating", "disconnect/rated_v"},
                 {"/combiners/0/enclosure/rated_v", "voltage/equipment-rating", "enclosure/rated_v"},
                 {"/conductors/string/rated_v", "voltage/equipment-rating", "conductors/string/rated_v"},
                 {"/conductors/feeder/rated_v", "voltage/equipment-rating", "conductors/feeder/rated_v"}});
}
