// Fuse ratings at their limits. By hand: an input of one string carries 1.25 · 9.6 = 12 A and needs 15 A; the
// output carries 108 A and needs 135 A. Sections by edition: published/sections_test.cpp.
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/limit_case.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const std::string fuse_a = "/combiners/0/fuse/a", ocpd_a = "/combiners/0/output/ocpd_a";
const std::string max_fuse = "/modules/M/max_fuse_a";

const std::array<std::string_view, 6> too_small_section{"690.8(B)(1)", "690.8(B)(1)(a)", "690.9(B)",
                                                        "690.9(B)(1)", "690.9(B)(1)",    "690.9(B)(1)"};

LimitCase too_small(const Json& design, double least, double far, std::vector<std::string_view> numbers,
                    std::size_t edition = 3) {
  return {"fuse/too-small",
          "circuit 1",
          "correction",
          "A",
          too_small_section[edition],
          design,
          fuse_a,
          Stated::at_least,
          least,
          far,
          std::move(numbers),
          true,
          edition_names[edition]};
}

LimitCase over_module(const Json& design, double seen, double far, std::vector<std::string_view> numbers,
                      std::string_view edition = "2017") {
  return {"fuse/over-module-limit",
          "circuit 1",
          "hazard",
          "A",
          "110.3(B)",
          design,
          max_fuse,
          Stated::at_least,
          seen,
          far,
          std::move(numbers),
          false,
          edition};
}

Json bifacial() {
  return with({{"modules", {{"M", {{"isc_rear_a", 10.4}}}}}});
}

}  // namespace

TEST_CASE("the string fuse against its least rating") {
  for (std::size_t e = 0; e < edition_names.size(); ++e)
    check_limit(too_small(sound_design(), 15, 12, {"12", "15"}, e));
  check_limit(too_small(with_box({{"enclosure", {{"rated_100_pct", true}}}}), 12, 10, {"10", "12"}));
  check_limit(too_small(with_box({{"fuse", {{"ambient_factor", 0.8}}}}), 18.75, 15, {"15", "18.75"}));
  check_limit(
      too_small(with_box({{"enclosure", {{"rated_100_pct", true}}}, {"fuse", {{"ambient_factor", 0.8}}}}), 15,
                12, {"12", "15"}));
  check_limit(too_small(bifacial(), 16.25, 15, {"15", "16.25"}));  // 1.5625 · 10.4
  check_limit(too_small(with_circuit({{"strings_per_fuse", 3}}), 45, 40, {"40", "45"}));
}

TEST_CASE("1.5625 and not 1.56: 15 A for 9.61 A is too small") {
  CHECK(severity_of(sound_design(), "fuse/too-small") == "none");
  for (const double isc : {9.601, 9.61, 9.615}) {  // 1.56 · 9.615 = 14.9994
    CAPTURE(isc);
    CHECK(severity_of(put(sound_design(), "/modules/M/isc_a", isc), "fuse/too-small") == "correction");
  }
}

TEST_CASE("too small a fuse: the smallest standard rating that would do is named") {
  for (const auto& [isc, rating] : std::vector<std::pair<double, std::string>>{
           {9.61, "20 A"}, {12.8, "20 A"}, {12.81, "25 A"}, {30, "50 A"}}) {
    CAPTURE(isc);
    const auto judged = judge(put(sound_design(), "/modules/M/isc_a", isc));
    const Finding* f = judged->find("fuse/too-small", "circuit 1");
    REQUIRE(f != nullptr);
    CHECK(says(*f, "smallest standard rating is " + rating));
  }
}

TEST_CASE("the device at the far end of the output against its least rating") {
  for (std::size_t e = 0; e < edition_names.size(); ++e)
    check_limit({"fuse/too-small",
                 "output device",
                 "correction",
                 "A",
                 too_small_section[e],
                 sound_design(),
                 ocpd_a,
                 Stated::at_least,
                 135,
                 125,
                 {"125", "135"},
                 true,
                 edition_names[e]});
  check_limit({"fuse/too-small",
               "output device",
               "correction",
               "A",
               "690.9(B)(1)",
               with_box({{"output", {{"ocpd_rated_100_pct", true}}}}),
               ocpd_a,
               Stated::at_least,
               108,
               100,
               {"100", "108"},
               true});
  // The listing of the box is not that of the device, and no device is no finding of this rule.
  check_limit({"fuse/too-small",
               "output device",
               "correction",
               "A",
               "690.9(B)(1)",
               with_box({{"enclosure", {{"rated_100_pct", true}}}}),
               ocpd_a,
               Stated::at_least,
               135,
               125,
               {"125", "135"},
               true});
  CHECK(severity_of(without(sound_design(), ocpd_a), "fuse/too-small") == "none");
}

TEST_CASE("what a module can see behind its fuse against its largest fuse") {
  for (const std::string_view edition : edition_names)
    check_limit(over_module(sound_design(), 15, 12, {"15", "12"}, edition));
  check_limit(over_module(with_box({{"fuse", {{"a", 20}}}}), 20, 15, {"20", "15"}));
  // Joined strings add 1.25 · Isc each but one: 40 + 12, 45 + 2 · 12, and with the rear 45 + 2 · 13.
  Json joined = with_circuit({{"strings", 8}, {"strings_per_fuse", 2}});
  joined["combiners"][0]["fuse"]["a"] = 40;
  check_limit(over_module(joined, 52, 40, {"52", "40"}));
  joined = with_circuit({{"strings_per_fuse", 3}});
  joined["combiners"][0]["fuse"]["a"] = 45;
  check_limit(over_module(joined, 69, 45, {"69", "45"}));
  joined["modules"]["M"]["isc_rear_a"] = 10.4;
  check_limit(over_module(joined, 71, 60, {"71", "60"}));
}

TEST_CASE("each group of circuits is held to its own module and current") {
  Json design = sound_design();
  design["modules"]["N"] = design["modules"]["M"];
  design["modules"]["N"].merge_patch({{"isc_a", 12.8}, {"max_fuse_a", 12}});
  Json& circuits = design["combiners"][0]["circuits"];
  circuits.push_back(circuits[0]);
  circuits[1].merge_patch({{"id", "2"}, {"module", "N"}, {"strings", 1}});
  const auto judged = judge(design);
  CHECK(judged->find("fuse/too-small", "circuit 1") == nullptr);
  CHECK(judged->find("fuse/over-module-limit", "circuit 1") == nullptr);
  const Finding* small = judged->find("fuse/too-small", "circuit 2");
  const Finding* large = judged->find("fuse/over-module-limit", "circuit 2");
  REQUIRE(small != nullptr);
  REQUIRE(large != nullptr);
  CHECK_THAT(std::get<double>(small->required), Catch::Matchers::WithinRel(20, 1e-13));
  CHECK(std::get<double>(large->required) == 12);
  CHECK(says(*large, "module N"));
}

TEST_CASE("ratings that are standard, additional, customary, or none of them") {
  struct Row {
    double rating;
    bool known;
  };
  for (const Row& r : std::vector<Row>{{1, true},
                                       {3, true},
                                       {3.5, true},
                                       {6, true},
                                       {10, true},
                                       {12, true},
                                       {15, true},
                                       {16, true},
                                       {20, true},
                                       {30, true},
                                       {32, true},
                                       {35, true},
                                       {63, true},
                                       {175, true},
                                       {315, true},
                                       {601, true},
                                       {6000, true},
                                       {15 * (1 + 5e-10), true},
                                       {15 * (1 - 5e-10), true},
                                       {15 * (1 + 2e-9), false},
                                       {15 * (1 - 2e-9), false},
                                       {11, false},
                                       {13, false},
                                       {14.5, false},
                                       {18, false},
                                       {602, false},
                                       {7000, false}})
    for (const std::string_view edition : edition_names) {
      CAPTURE(edition, r.rating);
      const auto judged = judge(put(sound_design(), fuse_a, r.rating), edition);
      const Finding* f = judged->find("fuse/not-standard", "fuse");
      REQUIRE((f == nullptr) == r.known);
      if (f == nullptr) continue;
      CHECK(f->severity == Severity::advice);
      CHECK(std::get<double>(f->found) == r.rating);
      CHECK(f->unit == "A");
      CHECK(f->section == "240.6(A)");
    }
  CHECK(says(*judge(put(sound_design(), fuse_a, 14.5))->find("fuse/not-standard"), "14.5 A"));
  CHECK(severity_of(without(sound_design(), "/combiners/0/fuse"), "fuse/not-standard") == "none");
}

TEST_CASE("a rating that is not stated is asked for once") {
  for (const std::string_view edition : edition_names)
    check_missing(
        sound_design(),
        {{fuse_a, "fuse/too-small", "fuse/a"}, {max_fuse, "fuse/over-module-limit", "modules/M/max_fuse_a"}},
        edition);
}
