// The label schedule for people. By hand for the sound design: 596.7 V, printed 597; 108 A; 86.4 A
// short-circuit; 450 V and 81 A operating.

#include <algorithm>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/example.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/page.hpp"
#include "tests/support/said.hpp"
#include "tests/support/schedule.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::string page_of(const Json& design, std::string_view edition = {}, bool whole_site = true) {
  return schedule_of(report::write_labels_text, design, edition, whole_site);
}

bool holds(const std::string& page, std::string_view text) {
  return page.find(text) != std::string::npos;
}

// The lines of the entry of this kind, from its heading to the empty line behind it; "" where there is none.
std::string entry(const std::string& page, const std::string& kind) {
  const auto name = page.find(" " + kind + "  [");
  if (name == std::string::npos) return "";
  const auto start = page.rfind('\n', name) + 1;
  return page.substr(start, page.find("\n\n", start) - start + 1);
}

// Text broken over several lines as one.
std::string joined(const std::string& text) {
  std::string out;
  for (const std::string& line : lines_of(text)) {
    const auto first = line.find_first_not_of(' ');
    if (first != std::string::npos) out += (out.empty() ? "" : " ") + line.substr(first);
  }
  return out;
}

Json far_ungrounded() {
  return put(put(sound_design(), "/inverters/I/grounding", "ungrounded"),
             "/combiners/0/disconnect/distance_m", 2.5);
}

}  // namespace

TEST_CASE("the head, the parts and the foot of the schedule") {
  const std::string page = page_of(sound_design());
  const auto lines = lines_of(page);
  CHECK(lines[0] == "boxproof " + std::string(version()) + std::string(80 - 9 - version().size() - 24, ' ') +
                        "label schedule, NEC 2017");
  CHECK(lines[1] == "Test site");
  CHECK(page.find("ON THE SITE\n") < page.find("AT THE BOXES\n"));
  CHECK(page.find("AT THE BOXES\n") < page.find("CONDUCTORS, told apart"));
  CHECK(holds(page, "* from memory, unverified\n"));
  CHECK(holds(joined(page), "____ is for the site to fill in, where no value is named as missing."));
  CHECK(joined(page).ends_with(std::string(caution())));
  for (const std::string_view edition : edition_names)
    CHECK(holds(page_of(sound_design(), edition), "label schedule, NEC " + std::string(edition)));
}

TEST_CASE("the page is 80 columns wide, whatever stands in it") {
  Json design = far_ungrounded();
  design["site"]["name"] = std::string(300, 'n');
  design["combiners"][0]["id"] = "A-01 " + std::string(200, 'x');
  for (const std::string_view edition : edition_names) {
    CHECK(too_wide(page_of(design, edition)).empty());
    CHECK(too_wide(page_of(example_json("saltmarsh.json"), edition)).empty());
    CHECK(too_wide(page_of(example_json("saltmarsh-faults.json"), edition)).empty());
  }
}

TEST_CASE("each kind: words, place and look") {
  struct Row {
    std::string edition, kind, where, text;
  };
  for (const Row& r : std::vector<Row>{
           {"2017", "box-identification", "on the outside of the box",
            "COMBINER A-01: 9 STRINGS OF 18, FUSES 15 A"},
           {"2017", "max-voltage", "on the disconnect of the box",
            "MAXIMUM VOLTAGE 597 V DC, MAXIMUM CURRENT 108 A"},
           {"2008", "dc-power-source", "on the disconnect of the box",
            "PV DC SOURCE: OPERATING CURRENT 81 A, OPERATING VOLTAGE 450 V DC, MAXIMUM VOLTAGE 597 V DC, "
            "SHORT-CIRCUIT CURRENT 86.4 A"},
           {"2014", "dc-power-source", "on the disconnect of the box",
            "PV DC SOURCE: OPERATING CURRENT 81 A, OPERATING VOLTAGE 450 V DC, MAXIMUM VOLTAGE 597 V DC, "
            "MAXIMUM CURRENT 108 A"},
           {"2017", "shock-both-sides", "on the disconnect of the box",
            "SHOCK HAZARD: BOTH SIDES OF THIS SWITCH MAY BE LIVE WITH THE SWITCH OPEN"},
           {"2011", "raceway-power-source", "on exposed raceways and on box covers",
            "PHOTOVOLTAIC POWER SOURCE"},
           {"2017", "raceway-power-source", "on exposed raceways and on box covers",
            "WARNING: PHOTOVOLTAIC POWER SOURCE"},
           {"2014", "ungrounded-system", "on the outside of the box",
            "SHOCK HAZARD: THE DC CONDUCTORS OF THIS ARRAY ARE NOT GROUNDED AND MAY BE LIVE"},
           {"2017", "rapid-shutdown", "once, at the service equipment",
            "THIS PV SYSTEM HAS RAPID SHUTDOWN; ITS SWITCH IS AT ____"},
           {"2017", "disconnect", "on the disconnect of the box", "DC DISCONNECT OF COMBINER A-01"},
           {"2014", "directory", "on the outside of the box",
            "THE DISCONNECT OF THESE FUSES IS 2.5 M FROM HERE, AT ____"}}) {
    CAPTURE(r.edition, r.kind);
    const std::string text = joined(entry(page_of(far_ungrounded(), r.edition), r.kind));
    CHECK(holds(text, " where     " + r.where + " text      " + r.text));
  }
  const std::string old = entry(page_of(sound_design(), "2014"), "ground-fault");
  CHECK(holds(joined(old), "at each inverter of a solidly grounded array, or at its ground-fault indicator"));
  CHECK(holds(joined(old), "WHEN A GROUND FAULT IS SHOWN"));
  const std::string system = joined(entry(page_of(sound_design(), "2023"), "max-voltage"));
  CHECK(holds(
      system,
      "once for each PV system, at one of: DC disconnect of the system, inverter, distribution equipment"));
}

TEST_CASE("letters, colours and distance, where the edition asks for them") {
  const std::string look = "white capitals on red, reflective; capitals of 9.5 mm or more";
  const std::string every = "every 3 m, and on each side of walls and floors";
  CHECK(holds(joined(entry(page_of(sound_design()), "raceway-power-source")), look + "; " + every));
  const std::string older = joined(entry(page_of(sound_design(), "2011"), "raceway-power-source"));
  CHECK(holds(older, every));
  CHECK_FALSE(holds(older, "white capitals"));
  CHECK(holds(joined(entry(page_of(sound_design(), "2014"), "rapid-shutdown")), look));
  CHECK(holds(joined(entry(page_of(sound_design()), "rapid-shutdown")),
              "look      of the form for the type of shutdown; a second label at its switch"));
  for (const std::string_view edition : {"2020", "2023"})
    CHECK(holds(joined(entry(page_of(sound_design(), edition), "rapid-shutdown")),
                "look      one form, whatever the type of shutdown; a second label at its switch"));
  CHECK_FALSE(holds(entry(page_of(sound_design()), "disconnect"), "look"));
}

TEST_CASE("wording that a section prescribes says so, and no other does") {
  for (const std::string_view edition : edition_names) {
    const std::string page = page_of(far_ungrounded(), edition);
    for (const LabelRule& rule : edition_of(edition).labels.kinds) {
      CAPTURE(edition, rule.kind);
      CHECK(holds(joined(entry(page, rule.kind)), "prescribed by " + rule.section) == !rule.words.empty());
    }
  }
}

TEST_CASE("a star behind what is from memory") {
  CHECK(holds(entry(page_of(sound_design()), "max-voltage"), "  3 max-voltage  [690.53 *]\n"));
  CHECK(holds(entry(page_of(sound_design(), "2008"), "dc-power-source"), "dc-power-source  [690.53]\n"));
  CHECK(holds(entry(page_of(sound_design(), "2023"), "max-voltage"), "max-voltage  [690.7(D)]\n"));
  CHECK(holds(entry(page_of(sound_design()), "dc-power-source"), "dc-power-source  [–]\n"));
  CHECK(holds(joined(entry(page_of(sound_design()), "dc-power-source")),
              "the plan calls for it; the edition does not ask for it at the box"));
}

TEST_CASE("what cannot be computed is left open") {
  const std::string cold = page_of(without(sound_design(), "/site/low_c"));
  CHECK(holds(joined(entry(cold, "max-voltage")), "MAXIMUM VOLTAGE ____ V DC, MAXIMUM CURRENT 108 A"));
  const std::string flat = page_of(without(sound_design(), "/modules/M/vmp_v"), "2008");
  CHECK(holds(joined(entry(flat, "dc-power-source")),
              "OPERATING CURRENT ____ A, OPERATING VOLTAGE ____ V DC, MAXIMUM VOLTAGE 597 V DC"));
  const std::string so = "; so not every value can be computed";
  CHECK(holds(joined(entry(cold, "max-voltage")), "missing   not stated: /site/low_c" + so));
  CHECK(holds(joined(entry(flat, "dc-power-source")), "missing   not stated: /modules/M/vmp_v" + so));
  const std::string both =
      page_of(without(without(sound_design(), "/site/low_c"), "/modules/M/imp_a"), "2008");
  CHECK(holds(joined(entry(both, "dc-power-source")),
              "missing   not stated: /modules/M/imp_a, /site/low_c" + so));
  Json film = without(sound_design(), "/modules/M/voc_coeff_pct_per_c");
  film["modules"]["M"]["cell"] = "thin-film";
  CHECK(holds(joined(entry(page_of(film, "2023"), "max-voltage")),
              "missing   not stated: /modules/M/voc_coeff_pct_per_c" + so));
  CHECK_FALSE(holds(page_of(sound_design()), "missing   "));
}

TEST_CASE("a label whose need hangs on a value that is not stated") {
  const Json bare = with_labels(sound_design(), Json::array());
  const std::string page = page_of(without(bare, "/combiners/0/disconnect/distance_m"), "2014");
  const std::string text = joined(entry(page, "directory"));
  CHECK(holds(text, "hangs on /disconnect/distance_m, which is not stated"));
  CHECK(holds(text, "IS ____ M FROM HERE"));
  CHECK(holds(joined(entry(page_of(without(bare, "/inverters/I/grounding"), "2014"), "ungrounded-system")),
              "hangs on /inverters/I/grounding, which is not stated"));
  const std::string functional = page_of(put(bare, "/inverters/I/grounding", "functional"), "2011");
  for (const char* kind : {"ungrounded-system", "ground-fault"})
    CHECK(holds(joined(entry(functional, kind)),
                "hangs on /inverters/I/grounding: functional, which the 2011 edition does not know"));
  CHECK(holds(joined(functional),
              "inverter I: grounding is functional, which the 2011 edition does not know, "
              "so neither is known"));
}

TEST_CASE("conductors are told apart by the grounding of each inverter") {
  Json design = with_second_box(sound_design(), {{"inverter", "J"}});
  design["inverters"]["J"] = design["inverters"]["I"];
  design["inverters"]["J"].erase("grounding");
  const std::string page = joined(page_of(design));
  CHECK(holds(page, "inverter I: the grounded conductor white or gray, the other not [200.6]"));
  CHECK(holds(page, "inverter J: grounding not stated, so neither is known"));
  CHECK(holds(joined(page_of(far_ungrounded())),
              "inverter I: no conductor white or gray; polarity marked at each termination [690.31(B)]"));
}

TEST_CASE("an opening under load is warned of where the switch cannot") {
  CHECK(holds(page_of(put(sound_design(), "/combiners/0/disconnect/load_break", false)),
              "DC DISCONNECT OF COMBINER A-01, DO NOT OPEN UNDER LOAD"));
  CHECK_FALSE(holds(page_of(sound_design()), "DO NOT OPEN"));
}

TEST_CASE("the site's own labels are left out of a selection") {
  const std::string page = page_of(sound_design(), {}, false);
  CHECK_FALSE(holds(page, "ON THE SITE"));
  CHECK_FALSE(holds(page, "rapid-shutdown"));
  CHECK(holds(page, "  1 box-identification"));
}

TEST_CASE("amendments are named in the head") {
  const Json design = put(sound_design(), "/code/amendments", {{"labels", {{"over_pct", 5}}}});
  CHECK(holds(page_of(design), "  Amended locally: labels.over_pct (5 in place of 10)\n"));
  CHECK_FALSE(holds(page_of(sound_design()), "Amended locally"));
}
