// A local amendment that asks nothing of a box whose output is short, because it stands by the inverter:
// unless_output_up_to_m. No edition has such an exception (0).
#include "boxproof/rule.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view missing = "disconnect/missing";
const std::string length = "/combiners/0/output/run/length_m";

// The sound design without its disconnect, its output so long, where this case of the edition excepts 3 m.
Json excepting(const char* of, double metres) {
  Json design = without(sound_design(), "/combiners/0/disconnect");
  design = put(design, length, metres);
  return put(design, "/code/amendments", {{"disconnect", {{of, {{"unless_output_up_to_m", 3}}}}}});
}

}  // namespace

TEST_CASE("without the amendment a short output needs its disconnect like any other") {
  for (const double metres : {0.0, 0.5, 20.0})
    for (const std::string_view edition : edition_names) {
      CAPTURE(metres, edition);
      const Json design = put(without(sound_design(), "/combiners/0/disconnect"), length, metres);
      const bool fused_only = edition == "2011";  // holders may serve; 2014: on a roof, load-break
      CHECK(severity_of(design, missing, edition) == (edition == "2008" ? "none"
                                                      : fused_only      ? "query"
                                                                        : "correction"));
    }
  // Nor does anybody ask for the length.
  CHECK(severity_of(without(sound_design(), length), missing) == "none");
}

TEST_CASE("an output up to the amended length needs none, a longer one does") {
  struct Row {
    double metres;
    const char* severity;
  };
  for (const Row& r : {Row{0, "none"}, Row{2.9, "none"}, Row{3, "none"}, Row{3 * (1 + 5e-10), "none"},
                       Row{3 * (1 + 2e-9), "correction"}, Row{3.1, "correction"}, Row{20, "correction"}}) {
    CAPTURE(r.metres);
    CHECK(severity_of(excepting("large", r.metres), missing) == r.severity);  // 108 A: above 30 A
    CHECK(severity_of(excepting("roof", r.metres), missing, "2014") == r.severity);
    // Two strings, 24 A: the case of small outputs. An isolating device at fuses may be their holders: a
    // query.
    const Json small = put(excepting("small", r.metres), "/combiners/0/circuits/0/strings", 2);
    CHECK(severity_of(small, missing) == (std::string_view(r.severity) == "none" ? "none" : "query"));
  }
  // An exception of the other case does not help.
  CHECK(severity_of(excepting("small", 1), missing) == "correction");
}

TEST_CASE("the finding names the amendment") {
  const auto judged = judge(excepting("large", 20));
  const Finding* f = judged->find(missing);
  REQUIRE(f != nullptr);
  CHECK(f->amended == std::vector<std::string>{"disconnect.large.unless_output_up_to_m"});
  CHECK(says(*f, "Amended locally: disconnect.large.unless_output_up_to_m (3 in place of 0)."));
}

TEST_CASE("a length that is not stated is asked for, disconnect or not") {
  struct Row {
    std::string taken;
    bool there;
  };
  for (const Row& r : {Row{length, false}, Row{"/combiners/0/output/run", false},
                       Row{"/combiners/0/output", false}, Row{length, true}}) {
    CAPTURE(r.taken, r.there);
    Json design = without(excepting("large", 20), r.taken);
    if (r.there) design["combiners"][0]["disconnect"] = sound_design()["combiners"][0]["disconnect"];
    const auto judged = judge(design);
    bool asked = false;
    for (const Finding& f : judged->findings())
      if (f.part == "output/run/length_m") {
        asked = f.message.find("disconnect/") != std::string::npos;
        CHECK(f.severity == Severity::query);
      } else {
        CHECK(f.rule->id != missing);
      }
    CHECK(asked);
  }
}

TEST_CASE("where nothing is asked of a short output, nothing is asked of its disconnect either") {
  Json design = excepting("large", 2);
  design["combiners"][0]["disconnect"] = sound_design()["combiners"][0]["disconnect"];
  design["combiners"][0]["disconnect"].merge_patch({{"load_break", false}, {"distance_m", 40}});
  for (const char* rule : {"disconnect/not-load-break", "disconnect/too-far"}) {
    CHECK(severity_of(design, rule) == "none");
    CHECK(severity_of(put(design, length, 4), rule) != "none");
  }
}
