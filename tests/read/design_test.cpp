// Every key of the page on the design file reaches its field.
#include "boxproof/read.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;

namespace {

// No two values alike where they could be mixed up. The list of boxes and the box types stand before what
// they name.
constexpr std::string_view full_design = R"({
  "$schema": "design.schema.json",
  "note": "all keys",
  "combiners": [
    { "note": "n", "id": "A-1", "type": "T", "sheet": "E-3", "location": "row 4", "inverter": "I",
      "mounting": { "note": "n", "place": "indoor", "cover": "side", "air_gap_mm": 6.5, "wet": false },
      "enclosure": { "note": "n", "type": "4X", "rated_v": 1001, "rated_a": 201, "inputs": 13, "listed": true,
        "metal": false, "rated_100_pct": true, "inside_c": 41 },
      "circuits": [
        { "note": "n", "id": "east", "module": "M", "series": 17, "strings": 6, "strings_per_fuse": 2,
          "run": { "note": "n", "conductor": "C", "method": "free-air", "current_carrying": 8, "above_roof_mm": 90,
            "ambient_c": 37, "terminal_c": 75, "length_m": 31, "parallel": 3 },
          "bond": { "note": "n", "size": "12 AWG", "material": "aluminum" } },
        { "module": "M", "series": 16 }
      ],
      "fuse": { "note": "n", "a": 15, "v": 1002, "dc": true, "pv_listed": false, "poles": "both", "interrupt_ka": 21,
        "ambient_factor": 0.91 },
      "output": { "note": "n", "run": { "conductor": "C", "method": "raceway" }, "ocpd_a": 176,
        "ocpd_rated_100_pct": true },
      "disconnect": { "note": "n", "rated_v": 1003, "rated_a": 202, "load_break": true, "distance_m": 2.5,
        "external_handle": false, "lockable": true },
      "egc": { "size": "6 AWG", "material": "copper" },
      "bond": { "size": "10 AWG", "material": "copper" },
      "labels": [ { "note": "n", "kind": "max-voltage", "values": { "max_v": 975, "text": "x", "max_a": 33, "note": [] } },
        { "kind": "directory" } ] }
  ],
  "box_types": { "note": "n", "T": { "note": "n", "sheet": "E-9" } },
  "conductors": {
    "note": "n",
    "C": { "note": "n", "size": "4/0 AWG", "material": "aluminum", "insulation": "XHHW-2", "insulation_c": 90,
      "rated_v": 1004, "stranding": "fine" } },
  "inverters": {
    "note": "n",
    "I": { "note": "n", "max_dc_v": 1005, "max_dc_isc_a": 501, "mppt_min_v": 203, "mppt_max_v": 904,
      "grounding": "functional", "ground_fault_protection": true, "arc_fault_protection": false,
      "rapid_shutdown": true, "backfeed_a": 7 } },
  "modules": {
    "note": "n",
    "M": { "note": "n", "voc_v": 40, "isc_a": 10, "vmp_v": 32, "imp_a": 9, "pmax_w": 290,
      "voc_coeff_pct_per_c": -0.3, "vmp_coeff_pct_per_c": -0.4, "isc_coeff_pct_per_c": 0.05, "cell": "thin-film",
      "isc_rear_a": 11.5, "max_fuse_a": 20, "max_system_v": 1006, "listed": false },
    "V": { "voc_v": 41, "isc_a": 8, "voc_coeff_v_per_c": -0.12, "cell": "poly-si" } },
  "code": { "note": "n", "edition": "2020", "amendments": "local/rules.json" },
  "site": { "note": "n", "name": "Trial Field", "use": "dwelling", "low_c": -12, "high_c": 38,
    "temperature_source": "sheet 2",
    "permit": { "note": "n", "number": "P-7", "modules": 118, "strings": 7, "combiners": 1, "dc_kw": 34.2 } },
  "format": "boxproof-design/1"
})";

const Document document{"design.json", std::string(full_design)};

const Design& full() {
  static const DesignFile file = read_design(document);
  return file.design;
}

}  // namespace

TEST_CASE("site, permit and code") {
  const Site& s = full().site;
  CHECK(s.name == "Trial Field");
  CHECK(s.use == Use::dwelling);
  CHECK(s.low == Celsius(-12));
  CHECK(s.high == Celsius(38));
  CHECK(s.temperature_source == "sheet 2");
  CHECK(s.permit.stated);
  CHECK(s.permit.number == "P-7");
  CHECK(s.permit.modules == 118);
  CHECK(s.permit.strings == 7);
  CHECK(s.permit.combiners == 1);
  CHECK(s.permit.dc_kilowatts == 34.2);
  CHECK(full().edition == "2020");
  CHECK(full().amendments_path == "local/rules.json");
  CHECK_FALSE(full().amendments_offset);
}

TEST_CASE("modules") {
  CHECK(full().modules.entries().size() == 2);
  const Module& m = *full().modules.find("M");
  CHECK(m.voc == Volts(40));
  CHECK(m.isc == Amps(10));
  CHECK(m.vmp == Volts(32));
  CHECK(m.imp == Amps(9));
  CHECK(m.pmax == Watts(290));
  CHECK(m.voc_coefficient.value().percent() == -0.3);
  CHECK_FALSE(m.voc_coefficient_absolute);
  CHECK(m.vmp_coefficient.value().percent() == -0.4);
  CHECK(m.isc_coefficient.value().percent() == 0.05);
  CHECK(m.cell == Cell::thin_film);
  CHECK(m.isc_front_and_rear == Amps(11.5));
  CHECK(m.isc_for_circuits() == Amps(11.5));
  CHECK(m.max_fuse == Amps(20));
  CHECK(m.max_system == Volts(1006));
  CHECK(m.listed == false);
  const Module& v = *full().modules.find("V");
  CHECK(v.voc_coefficient_absolute.value().value() == -0.12);
  CHECK_FALSE(v.voc_coefficient);
  CHECK(v.cell == Cell::poly_si);
  CHECK(v.isc_for_circuits() == Amps(8));
  CHECK_FALSE(v.listed);
}

TEST_CASE("inverters and conductors") {
  const Inverter& i = *full().inverters.find("I");
  CHECK(i.max_dc == Volts(1005));
  CHECK(i.max_dc_isc == Amps(501));
  CHECK(i.tracking_min == Volts(203));
  CHECK(i.tracking_max == Volts(904));
  CHECK(i.grounding == Grounding::functional);
  CHECK(i.ground_fault_protection == true);
  CHECK(i.arc_fault_protection == false);
  CHECK(i.rapid_shutdown == true);
  CHECK(i.backfeed == Amps(7));
  const Conductor& c = *full().conductors.find("C");
  CHECK(c.size->name() == "4/0 AWG");
  CHECK(c.material == Material::aluminum);
  CHECK(c.insulation == "XHHW-2");
  CHECK(c.insulation_temperature == 90);
  CHECK(c.rated == Volts(1004));
  CHECK(c.stranding == Stranding::fine);
}

TEST_CASE("a box, its mounting and its enclosure") {
  REQUIRE(full().combiners.size() == 1);
  const Combiner& b = full().combiners[0];
  CHECK(b.id == "A-1");
  CHECK(b.type == full().box_types.find("T"));
  CHECK(b.sheet == "E-3");
  CHECK(b.location == "row 4");
  CHECK(b.inverter == full().inverters.find("I"));
  CHECK(b.mounting->place == Place::indoor);
  CHECK(b.mounting->cover == Cover::side);
  CHECK(b.mounting->air_gap == Millimetres(6.5));
  CHECK(b.mounting->wet == false);
  const Enclosure& e = *b.enclosure;
  CHECK(e.type == "4X");
  CHECK(e.rated_voltage == Volts(1001));
  CHECK(e.rated_current == Amps(201));
  CHECK(e.inputs == 13U);
  CHECK(e.listed == true);
  CHECK(e.metal == false);
  CHECK(e.rated_100_pct);
  CHECK(e.inside == Celsius(41));
}

TEST_CASE("circuits and runs") {
  const auto& circuits = full().combiners[0].circuits;
  REQUIRE(circuits.size() == 2);
  const Circuit& c = circuits[0];
  CHECK(c.id == "east");
  CHECK(c.module == full().modules.find("M"));
  CHECK(c.series == 17);
  CHECK(c.strings == 6);
  CHECK(c.strings_per_fuse == 2);
  REQUIRE(c.run);
  CHECK(c.run->conductor == full().conductors.find("C"));
  CHECK(c.run->method == Method::free_air);
  CHECK(c.run->current_carrying == 8);
  CHECK(c.run->above_roof == Millimetres(90));
  CHECK(c.run->ambient == Celsius(37));
  CHECK(c.run->terminal == 75);
  CHECK(c.run->length == Metres(31));
  CHECK(c.run->parallel == 3);
  CHECK(c.bond->size->name() == "12 AWG");
  CHECK(c.bond->material == Material::aluminum);
  // What is absent: 1 string, 1 to a fuse, the position for an id.
  CHECK(circuits[1].id == "2");
  CHECK(circuits[1].strings == 1);
  CHECK(circuits[1].strings_per_fuse == 1);
  CHECK_FALSE(circuits[1].run);
  CHECK_FALSE(circuits[1].bond);
}

TEST_CASE("fuse, output, disconnect, grounding and labels of a box") {
  const Combiner& b = full().combiners[0];
  CHECK(b.fuse->rating == Amps(15));
  CHECK(b.fuse->voltage == Volts(1002));
  CHECK(b.fuse->dc == true);
  CHECK(b.fuse->pv_listed == false);
  CHECK(b.fuse->poles == Poles::both);
  CHECK(b.fuse->interrupt_kiloamps == 21);
  CHECK(b.fuse->ambient_factor == 0.91);
  CHECK(b.output->run->conductor == full().conductors.find("C"));
  CHECK(b.output->run->method == Method::raceway);
  CHECK(b.output->run->current_carrying == 2);  // 2 and 1 when absent
  CHECK(b.output->run->parallel == 1);
  CHECK(b.output->run->terminal == 0);
  CHECK(b.output->ocpd == Amps(176));
  CHECK(b.output->ocpd_rated_100_pct == true);
  CHECK(b.disconnect->rated_voltage == Volts(1003));
  CHECK(b.disconnect->rated_current == Amps(202));
  CHECK(b.disconnect->load_break == true);
  CHECK(b.disconnect->distance == Metres(2.5));
  CHECK(b.disconnect->external_handle == false);
  CHECK(b.disconnect->lockable == true);
  CHECK(b.egc->size->name() == "6 AWG");
  CHECK(b.egc->material == Material::copper);
  CHECK(b.bond->size->name() == "10 AWG");
  REQUIRE(b.labels->size() == 2);
  CHECK(b.labels->at(0).kind == "max-voltage");
  CHECK(b.labels->at(0).values == std::vector<std::pair<std::string, double>>{{"max_v", 975}, {"max_a", 33}});
  CHECK(b.labels->at(1).kind == "directory");
  CHECK(b.labels->at(1).values.empty());
}

TEST_CASE("amendments in the file itself are known by their place") {
  std::string text(full_design);
  const std::string path = "\"local/rules.json\"";
  text.replace(text.find(path), path.size(), "{ \"site\": {} }");
  const Document inline_document{"design.json", text};
  const DesignFile file = read_design(inline_document);
  CHECK(file.design.amendments_path.empty());
  REQUIRE(file.design.amendments_offset);
  CHECK(text.substr(*file.design.amendments_offset, 14) == "{ \"site\": {} }");
}
