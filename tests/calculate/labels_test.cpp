// What a label states. By hand for the sound design: Vmax = 18 · 30 · (1 + 0.3 % · 35) = 596.7 V at −10 °C;
// 9 · 1.25 · 9.6 = 108 A at most, 9 · 9.6 = 86.4 A short-circuit; 18 · 25 = 450 V and 9 · 9 = 81 A operating.
#include "boxproof/labels.hpp"

#include "tests/support/approx.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/limit_case.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

LabelContents contents_of(const Json& design, std::string_view edition = "2017") {
  const auto judged = judge(design, edition);
  BoxFacts facts;
  box_facts(judged->design.design, judged->design.design.combiners.front(), judged->edition, facts);
  return label_contents(facts, judged->edition);
}

double of(const Json& design, LabelValue value, std::string_view edition = "2017") {
  const auto number = contents_of(design, edition).of(value);
  REQUIRE(number.has_value());
  return *number;
}

// The kinds in a box's schedule, with a mark on those that the edition does not ask for.
std::vector<std::string> schedule_of(const Json& design, std::string_view edition) {
  const auto judged = judge(design, edition);
  const Combiner& box = judged->design.design.combiners.front();
  BoxFacts facts;
  box_facts(judged->design.design, box, judged->edition, facts);
  std::vector<std::string> out;
  for (const LabelEntry& e : label_schedule(judged->design.design, box, facts, judged->edition)) {
    CHECK(e.box == &box);
    out.push_back(e.kind + (e.rule == nullptr                     ? " (plan)"
                            : e.need.needed == Needed::not_stated ? " ?" + e.need.pointer
                                                                  : ""));
  }
  return out;
}

std::vector<std::string> site_schedule_of(const Json& design, std::string_view edition) {
  const auto judged = judge(design, edition);
  std::vector<std::string> out;
  for (const LabelEntry& e : label_schedule(judged->design.design, judged->edition)) {
    CHECK(e.box == nullptr);
    out.push_back(e.kind + (e.need.needed == Needed::not_stated ? " ?" + e.need.pointer : ""));
  }
  return out;
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("the five values of the sound design, in every edition") {
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    CHECK(of(sound_design(), LabelValue::max_v, edition) == Approx(596.7));
    CHECK(of(sound_design(), LabelValue::max_a, edition) == Approx(108));
    CHECK(of(sound_design(), LabelValue::isc_a, edition) == Approx(86.4));
    CHECK(of(sound_design(), LabelValue::vmp_v, edition) == Approx(450));
    CHECK(of(sound_design(), LabelValue::imp_a, edition) == Approx(81));
  }
}

TEST_CASE("of unlike strings: the highest Vmax, the sum of the currents, the lowest operating voltage") {
  Json design = sound_design();
  Json second = design["combiners"][0]["circuits"][0];
  second.merge_patch({{"id", "2"}, {"series", 16}, {"strings", 2}});
  design["combiners"][0]["circuits"].push_back(second);
  CHECK(of(design, LabelValue::max_v) == Approx(596.7));
  CHECK(of(design, LabelValue::max_a) == Approx(11 * 12));
  CHECK(of(design, LabelValue::isc_a) == Approx(11 * 9.6));
  CHECK(of(design, LabelValue::vmp_v) == Approx(16 * 25));
  CHECK(of(design, LabelValue::imp_a) == Approx(11 * 9));
}

TEST_CASE("what cannot be computed is left open, and the rest is there") {
  struct Row {
    const char* pointer;
    bool voltage, operating;
  };
  for (const Row& r : {Row{"/site/low_c", false, true}, Row{"/modules/M/vmp_v", true, false},
                       Row{"/modules/M/imp_a", true, false}, Row{"/site/high_c", true, true}}) {
    CAPTURE(r.pointer);
    const LabelContents c = contents_of(without(sound_design(), r.pointer));
    CHECK(c.of(LabelValue::max_v).has_value() == r.voltage);
    CHECK(c.of(LabelValue::max_a).has_value());
    CHECK(c.of(LabelValue::isc_a).has_value());
    CHECK(c.of(LabelValue::vmp_v).has_value() == r.operating);
    CHECK(c.of(LabelValue::imp_a).has_value() == r.operating);
  }
}

TEST_CASE("a highest voltage is left open as soon as one string's is not known") {
  Json design = sound_design();
  design["modules"]["N"] = design["modules"]["M"];
  design["modules"]["N"].erase("voc_coeff_pct_per_c");
  design["modules"]["N"]["cell"] = "thin-film";
  Json second = design["combiners"][0]["circuits"][0];
  second.merge_patch({{"id", "2"}, {"module", "N"}});
  design["combiners"][0]["circuits"].push_back(second);
  CHECK_FALSE(contents_of(design).of(LabelValue::max_v).has_value());
}

TEST_CASE("maxima are printed rounded up, but for the noise of the arithmetic") {
  struct Row {
    LabelValue value;
    double computed, printed;
  };
  // The slack is 1e-9 of the value.
  for (const Row& r : std::vector<Row>{{LabelValue::max_v, 596.7, 597},
                                       {LabelValue::max_v, 597, 597},
                                       {LabelValue::max_v, 597 * (1 + 0.5e-9), 597},
                                       {LabelValue::max_v, 597 * (1 + 2e-9), 598},
                                       {LabelValue::max_v, 597.01, 598},
                                       {LabelValue::max_a, 108, 108},
                                       {LabelValue::max_a, 108 * (1 + 0.5e-9), 108},
                                       {LabelValue::max_a, 108 * (1 + 2e-9), 108.1},
                                       {LabelValue::max_a, 108.01, 108.1},
                                       {LabelValue::max_a, 108.1, 108.1},
                                       {LabelValue::isc_a, 86.4, 86.4},
                                       {LabelValue::isc_a, 86.41, 86.5},
                                       {LabelValue::isc_a, 86.39, 86.4}}) {
    CAPTURE(static_cast<int>(r.value), r.computed);
    CHECK(printed(r.value, r.computed) == Approx(r.printed).epsilon(1e-13));
  }
}

TEST_CASE("rated values are printed to the nearest tenth") {
  for (const LabelValue value : {LabelValue::vmp_v, LabelValue::imp_a}) {
    CHECK(printed(value, 450) == 450);
    CHECK(printed(value, 450.04) == Approx(450).epsilon(1e-13));
    CHECK(printed(value, 450.06) == Approx(450.1).epsilon(1e-13));
    CHECK(printed(value, 81.96) == Approx(82).epsilon(1e-13));
  }
}

TEST_CASE("a printed maximum never lies below the computed one by more than the comparisons' slack") {
  for (int i = 0; i < 2000; ++i) {
    const double x = 0.37 * i + 0.0731;
    for (const LabelValue value : {LabelValue::max_v, LabelValue::max_a, LabelValue::isc_a}) {
      CAPTURE(x, static_cast<int>(value));
      CHECK_FALSE(exceeds(x, printed(value, x)));
      CHECK(printed(value, x) < x + (value == LabelValue::max_v ? 1 : 0.1));
    }
  }
}

TEST_CASE("the schedule of a box: what the edition asks for, then what only the plan calls for") {
  // The sound design calls for eight kinds. Ground fault, rapid shutdown and, from 2020, the highest voltage
  // stand with the site where the edition knows them, and with the box as "plan" where it does not.
  CHECK(schedule_of(sound_design(), "2008") == Words{"dc-power-source", "shock-both-sides", "disconnect",
                                                     "box-identification (plan)", "max-voltage (plan)",
                                                     "raceway-power-source (plan)", "rapid-shutdown (plan)"});
  CHECK(schedule_of(sound_design(), "2011") == Words{"box-identification", "dc-power-source",
                                                     "shock-both-sides", "raceway-power-source", "disconnect",
                                                     "max-voltage (plan)", "rapid-shutdown (plan)"});
  CHECK(schedule_of(sound_design(), "2014") == Words{"box-identification", "dc-power-source",
                                                     "shock-both-sides", "raceway-power-source", "disconnect",
                                                     "max-voltage (plan)"});
  CHECK(schedule_of(sound_design(), "2017") == Words{"box-identification", "max-voltage", "shock-both-sides",
                                                     "raceway-power-source", "disconnect",
                                                     "dc-power-source (plan)", "ground-fault (plan)"});
  for (const std::string_view edition : {"2020", "2023"})
    CHECK(schedule_of(sound_design(), edition) == Words{"box-identification", "shock-both-sides",
                                                        "raceway-power-source", "disconnect",
                                                        "dc-power-source (plan)", "ground-fault (plan)"});
}

TEST_CASE("the schedule of a box without labels of its own is what the edition asks for") {
  const Json bare = without(sound_design(), "/combiners/0/labels");
  CHECK(schedule_of(bare, "2017") ==
        Words{"box-identification", "max-voltage", "shock-both-sides", "raceway-power-source", "disconnect"});
  Json no_switch = bare;
  no_switch["combiners"][0].erase("disconnect");
  CHECK(schedule_of(no_switch, "2017") == Words{"box-identification", "raceway-power-source"});
  CHECK(schedule_of(put(no_switch, "/site/use", "ground"), "2008").empty());
}

TEST_CASE("the schedule keeps a label whose need hangs on a value that is not stated") {
  const Json bare = without(sound_design(), "/combiners/0/labels");
  CHECK(schedule_of(without(bare, "/inverters/I/grounding"), "2014") ==
        Words{"box-identification", "dc-power-source", "shock-both-sides", "raceway-power-source",
              "ungrounded-system ?/inverters/I/grounding", "disconnect"});
  CHECK(schedule_of(without(bare, "/combiners/0/disconnect/distance_m"), "2014") ==
        Words{"box-identification", "dc-power-source", "shock-both-sides", "raceway-power-source",
              "disconnect", "directory ?/disconnect/distance_m"});
  // A word that the edition does not know says as little.
  const Json functional = put(bare, "/inverters/I/grounding", "functional");
  CHECK(schedule_of(functional, "2008") == Words{"dc-power-source", "shock-both-sides",
                                                 "ungrounded-system ?/inverters/I/grounding", "disconnect"});
  CHECK(site_schedule_of(functional, "2008") == Words{"ground-fault ?/inverters/I/grounding"});
  CHECK(schedule_of(functional, "2017") == schedule_of(bare, "2017"));
  CHECK(site_schedule_of(without(bare, "/inverters/I/grounding"), "2014") ==
        Words{"ground-fault ?/inverters/I/grounding", "rapid-shutdown"});
}

TEST_CASE("the schedule of the site") {
  const Json ground = put(sound_design(), "/site/use", "ground");
  CHECK(site_schedule_of(sound_design(), "2008") == Words{"ground-fault"});
  CHECK(site_schedule_of(sound_design(), "2011") == Words{"ground-fault"});
  CHECK(site_schedule_of(sound_design(), "2014") == Words{"ground-fault", "rapid-shutdown"});
  CHECK(site_schedule_of(sound_design(), "2017") == Words{"rapid-shutdown"});
  CHECK(site_schedule_of(ground, "2017").empty());
  for (const std::string_view edition : {"2020", "2023"}) {
    CHECK(site_schedule_of(sound_design(), edition) == Words{"max-voltage", "rapid-shutdown"});
    CHECK(site_schedule_of(ground, edition) == Words{"max-voltage"});
  }
  CHECK(site_schedule_of(put(ground, "/inverters/I/grounding", "ungrounded"), "2014").empty());
}
