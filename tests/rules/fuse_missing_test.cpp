// Boxes without fuses. By hand: n strings push (n − 1) · 1.25 · 9.6 = (n − 1) · 12 A into a faulted one; the
// string's conductor, 10 AWG copper in free air at 36 °C, may carry 55 · 0.91 = 50.05 A.
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

// The sound box with so many strings and no fuses, on modules that allow this largest fuse.
Json unfused(unsigned strings, double max_fuse) {
  Json design = with_fitting_labels(with_circuit({{"strings", strings}}));
  design["combiners"][0].erase("fuse");
  return put(design, "/modules/M/max_fuse_a", max_fuse);
}

LimitCase missing(const Json& design, std::string stated, Stated must_be, double bound, double far,
                  std::vector<std::string_view> numbers, std::string_view edition = "2017") {
  return {
      "fuse/missing", "circuit 1", "hazard",           "A",   "690.9(A)", design, std::move(stated), must_be,
      bound,          far,         std::move(numbers), false, edition};
}

const std::string max_fuse = "/modules/M/max_fuse_a", run = "/combiners/0/circuits/0/run";

}  // namespace

TEST_CASE("back current against the module's largest fuse") {
  for (const std::string_view edition : edition_names)
    check_limit(missing(unfused(3, 20), max_fuse, Stated::at_least, 24, 20, {"24", "20"}, edition));
  check_limit(missing(unfused(2, 20), max_fuse, Stated::at_least, 12, 10, {"12", "10"}));
  // The inverter feeds back 5 A; strings joined on the same input count as well: 36 + 2 · 12.
  check_limit(missing(put(unfused(3, 20), "/inverters/I/backfeed_a", 5), max_fuse, Stated::at_least, 29, 20,
                      {"29", "20"}));
  Json joined = unfused(3, 20);
  joined["combiners"][0]["circuits"][0]["strings_per_fuse"] = 3;
  check_limit(missing(joined, max_fuse, Stated::at_least, 24, 20, {"24", "20"}));
  // 1.25 · 10.4 A of front and rear together.
  check_limit(missing(put(unfused(3, 20), "/modules/M/isc_rear_a", 10.4), max_fuse, Stated::at_least, 26, 20,
                      {"26", "20"}));
}

TEST_CASE("back current against the string's conductor, where that carries less") {
  struct Row {
    unsigned strings;
    double backfeed;
    const char* severity;
  };
  for (const Row& r : std::vector<Row>{{5, 0, "none"},  // 48 A
                                       {5, 2, "none"},
                                       {5, 2.05, "none"},                  // 50.05 A exactly
                                       {5, 2.05 + 50.05 * 5e-10, "none"},  // within the slack
                                       {5, 2.05 + 50.05 * 2e-9, "hazard"},
                                       {5, 2.1, "hazard"},
                                       {6, 0, "hazard"}}) {  // 60 A
    CAPTURE(r.strings, r.backfeed);
    CHECK(severity_of(put(unfused(r.strings, 100), "/inverters/I/backfeed_a", r.backfeed), "fuse/missing") ==
          r.severity);
  }
  const auto judged = judge(unfused(6, 100));
  const Finding* f = judged->find("fuse/missing", "circuit 1");
  REQUIRE(f != nullptr);
  CHECK_THAT(std::get<double>(f->found), Catch::Matchers::WithinRel(60, 1e-13));
  CHECK_THAT(std::get<double>(f->required), Catch::Matchers::WithinRel(50.05, 1e-13));
  CHECK(says(*f, "60 A"));
  CHECK(says(*f, "conductor may carry 50.05 A"));
  CHECK(says(*judge(unfused(6, 40))->find("fuse/missing"), "module may carry 40 A"));
}

TEST_CASE("whether protection is needed is a question for boxes without fuses only") {
  CHECK(severity_of(put(sound_design(), "/inverters/I/backfeed_a", 400), "fuse/missing") == "none");
  Json null_fuse = unfused(9, 20);
  null_fuse["combiners"][0]["fuse"] = nullptr;  // the same as absent
  CHECK(severity_of(null_fuse, "fuse/missing") == "hazard");
}

TEST_CASE("each group is judged by what the rest pushes into it") {
  // A: 3 strings of 12 A, modules allow 40 A; B: 2 strings of 10 A, modules allow 45 A. Into A: 24 + 20, into
  // B: 36 + 10.
  Json design = unfused(3, 40);
  design["modules"]["N"] = design["modules"]["M"];
  design["modules"]["N"].merge_patch({{"isc_a", 8}, {"imp_a", 7.5}, {"pmax_w", 187.5}, {"max_fuse_a", 45}});
  Json& circuits = design["combiners"][0]["circuits"];
  circuits.push_back(circuits[0]);
  circuits[1].merge_patch({{"id", "2"}, {"module", "N"}, {"strings", 2}});
  const auto found = [](const Judged& judged, std::string_view part) {
    const Finding* f = judged.find("fuse/missing", part);
    return f == nullptr ? 0 : std::get<double>(f->found);
  };
  const auto both = judge(design);
  CHECK_THAT(found(*both, "circuit 1"), Catch::Matchers::WithinRel(44, 1e-13));
  CHECK_THAT(found(*both, "circuit 2"), Catch::Matchers::WithinRel(46, 1e-13));
  const auto second = judge(put(design, max_fuse, 44));
  CHECK(second->find("fuse/missing", "circuit 1") == nullptr);
  CHECK(second->find("fuse/missing", "circuit 2") != nullptr);
}

TEST_CASE("a box without fuses whose modules state no largest fuse") {
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    // Three strings, 24 A: only the module can tell.
    check_missing(unfused(3, 20), {{max_fuse, "fuse/missing", "modules/M/max_fuse_a"}}, edition);
    // A string alone is pushed by nothing: nothing to ask.
    CHECK(judge(without(unfused(1, 20), max_fuse), edition)->summary().empty());
  }
  // A string alone, but the inverter feeds back.
  check_missing(put(unfused(1, 20), "/inverters/I/backfeed_a", 3),
                {{max_fuse, "fuse/missing", "modules/M/max_fuse_a"}});
  // Six strings, 60 A: too much for the conductor, whatever the module allows.
  const auto judged = judge(without(unfused(6, 20), max_fuse));
  CHECK(judged->summary() == std::vector<std::string>{"fuse/missing hazard circuit 1"});
}

TEST_CASE("without a run the module alone decides, and one query says that the conductor was left out") {
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    check_missing(unfused(3, 30), {{run, "conductor/after-conditions", "circuits 1/run"}}, edition);
    const auto judged = judge(without(unfused(3, 20), run), edition);
    CHECK(judged->summary() == std::vector<std::string>{"fuse/missing hazard circuit 1",
                                                        "conductor/after-conditions query circuits 1/run"});
    const Finding* query = judged->find("conductor/after-conditions");
    REQUIRE(query != nullptr);
    CHECK(says(*query, "nor fuse/missing"));
  }
}
