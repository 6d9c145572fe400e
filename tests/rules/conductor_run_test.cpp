// Equipment grounding conductors (NFPA 70 690.45, Table 250.122; ratings to assume without a device from
// memory, unverified) and voltage drop (2 %: common practice).
#include <fmt/format.h>

#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

constexpr std::string_view grounding = "conductor/grounding-size", drop = "conductor/voltage-drop";

// What the edition assumes in place of a device, times Isc, and where it says so.
struct Assumed {
  std::string_view edition;
  double factor;
  std::string_view section, with_device;
};
const std::vector<Assumed> assumed{
    {"2008", 1, "690.45(A)", "690.45(A)"},          {"2011", 1, "690.45(A)", "690.45(A)"},
    {"2014", 1.25, "690.45(A)", "690.45(A)"},       {"2017", 1.5625, "690.45, 690.9(B)", "690.45"},
    {"2020", 1.5625, "690.45, 690.9(B)", "690.45"}, {"2023", 1.5625, "690.45, 690.9(B)", "690.45"}};

Json wire(std::string_view size, std::string_view material = "copper") {
  return {{"size", size}, {"material", material}};
}

// Nine strings of modules of this short-circuit current.
Json modules_of(double isc) {
  return with({{"modules", {{"M", {{"isc_a", isc}, {"imp_a", 5}, {"pmax_w", 125}}}}}});
}

}  // namespace

TEST_CASE("grounding conductor of the output by the device at its far end") {
  struct Row {
    double device;
    std::string_view size, material, least;  // least empty: large enough
  };
  const std::vector<Row> rows{{100, "8 AWG", "copper", ""},        {100.1, "8 AWG", "copper", "6 AWG"},
                              {175, "8 AWG", "copper", "6 AWG"},   {200, "6 AWG", "copper", ""},
                              {200.1, "6 AWG", "copper", "4 AWG"}, {175, "4/0 AWG", "copper", ""},
                              {200, "4 AWG", "aluminum", ""},      {200, "6 AWG", "aluminum", "4 AWG"},
                              {15, "14 AWG", "copper", ""},        {15, "14 AWG", "aluminum", "12 AWG"},
                              {4000, "500 kcmil", "copper", ""}};
  for (const Assumed& in : assumed)
    for (const Row& row : rows) {
      CAPTURE(in.edition, row.device, row.size, row.material);
      Json design = sound_design();
      design["combiners"][0]["output"]["ocpd_a"] = row.device;
      design["combiners"][0]["egc"] = wire(row.size, row.material);
      const auto judged = judge(design, in.edition);
      const Finding* f = judged->find(grounding);
      CHECK((f == nullptr) == row.least.empty());
      if (f == nullptr) continue;
      check_words(f, fmt::format("{} {}", row.size, row.material),
                  fmt::format("{} {}", row.least, row.material), in.with_device);
      CHECK(f->severity == Severity::correction);
      CHECK(f->part == "egc");
      CHECK(f->place.pointer == "/combiners/0/egc");
    }
}

TEST_CASE("a device beyond the table") {
  Json design = with_box({{"output", {{"ocpd_a", 4000.1}}}, {"egc", wire("1000 kcmil")}});
  const auto judged = judge(design);
  const Finding* f = judged->find(grounding);
  REQUIRE(f != nullptr);
  CHECK(f->message.find("beyond the table") != std::string::npos);
  CHECK(std::holds_alternative<std::monostate>(f->required));
}

TEST_CASE("grounding conductors that are not on the plan") {
  const auto egc = judge(with_box({{"egc", nullptr}}));
  check_words(egc->find(grounding), "none", "6 AWG copper", "690.45");
  CHECK(egc->find(grounding)->part == "egc");
  const auto bond = judge(with_box({{"bond", nullptr}}));
  check_words(bond->find(grounding), "none", "14 AWG copper", "690.45");
  CHECK(bond->find(grounding)->part == "bond");
}

TEST_CASE("output without a device: the rating that the edition assumes") {
  for (const Assumed& in : assumed) {
    CAPTURE(in.edition);
    const double at = 100 / (9 * in.factor);  // nine strings, 8 AWG copper serves up to 100 A
    for (double share : {1 - 1e-6, 1.0, 1 + 1e-6}) {
      CAPTURE(share);
      Json design = modules_of(share * at);
      design["combiners"][0]["output"].erase("ocpd_a");
      design["combiners"][0]["egc"] = wire("8 AWG");
      const auto judged = judge(design, in.edition);
      const Finding* f = judged->find(grounding, "egc");
      CHECK((f != nullptr) == (share > 1));
      if (f != nullptr) check_words(f, "8 AWG copper", "6 AWG copper", in.section);
    }
  }
}

TEST_CASE("grounding conductor of the source circuits by the string fuse") {
  struct Row {
    double fuse;
    std::string_view size, least;
  };
  for (const Row& row : std::vector<Row>{{15, "14 AWG", ""},
                                         {15.1, "14 AWG", "12 AWG"},
                                         {20, "12 AWG", ""},
                                         {20.1, "12 AWG", "10 AWG"},
                                         {60, "10 AWG", ""}}) {
    CAPTURE(row.fuse, row.size);
    const auto judged = judge(with_box({{"fuse", {{"a", row.fuse}}}, {"bond", wire(row.size)}}));
    const Finding* f = judged->find(grounding);
    CHECK((f == nullptr) == row.least.empty());
    if (f == nullptr) continue;
    check_words(f, fmt::format("{} copper", row.size), fmt::format("{} copper", row.least), "690.45");
    CHECK(f->part == "bond");
  }
}

TEST_CASE(
    "source circuits without a fuse: the rating that the edition assumes, of every string of an input") {
  for (const Assumed& in : assumed)
    for (unsigned joined : {1U, 3U})
      for (double share : {1 - 1e-6, 1.0, 1 + 1e-6}) {
        CAPTURE(in.edition, joined, share);
        Json design = modules_of(share * 20 / in.factor / joined);  // 12 AWG copper serves up to 20 A
        Json& box = design["combiners"][0];
        design["modules"]["M"].merge_patch({{"imp_a", 4}, {"pmax_w", 100}});
        box.erase("fuse");
        box["circuits"][0]["strings_per_fuse"] = joined;
        box["bond"] = wire("12 AWG");
        const auto judged = judge(design, in.edition);
        const Finding* f = judged->find(grounding, "bond");
        CHECK((f != nullptr) == (share > 1));
        if (f != nullptr) check_words(f, "12 AWG copper", "10 AWG copper", in.section);
      }
}

TEST_CASE("a circuit's own bond goes before the box's") {
  Json design = with_box({{"fuse", {{"a", 20}}}, {"bond", nullptr}});
  Json& circuits = design["combiners"][0]["circuits"];
  circuits[0]["bond"] = wire("12 AWG");
  CHECK(judge(design)->find(grounding) == nullptr);  // none is needed for the box
  circuits[0]["bond"] = wire("14 AWG");
  const auto judged = judge(design);
  const Finding* f = judged->find(grounding);
  check_words(f, "14 AWG copper", "12 AWG copper", "690.45");
  CHECK(f->part == "bond of circuit 1");
  CHECK(f->place.pointer == "/combiners/0/circuits/0/bond");
  circuits[0]["bond"] = wire("12 AWG");
  circuits[0]["strings"] = 5;
  circuits.push_back(circuits[0]);
  circuits[1].merge_patch({{"id", "2"}, {"strings", 4}, {"bond", nullptr}});
  check_words(judge(design)->find(grounding, "bond"), "none", "12 AWG copper", "690.45");
}

TEST_CASE("as built, the largest fuse in the box and the conductor that was found count") {
  const Json record = {
      {"format", "boxproof-asbuilt/1"},
      {"boxes",
       {{{"id", "A-01"}, {"mixed_fuses", {{{"position", 2}, {"a", 20}}}}, {"egc", {{"size", "8 AWG"}}}}}}};
  const auto judged = judge(with_box({{"bond", wire("14 AWG")}}), {}, record);  // enough for the planned 15 A
  check_words(judged->find(grounding, "bond"), "14 AWG copper", "12 AWG copper", "690.45");
  check_words(judged->find(grounding, "egc"), "8 AWG copper", "6 AWG copper", "690.45");
  for (std::string_view part : {"bond", "egc"})
    CHECK(judged->find(grounding, part)->basis == Basis::as_built);
}

TEST_CASE("a fuse whose rating is not stated is no missing fuse") {
  // Two strings of 9.6 A to a fuse: assumed, 30 A and 10 AWG; but there is a fuse, and its rating is to be
  // asked for.
  Json design = with_box({{"fuse", {{"a", nullptr}}}, {"bond", wire("14 AWG")}});
  design["combiners"][0]["circuits"][0].merge_patch({{"strings", 8}, {"strings_per_fuse", 2}});
  CHECK(judge(design)->find(grounding) == nullptr);
}

TEST_CASE("a query about a circuit's bond names the circuit, not its position") {
  Json design = sound_design();
  design["combiners"][0]["circuits"][0].merge_patch({{"id", "east"}, {"bond", {{"material", "copper"}}}});
  CHECK(judge(design)->summary() == Lines{"conductor/grounding-size query circuits east/bond/size"});
}

TEST_CASE("voltage drop: string and output together, at the boundary") {
  // String: 2 · 20 m · 9 A · 4.07 Ω/km = 1.4652 V of 450 V, 0.3256 %. Output: 2 · L · 81 A · 0.199 Ω/km.
  const double length = (2 - 0.3256) / 100 * 450 * 1000 / (2 * 81 * 0.199);
  for (double share : {1 - 1e-6, 1.0, 1 + 1e-6}) {
    CAPTURE(share);
    const auto judged = judge(with_box({{"output", {{"run", {{"length_m", share * length}}}}}}));
    CHECK(severity_name(judged->find(drop)) == (share > 1 ? "advice" : "none"));
  }
  const auto judged = judge(with_box({{"output", {{"run", {{"length_m", 400}}}}}}));
  check_numbers(judged->find(drop), 0.3256 + 100 * 2 * 400 * 81 * 0.199 / 1000 / 450, 2, "%",
                "common practice");
  CHECK(judged->judgement.verdict == Verdict::accept);  // no approval hangs on it
}

TEST_CASE("voltage drop: the worst circuit counts, and an amendment may set another share") {
  Json design = sound_design();
  Json& circuits = design["combiners"][0]["circuits"];
  circuits[0]["strings"] = 4;
  circuits.push_back(circuits[0]);
  circuits[1].merge_patch({{"id", "2"}, {"strings", 5}, {"run", {{"length_m", 120}}}});
  const auto judged = judge(design);
  // 6 · 0.3256 % and 2 · 20 · 81 · 0.199 / 1000 = 0.64476 V of 450 V
  check_numbers(judged->find(drop), 6 * 0.3256 + 0.64476 / 4.5, 2, "%", "common practice");
  CHECK(judged->find(drop)->place.pointer == "/combiners/0/circuits/1/run/length_m");
  design["code"]["amendments"] = {{"conductor", {{"voltage_drop", {{"max_pct", 2.1}}}}}};
  CHECK(judge(design)->find(drop) == nullptr);
}

TEST_CASE("voltage drop: operating values that are not stated are asked for once") {
  CHECK(judge(with({{"modules", {{"M", {{"imp_a", nullptr}, {"pmax_w", nullptr}}}}}}))->summary() ==
        Lines{"conductor/voltage-drop query modules/M/imp_a"});
  const auto vmp = judge(with({{"modules", {{"M", {{"vmp_v", nullptr}}}}}}));
  CHECK(vmp->summary() == Lines{"voltage/tracking-window query modules/M/vmp_v"});
  CHECK(vmp->findings().front().message.find("conductor/voltage-drop") != std::string::npos);
}
