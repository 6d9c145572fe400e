// Each input that a rule needs, taken out once: a query that names the key, in every edition in which the
// rule needs it.
#include <algorithm>
#include <string>
#include <vector>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge_text.hpp"
#include "tests/support/rule_case.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

struct MissingInput {
  std::string rule, key;           // taken out of the design
  std::string names = {};          // what the query names, where that is not the key as it stands here
  Changes scene = {};              // of the sound design
  std::string_view editions = {};  // "2008 2011" where not all that have the rule need it
};

const std::string string = "/conductors/string/", feeder = "/conductors/feeder/", m = "/modules/M/",
                  i = "/inverters/I/";
const std::string run = "circuits/0/run", in_run = "circuits 1/run";
const Changes three_unfused{{"fuse", nullptr}, {"circuits/0/strings", 3}};
const Changes second_module{
    {"/modules/N", sound_design()["modules"]["M"]},
    {"circuits/0/strings", 5},
    {"circuits/1", Json::parse(R"({"id": "2", "module": "N", "series": 18, "strings": 4})")}};
const Changes ungrounded{{i + "grounding", "ungrounded"}, {"fuse/poles", "both"}};
const Changes on_ground{{"/site/use", "ground"}, {"mounting/place", "ground"}};
const Changes two_strings_on_ground{{"/site/use", "ground"},
                                    {"mounting/place", "ground"},
                                    {"circuits/0/strings", 2},
                                    {i + "ground_fault_protection", false}};

// clang-format off
std::vector<MissingInput> inputs() {
  std::vector<MissingInput> out;
  for (const char* rule : {"voltage/no-factor", "voltage/site-limit", "voltage/module-rating", "voltage/inverter-input",
                           "voltage/equipment-rating"}) {
    out.push_back({rule, "/site/low_c"});
    out.push_back({rule, m + "voc_coeff_pct_per_c", "", {{m + "cell", "thin-film"}}});
    out.push_back({rule, m + "cell", "modules/M/voc_coeff_pct_per_c", {{m + "voc_coeff_pct_per_c", nullptr}}});
  }
  const std::vector<MissingInput> voltage{
      {"voltage/module-rating", m + "max_system_v"},
      {"voltage/inverter-input", i + "max_dc_v"},
      {"voltage/equipment-rating", "fuse/v"},
      {"voltage/equipment-rating", "disconnect/rated_v"},
      {"voltage/equipment-rating", "enclosure/rated_v"},
      {"voltage/equipment-rating", "enclosure", "enclosure/rated_v"},
      {"voltage/equipment-rating", string + "rated_v"},
      {"voltage/equipment-rating", feeder + "rated_v"},
      {"voltage/unequal-strings", "/modules/N/vmp_v", "", second_module},
      {"voltage/tracking-window", m + "vmp_v"},
      {"voltage/tracking-window", i + "mppt_min_v"},
      {"voltage/tracking-window", i + "mppt_max_v"},
      {"voltage/tracking-window", "/site/high_c"},
      {"voltage/tracking-window", "/site/low_c"},
      {"current/box-rating", "enclosure/rated_a"},
      {"current/inverter-input", i + "max_dc_isc_a"},
      {"current/inputs", "enclosure/inputs"}};
  const std::vector<MissingInput> fuses{
      {"fuse/missing", m + "max_fuse_a", "", three_unfused},
      {"fuse/missing", "/site/high_c", "", three_unfused},
      {"fuse/missing", run, in_run, three_unfused},
      {"fuse/too-small", "fuse/a"},
      {"fuse/over-module-limit", "fuse/a"},
      {"fuse/over-module-limit", m + "max_fuse_a"},
      {"fuse/not-dc", "fuse/dc"},
      {"fuse/not-pv-listed", "fuse/pv_listed"},
      {"fuse/poles", "fuse/poles"},
      {"fuse/poles", i + "grounding"},
      {"fuse/poles", "fuse/poles", "", ungrounded, "2008 2011 2014"},  // later either will do
      {"fuse/heat", "enclosure/inside_c"}};
  out.insert(out.end(), voltage.begin(), voltage.end());
  out.insert(out.end(), fuses.begin(), fuses.end());
  for (const char* rule : {"conductor/before-conditions", "conductor/after-conditions", "conductor/unprotected"}) {
    out.push_back({rule, run, in_run});
    out.push_back({rule, run + "/conductor", in_run + "/conductor"});
    out.push_back({rule, run + "/method", in_run + "/method"});
    out.push_back({rule, "output/run"});
    out.push_back({rule, "output/run/conductor"});
    out.push_back({rule, "output/run/method"});
    for (const char* key : {"size", "material", "insulation_c"}) out.push_back({rule, string + key});
    out.push_back({rule, "/site/high_c"});
  }
  const std::vector<MissingInput> conductors{
      {"conductor/unprotected", "fuse/a"},
      {"conductor/small-size-limit", "fuse/a"},
      {"conductor/small-size-limit", string + "size"},
      {"conductor/small-size-limit", string + "material"},
      {"conductor/insulation", string + "insulation"},
      {"conductor/insulation", run + "/method", in_run + "/method"},
      {"conductor/insulation", "output/run"},
      {"conductor/insulation", "mounting/place"},
      {"conductor/insulation", "mounting/wet", "", {{"mounting/place", "indoor"}, {feeder + "insulation", "THHN"}}},
      {"conductor/insulation", i + "grounding", "", {{string + "insulation", "USE-2"}}, "2008 2011 2014"},
      {"conductor/aluminum", string + "material"},
      {"conductor/aluminum", feeder + "size", "", {{feeder + "material", "aluminum"}}},
      {"conductor/fine-strand", feeder + "stranding"},
      {"conductor/fine-strand", "output/run"},
      {"conductor/grounding-size", "egc/size"},
      {"conductor/grounding-size", "egc/material"},
      {"conductor/grounding-size", "bond/size"},
      {"conductor/grounding-size", "bond/material"},
      {"conductor/grounding-size", "fuse/a"},
      {"conductor/voltage-drop", m + "vmp_v"},
      {"conductor/voltage-drop", m + "imp_a"},
      {"conductor/voltage-drop", run + "/length_m", in_run + "/length_m"},
      {"conductor/voltage-drop", "output/run/length_m"},
      {"conductor/voltage-drop", feeder + "size"}};
  const std::vector<MissingInput> equipment{
      {"disconnect/missing", "mounting/place", "", {{"disconnect", nullptr}}, "2014"},  // the others do not go by place
      {"disconnect/not-load-break", "disconnect/load_break"},
      {"disconnect/not-load-break", "mounting/place", "", {}, "2014"},
      {"disconnect/too-far", "disconnect/distance_m", "", {}, "2011 2014 2017 2020"},  // 2023 sets no distance
      {"disconnect/too-far", "disconnect/lockable", "", {{"disconnect/distance_m", 1}}, "2023"},
      {"disconnect/too-far", "mounting/place", "", {}, "2014"},
      {"disconnect/current-rating", "disconnect/rated_a"},
      {"disconnect/handle", "disconnect/external_handle"},
      {"disconnect/handle", "disconnect/lockable", "", {}, "2017 2020 2023"},
      {"disconnect/handle", "mounting/place", "", {}, "2014"},
      {"enclosure/type", "enclosure/type"},
      {"enclosure/type", "mounting/place"},
      {"enclosure/type", "mounting/cover", "", {{"enclosure/type", "3R"}}},
      {"enclosure/type", "mounting/wet", "", {{"enclosure/type", "3R"}, {"mounting/place", "indoor"}}},
      {"enclosure/air-gap", "enclosure/metal"},
      {"enclosure/air-gap", "mounting/air_gap_mm"},
      {"enclosure/air-gap", "mounting/place", "", {{"mounting/wet", nullptr}}},
      {"enclosure/air-gap", "mounting/wet", "", {{"mounting/place", "indoor"}}},
      {"enclosure/not-listed", "enclosure/listed"},
      {"protection/ground-fault", i + "ground_fault_protection"},
      {"protection/ground-fault", i + "grounding", "", two_strings_on_ground},
      {"protection/arc-fault", i + "arc_fault_protection"},
      {"protection/arc-fault", i + "arc_fault_protection", "", on_ground, "2014 2017 2020 2023"},  // 2011: on buildings
      {"protection/rapid-shutdown", i + "rapid_shutdown"},
      {"label/missing", "labels"},
      {"label/missing", i + "grounding", "", {}, "2008 2011 2014"},  // later no label hangs on it
      {"label/missing", "disconnect/distance_m", "", {}, "2011 2014"},  // the directory of far disconnects
      {"label/missing", "output/run/method", "", {}, "2011 2014 2017 2020 2023"},
      {"label/values", m + "vmp_v"},
      {"label/values", m + "imp_a"},
      {"site/totals", m + "pmax_w", "", {{"/site/permit/dc_kw", 36.45}}},
      {"site/grounding-term", i + "grounding", "", {{"fuse", nullptr}}}};
  out.insert(out.end(), conductors.begin(), conductors.end());
  out.insert(out.end(), equipment.begin(), equipment.end());
  return out;
}
// clang-format on

// The queries that the rule makes, or joins in, about this value.
std::vector<const Finding*> queries(const Judged& judged, std::string_view rule, std::string_view names) {
  std::vector<const Finding*> out;
  for (const Finding& f : judged.findings()) {
    const auto speaks = [&](const Rule* r) { return r->id == rule; };
    if (f.lacking && f.part == names && (speaks(f.rule) || std::any_of(f.also.begin(), f.also.end(), speaks)))
      out.push_back(&f);
  }
  return out;
}

void check_query(const Finding& f, std::string_view names) {
  CAPTURE(f.message);
  CHECK(f.severity == Severity::query);
  CHECK(std::get<std::string>(f.found) == "not stated");
  CHECK_FALSE(f.section.empty());
  CHECK(f.place.line > 0);
  // Either the key by name, or the reason why nothing else does in its place.
  const bool by_name = f.message.starts_with(std::string(names) + " is not stated, so ");
  CHECK((by_name || f.message.find("coefficient") != std::string::npos));
}

}  // namespace

TEST_CASE("each input taken out gives one query that names it, in every edition that needs it") {
  for (const MissingInput& in : inputs()) {
    const Json whole = changed(sound_design(), "/combiners/0", in.scene);
    const Json design = changed(whole, "/combiners/0", {{in.key, nullptr}});
    const std::string names = in.names.empty() ? in.key.substr(in.key.starts_with('/') ? 1 : 0) : in.names;
    for (const std::string_view name : edition_names) {
      const auto judged = judge_text(design.dump(1), edition_of(name));
      CAPTURE(in.rule, in.key, std::string(name), judged->summary());
      const bool runs = edition_of(name).rules.contains(in.rule);
      const bool needs = in.editions.empty() || in.editions.find(name) != std::string_view::npos;
      const auto found = queries(*judged, in.rule, names);
      CHECK(found.size() == (runs && needs ? 1U : 0U));
      for (const Finding* f : found) check_query(*f, names);
      CHECK(queries(*judge_text(whole.dump(1), edition_of(name)), in.rule, names).empty());
    }
  }
}

TEST_CASE("each input of a measurement taken out gives one query that names it, in every edition") {
  const Json measured = Json::parse(R"({"irradiance_w_m2": 1000, "cell_c": 25, "strings": [
    {"position": 1, "voc_v": 540, "isc_a": 9.6}, {"position": 2, "voc_v": 540, "isc_a": 9.6}]})");
  const Json record{{"format", "boxproof-asbuilt/1"}, {"boxes", {{{"id", "A-01"}, {"measured", measured}}}}};
  struct Row {
    std::string_view rule;
    std::string key;
  };
  for (const Row& row : std::vector<Row>{{"measured/series-count", "measured/irradiance_w_m2"},
                                         {"measured/series-count", "measured/cell_c"},
                                         {"measured/spread", "measured/irradiance_w_m2"},
                                         {"measured/current", "measured/irradiance_w_m2"}})
    for (const std::string_view name : edition_names) {
      const auto of = [&](const Json& r) {
        return judge_text(sound_design().dump(1), edition_of(name), r.dump(1));
      };
      const auto judged = of(changed(record, "/boxes/0", {{row.key, nullptr}}));
      CAPTURE(std::string(row.rule), row.key, std::string(name), judged->summary());
      const auto found = queries(*judged, row.rule, row.key);
      REQUIRE(found.size() == 1);
      check_query(*found.front(), row.key);
      CHECK(found.front()->in_record);
      CHECK(queries(*of(record), row.rule, row.key).empty());
    }
}
