// Overcurrent devices against the conductors that they protect: NFPA 70 240.4(B) (next standard rating up, to
// 800 A; from memory, unverified), 240.6(A) (standard ratings) and 240.4(D) (limits for small conductors).
#include <fmt/format.h>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view unprotected = "conductor/unprotected", small_size = "conductor/small-size-limit";
constexpr std::string_view source = "circuit 1 conductor", output = "output conductor";

// An output of this size at this ambient, with this device at its far end (0: none).
Json output_of(std::string_view size, double ambient, double device, unsigned parallel = 1) {
  Json design = with_box({{"output", {{"run", {{"ambient_c", ambient}, {"parallel", parallel}}}}}});
  design["conductors"]["feeder"]["size"] = size;
  if (device > 0)
    design["combiners"][0]["output"]["ocpd_a"] = device;
  else
    design["combiners"][0]["output"].erase("ocpd_a");
  return design;
}

Json string_with_fuse(std::string_view size, std::string_view material, double fuse) {
  Json design = with_box({{"fuse", {{"a", fuse}}}});
  design["conductors"]["string"]["size"] = size;
  design["conductors"]["string"]["material"] = material;
  return design;
}

}  // namespace

TEST_CASE("a device may be at the ampacity, or the next standard rating above one that is none") {
  struct Row {
    std::string_view size;
    double ambient;
    unsigned parallel;
    double device, in_use;
    std::string_view severity;
  };
  // 90 °C copper in a raceway.
  const std::vector<Row> rows{
      {"4/0 AWG", 36, 1, 225, 236.6, "none"},    // 260 · 0.91
      {"4/0 AWG", 36, 1, 236.6, 236.6, "none"},  //
      {"4/0 AWG", 36, 1, 250, 236.6, "none"},    // next standard rating
      {"4/0 AWG", 36, 1, 250.1, 236.6, "hazard"},
      {"4/0 AWG", 36, 1, 300, 236.6, "hazard"},
      {"3/0 AWG", 30, 1, 225, 225, "none"},  // the ampacity is a standard rating: no next one
      {"3/0 AWG", 30, 1, 225.1, 225, "hazard"},
      {"3/0 AWG", 30, 1, 250, 225, "hazard"},
      {"400 kcmil", 30, 2, 800, 760, "none"},  // next rating up to 800 A
      {"400 kcmil", 30, 2, 801, 760, "hazard"},
      {"500 kcmil", 30, 2, 860, 860, "none"},  // above 800 A the ampacity itself
      {"500 kcmil", 30, 2, 1000, 860, "hazard"},
      {"4/0 AWG", 90, 1, 15, 0, "hazard"},  // nothing left in that heat
  };
  for (const Row& row : rows) {
    CAPTURE(row.size, row.ambient, row.device);
    const auto judged = judge(output_of(row.size, row.ambient, row.device, row.parallel));
    const Finding* f = judged->find(unprotected, output);
    CHECK(severity_name(f) == row.severity);
    if (f != nullptr) {
      check_numbers(f, row.device, row.in_use, "A", "240.4(B)");
      CHECK(f->place.pointer == "/combiners/0/output/ocpd_a");
    }
    CHECK(judged->find(unprotected, source) == nullptr);
  }
}

TEST_CASE("the string fuse against the string's conductor") {
  // 14 AWG in free air at 36 °C: 35 · 0.91 = 31.85 A; the next standard rating is 35 A.
  CHECK(severity_of(string_with_fuse("14 AWG", "copper", 32), unprotected, {}, source) == "none");
  CHECK(severity_of(string_with_fuse("14 AWG", "copper", 35), unprotected, {}, source) == "none");
  const auto judged = judge(string_with_fuse("14 AWG", "copper", 40));
  const Finding* f = judged->find(unprotected, source);
  check_numbers(f, 40, 31.85, "A", "240.4(B)");
  CHECK(f->severity == Severity::hazard);
  CHECK(f->place.pointer == "/combiners/0/fuse/a");
  Json unfused = sound_design();
  unfused["combiners"][0].erase("fuse");
  // fuse/missing judges that, also where another box could push 108 A into the string's conductor (50.05 A).
  CHECK(judge(with_second_box(unfused))->find(unprotected) == nullptr);
}

TEST_CASE("next rating up: what protects() holds") {
  const Edition& e = edition_of("2017");
  struct Row {
    double rating, ampacity;
    bool protects;
  };
  for (const Row& row : std::vector<Row>{{15, 15, true},
                                         {15, 14.9, true},
                                         {20, 15, false},
                                         {20, 15.1, true},
                                         {25, 15.1, false},
                                         {12, 10.5, true},
                                         {15, 9.5, false},
                                         {10, 9.5, true},
                                         {800, 700.1, true},
                                         {800, 700, false},
                                         {1000, 900, false},
                                         {15 * (1 + 1e-10), 15, true}}) {
    CAPTURE(row.rating, row.ampacity);
    CHECK(protects(Amps(row.rating), Amps(row.ampacity), e) == row.protects);
  }
}

TEST_CASE("an output without a device is queried where others can push more into it than it may carry") {
  // 4/0 AWG at 36 °C may carry 236.6 A; each like box of the inverter sends 108 A.
  const auto boxes = [](unsigned others, double backfeed) {
    Json design = output_of("4/0 AWG", 36, 0);
    design["inverters"]["I"]["backfeed_a"] = backfeed;
    const Json first = design["combiners"][0];
    for (unsigned i = 0; i < others; ++i) {
      design["combiners"].push_back(first);
      design["combiners"].back()["id"] = "B-" + std::to_string(i);
      design["combiners"].back()["output"]["ocpd_a"] = 175;
    }
    return design;
  };
  struct Row {
    unsigned others;
    double backfeed, pushed;
  };
  for (const Row& row : std::vector<Row>{{0, 0, 0},
                                         {0, 236.6, 0},
                                         {0, 236.7, 236.7},
                                         {1, 0, 0},
                                         {2, 0, 0},
                                         {2, 20.6, 0},
                                         {2, 20.7, 236.7},
                                         {3, 0, 324}}) {
    CAPTURE(row.others, row.backfeed);
    const auto judged = judge(boxes(row.others, row.backfeed));
    const Finding* f = judged->find(unprotected);
    CHECK(severity_name(f) == (row.pushed > 0 ? "query" : "none"));
    if (f == nullptr) continue;
    CHECK(f->box_id == "A-01");
    CHECK(f->part == "output device");
    CHECK(std::get<std::string>(f->found) == "not stated");
    CHECK(close(std::get<double>(f->required), 236.6));
    CHECK(f->section == "240.4(B)");
    CHECK(f->message.find(fmt::format("push {} A", row.pushed)) != std::string::npos);
  }
}

TEST_CASE("limits for small conductors, whatever their ampacity") {
  struct Row {
    std::string_view size, material;
    double limit;
  };
  for (std::string_view edition : edition_names)
    for (const Row& row : std::vector<Row>{{"14 AWG", "copper", 15},
                                           {"12 AWG", "copper", 20},
                                           {"10 AWG", "copper", 30},
                                           {"12 AWG", "aluminum", 15},
                                           {"10 AWG", "aluminum", 25},
                                           {"14 AWG", "aluminum", 0},
                                           {"8 AWG", "copper", 0},
                                           {"8 AWG", "aluminum", 0}}) {
      CAPTURE(edition, row.size, row.material);
      if (row.limit <= 0) {  // none is set
        CHECK(severity_of(string_with_fuse(row.size, row.material, 60), small_size, edition, source) ==
              "none");
        continue;
      }
      CHECK(severity_of(string_with_fuse(row.size, row.material, row.limit), small_size, edition, source) ==
            "none");
      const auto judged = judge(string_with_fuse(row.size, row.material, row.limit + 0.1), edition);
      const Finding* f = judged->find(small_size, source);
      check_numbers(f, row.limit + 0.1, row.limit, "A", "240.4(D)");
      CHECK(f->severity == Severity::correction);
      CHECK(f->place.pointer == "/combiners/0/fuse/a");
    }
}

TEST_CASE("limits for small conductors hold for the output, too") {
  const auto judged = judge(output_of("10 AWG", 36, 35));
  check_numbers(judged->find(small_size, output), 35, 30, "A", "240.4(D)");
  CHECK(judged->find(small_size, output)->place.pointer == "/combiners/0/output/ocpd_a");
  CHECK(severity_of(output_of("10 AWG", 36, 30), small_size) == "none");
  CHECK(severity_of(output_of("10 AWG", 36, 0), small_size) == "none");
}
