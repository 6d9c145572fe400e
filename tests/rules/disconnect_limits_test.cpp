// How near the disconnect must be, how strong, and how it is worked. Distances: 2011 in sight, 15 m; 2014 on
// roofs 1.8 m; 2017 and 2020 3 m; 2023 none, but in the box, in sight, or lockable. (Trade press; 2020 and
// 2023 from memory, unverified.) Rated current: 1.25 times the output's maximum current, 9 · 1.25 · 9.6 A =
// 108 A.
#include <optional>

#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

constexpr std::string_view too_far = "disconnect/too-far", handle = "disconnect/handle";
constexpr std::string_view rating = "disconnect/current-rating";

Json disconnect_with(const Json& patch, std::string_view place = "roof") {
  return with_box({{"disconnect", patch}, {"mounting", {{"place", place}}}});
}

}  // namespace

TEST_CASE("the distance of the disconnect") {
  struct Row {
    std::string_view edition, place;
    std::optional<double> within;
  };
  const std::vector<Row> rows{{"2008", "roof", {}},  {"2011", "roof", 15},  {"2011", "ground", 15},
                              {"2014", "roof", 1.8}, {"2014", "wall", 15},  {"2014", "ground", 15},
                              {"2017", "roof", 3},   {"2017", "wall", 3},   {"2020", "ground", 3},
                              {"2023", "roof", {}},  {"2023", "ground", {}}};
  for (const Row& row : rows) {
    CAPTURE(row.edition, row.place);
    const auto at = [&](double distance) {
      return severity_of(disconnect_with({{"distance_m", distance}}, row.place), too_far, row.edition);
    };
    CHECK(at(0) == "none");
    if (!row.within) {
      CHECK(at(500) == "none");  // 2023: lockable
      continue;
    }
    CHECK(at(*row.within - 0.001) == "none");
    CHECK(at(*row.within) == "none");
    CHECK(at(*row.within + 0.001) == "correction");
    const auto judged = judge(disconnect_with({{"distance_m", 20}}, row.place), row.edition);
    const Finding* f = judged->find(too_far);
    REQUIRE(f != nullptr);
    check_numbers(f, 20, *row.within, "m", f->section);
    CHECK(f->place.pointer == "/combiners/0/disconnect/distance_m");
  }
}

TEST_CASE("no distance up to 30 A, nor for a box without fuses under 2011") {
  for (std::string_view edition : {"2017", "2020", "2023"}) {
    CAPTURE(edition);
    Json design = disconnect_with({{"distance_m", 500}, {"external_handle", false}, {"lockable", false}});
    design["combiners"][0]["circuits"][0]["strings"] = 2;  // 24 A
    CHECK(judge(design, edition)->find(too_far) == nullptr);
    CHECK(judge(design, edition)->find(handle) == nullptr);
  }
  Json design = disconnect_with({{"distance_m", 500}, {"external_handle", false}});
  design["combiners"][0].erase("fuse");
  CHECK(judge(design, "2011")->find(too_far) == nullptr);
  CHECK(judge(design, "2011")->find(handle) == nullptr);
}

TEST_CASE("2023: in the box, or lockable, else the plan must say whether it is in sight") {
  struct Row {
    Json distance, lockable;
    Lines summary;
  };
  const std::string is_it = "disconnect/too-far query disconnect";
  const std::string unlocked = "disconnect/handle correction means to lock it open";
  const std::vector<Row> rows{{0, true, {}},
                              {2, true, {}},
                              {nullptr, true, {}},
                              {0, false, {unlocked}},
                              {2, false, {unlocked, is_it}},
                              {nullptr, false, {unlocked, is_it}},
                              {2, nullptr, {is_it + "/lockable"}},
                              {nullptr, nullptr, {is_it + "/lockable"}},
                              {0, nullptr, {"disconnect/handle query disconnect/lockable"}}};
  for (const Row& row : rows) {
    const auto judged =
        judge(disconnect_with({{"distance_m", row.distance}, {"lockable", row.lockable}}), "2023");
    CAPTURE(row.distance.dump(), row.lockable.dump());
    CHECK(judged->summary() == row.summary);
  }
  const auto judged = judge(disconnect_with({{"distance_m", 2}, {"lockable", false}}), "2023");
  CHECK(std::get<std::string>(judged->find(too_far)->required) ==
        "in sight and readily accessible, or lockable");
}

TEST_CASE(
    "the rated current: 1.25 times the output's maximum, without the factor for an assembly listed for 100 "
    "%") {
  const std::vector<std::pair<std::string_view, std::string_view>> sections{
      {"2008", "690.17"},    {"2011", "690.17"},    {"2014", "690.17"},
      {"2017", "690.15(D)"}, {"2020", "690.15(C)"}, {"2023", "690.15"}};
  for (const auto& [edition, section] : sections)
    for (bool rated_100 : {false, true}) {
      CAPTURE(edition, rated_100);
      const double least = rated_100 ? 108 : 135;
      const auto rated = [&](double amps) {
        return with_box({{"disconnect", {{"rated_a", amps}}}, {"enclosure", {{"rated_100_pct", rated_100}}}});
      };
      CHECK(severity_of(rated(least + 0.01), rating, edition) == "none");
      CHECK(severity_of(rated(least), rating, edition) == "none");
      const auto judged = judge(rated(least - 0.01), edition);
      const Finding* f = judged->find(rating);
      check_numbers(f, least - 0.01, least, "A", section);
      CHECK(f->severity == Severity::hazard);
      CHECK(f->place.pointer == "/combiners/0/disconnect/rated_a");
    }
}

TEST_CASE("handle and lock, where the edition asks") {
  struct Row {
    std::string_view edition, place;
    bool handle, lock;
  };
  for (const Row& row : std::vector<Row>{{"2008", "roof", false, false},
                                         {"2011", "roof", true, false},
                                         {"2014", "roof", true, false},
                                         {"2014", "wall", true, false},
                                         {"2017", "roof", true, true},
                                         {"2020", "wall", true, true},
                                         {"2023", "ground", true, true}}) {
    CAPTURE(row.edition, row.place);
    const auto judged =
        judge(disconnect_with({{"external_handle", false}, {"lockable", false}}, row.place), row.edition);
    const Finding* no_handle = judged->find(handle, "external handle");
    const Finding* no_lock = judged->find(handle, "means to lock it open");
    CHECK(severity_name(no_handle) == (row.handle ? "correction" : "none"));
    CHECK(severity_name(no_lock) == (row.lock ? "correction" : "none"));
    if (no_handle) check_words(no_handle, "no external handle", "external handle", no_handle->section);
    if (no_handle) CHECK(no_handle->place.pointer == "/combiners/0/disconnect/external_handle");
    if (no_lock) CHECK(no_lock->place.pointer == "/combiners/0/disconnect/lockable");
  }
}

TEST_CASE("a disconnect of which nothing is stated: one query for each key that the edition needs") {
  const std::string rated = "disconnect/current-rating query disconnect/rated_a";
  const std::string outside = "disconnect/handle query disconnect/external_handle";
  const std::string lock = "disconnect/handle query disconnect/lockable";
  const std::string breaks = "disconnect/not-load-break query disconnect/load_break";
  const std::string far = "disconnect/too-far query disconnect/distance_m";
  struct Row {
    std::string_view edition, place;
    Lines summary;
  };
  const std::vector<Row> rows{
      {"2008", "roof", {rated}},
      {"2011", "roof", {rated, outside, far}},
      {"2014", "wall", {rated, outside, far}},
      {"2014", "roof", {rated, outside, breaks, far}},
      {"2017", "roof", {rated, outside, lock, breaks, far}},
      {"2020", "wall", {rated, outside, lock, breaks, far}},
      {"2023", "roof", {rated, outside, breaks, "disconnect/too-far query disconnect/lockable"}}};
  for (const Row& row : rows) {
    CAPTURE(row.edition, row.place);
    Json design = disconnect_with(Json::object(), row.place);
    design["combiners"][0]["disconnect"] = {{"rated_v", 1000}};
    CHECK(judge(design, row.edition)->summary() == row.summary);
    design["combiners"][0]["circuits"][0]["strings"] = 2;  // 24 A: from 2017 on only the rating is looked at
    if (row.edition >= "2017")
      CHECK(judge(with_fitting_labels(design), row.edition)->summary() == Lines{rated});
  }
}

TEST_CASE("findings cite the section that asks for it") {
  // Distance: 690.15(A) in 2017 and 2020, 690.15(D) in 2023; properties of the switch: 690.17 up to 2014.
  const Json far = {{"distance_m", 20}, {"external_handle", false}, {"lockable", false}};
  struct Row {
    std::string_view edition, rule, part, section;
  };
  for (const Row& row : std::vector<Row>{{"2011", too_far, "", "690.16(B)"},
                                         {"2014", too_far, "", "690.15(C)"},
                                         {"2017", too_far, "", "690.15(A)"},
                                         {"2020", too_far, "", "690.15(A)"},
                                         {"2023", too_far, "", "690.15(D)"},
                                         {"2011", handle, "external handle", "690.17"},
                                         {"2014", handle, "external handle", "690.17"},
                                         {"2017", handle, "external handle", "690.15(D)"},
                                         {"2020", handle, "external handle", "690.15(C)"}}) {
    CAPTURE(row.edition, row.rule);
    const auto judged = judge(disconnect_with(far), row.edition);
    const Finding* f = judged->find(row.rule, row.part);
    REQUIRE(f != nullptr);
    CHECK(f->section == row.section);
  }
  // That a disconnect is needed above 30 A: 690.15(D) in 2020, 690.15(A) in 2023.
  for (const auto& [edition, section] : {std::pair{"2020", "690.15(D)"}, std::pair{"2023", "690.15(A)"}}) {
    CAPTURE(edition);
    CHECK(judge(with_box({{"disconnect", nullptr}}), edition)->find("disconnect/missing")->section ==
          section);
  }
}
