// Every key of the page on the field record reaches its field, and what is absent stays "not seen".
#include "boxproof/read.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;

namespace {

// No two values alike where they could be mixed up.
constexpr std::string_view full_record = R"({
  "$schema": "asbuilt.schema.json",
  "note": "all keys",
  "boxes": [
    { "note": "n", "id": "A-1",
      "posted": { "note": "n", "id": "A-01", "strings": 11, "series": 12, "max_v": 971, "max_a": 101, "fuse_a": 16 },
      "count": { "note": "n", "positive": 13, "negative": 14, "fuses": 15, "series": [ 18, 17, 18 ], "modules": 239 },
      "fuse": { "note": "n", "a": 20, "v": 1001, "dc": false, "pv_listed": true, "poles": "both" },
      "mixed_fuses": [ { "note": "n", "position": 7, "a": 25 }, { "a": 30 }, {} ],
      "enclosure": { "note": "n", "type": "3R", "air_gap_mm": 4.5, "cover": "up", "listed": true, "secured": false,
        "gasket_seated": true },
      "disconnect": { "note": "n", "present": true, "rated_v": 1002, "rated_a": 202, "load_break": false,
        "distance_m": 3.5, "works": true },
      "output": { "note": "n", "size": "250 kcmil", "material": "aluminum", "stranding": "fine", "insulation": "RHW-2",
        "antioxidant": false, "lug_for_fine_strand": true },
      "source": { "note": "n", "size": "12 AWG", "material": "copper", "stranding": "solid", "insulation": "USE-2" },
      "egc": { "note": "n", "size": "8 AWG", "material": "copper" },
      "labels": [ { "note": "n", "kind": "directory", "legible": false, "values": { "max_v": 972, "note": 7, "text": "x" } },
        { "kind": "disconnect" } ],
      "seen": [ { "what": "water-inside", "where": "floor", "origin": "manufacture", "photo": "p-3", "note": "wet" },
        { "what": "arc-marks" } ],
      "measured": { "note": "n", "irradiance_w_m2": 812, "cell_c": 44,
        "strings": [ { "note": "n", "position": 2, "voc_v": 705, "isc_a": 9.5, "insulation_mohm": 55, "reversed": true },
          { "voc_v": -3 } ] } },
    { "id": "A-2", "count": { "series": 19 } },
    { "id": "A-3", "measured": {}, "seen": [], "labels": [], "mixed_fuses": [] }
  ],
  "visit": { "note": "n", "date": "2027-03-18", "by": "someone", "kind": "again", "weather": "clear" },
  "format": "boxproof-asbuilt/1"
})";

const FieldRecord& full() {
  static const Document document{"record.json", std::string(full_record)};
  static const RecordFile file = read_field_record(document);
  return file.record;
}
const VisitedBox& box() {
  return full().boxes.at(0);
}

}  // namespace

TEST_CASE("the visit") {
  CHECK(full().date == "2027-03-18");
  CHECK(full().by == "someone");
  CHECK(full().weather == "clear");
  CHECK(full().kind == VisitKind::again);
  CHECK(full().boxes.size() == 3);
}

TEST_CASE("posted label and count") {
  CHECK(box().id == "A-1");
  CHECK(box().posted.id == "A-01");
  CHECK(box().posted.strings == 11U);
  CHECK(box().posted.series == 12U);
  CHECK(box().posted.max_voltage == Volts(971));
  CHECK(box().posted.max_current == Amps(101));
  CHECK(box().posted.fuse == Amps(16));
  CHECK(box().count.positive == 13U);
  CHECK(box().count.negative == 14U);
  CHECK(box().count.fuses == 15U);
  CHECK(box().count.modules == 239U);
  CHECK(box().count.series == std::vector<std::uint32_t>{18, 17, 18});
  CHECK(box().count.series_of_each);
  CHECK(full().boxes[1].count.series == std::vector<std::uint32_t>{19});
  CHECK_FALSE(full().boxes[1].count.series_of_each);
}

TEST_CASE("fuses, enclosure and disconnect as seen") {
  CHECK(box().fuse.rating == Amps(20));
  CHECK(box().fuse.voltage == Volts(1001));
  CHECK(box().fuse.dc == false);
  CHECK(box().fuse.pv_listed == true);
  CHECK(box().fuse.poles == Poles::both);
  REQUIRE(box().mixed_fuses.size() == 3);
  CHECK_FALSE(box().mixed_fuses[2].rating);
  CHECK(box().mixed_fuses[0].position == 7U);
  CHECK(box().mixed_fuses[0].rating == Amps(25));
  CHECK_FALSE(box().mixed_fuses[1].position);
  CHECK(box().mixed_fuses[1].rating == Amps(30));
  CHECK(box().enclosure.type == "3R");
  CHECK(box().enclosure.air_gap == Millimetres(4.5));
  CHECK(box().enclosure.cover == Cover::up);
  CHECK(box().enclosure.listed == true);
  CHECK(box().enclosure.secured == false);
  CHECK(box().enclosure.gasket_seated == true);
  CHECK(box().disconnect.present == true);
  CHECK(box().disconnect.rated_voltage == Volts(1002));
  CHECK(box().disconnect.rated_current == Amps(202));
  CHECK(box().disconnect.load_break == false);
  CHECK(box().disconnect.distance == Metres(3.5));
  CHECK(box().disconnect.works == true);
}

TEST_CASE("conductors as seen") {
  CHECK(box().output.size->name() == "250 kcmil");
  CHECK(box().output.material == Material::aluminum);
  CHECK(box().output.stranding == Stranding::fine);
  CHECK(box().output.insulation == "RHW-2");
  CHECK(box().output.antioxidant == false);
  CHECK(box().output.lug_for_fine_strand == true);
  CHECK(box().source.size->name() == "12 AWG");
  CHECK(box().source.material == Material::copper);
  CHECK(box().source.stranding == Stranding::solid);
  CHECK(box().source.insulation == "USE-2");
  CHECK(box().egc.size->name() == "8 AWG");
  CHECK(box().egc.material == Material::copper);
}

TEST_CASE("labels, conditions and measurements") {
  REQUIRE(box().labels.size() == 2);
  CHECK(box().labels[0].kind == "directory");
  CHECK(box().labels[0].legible == false);
  CHECK(box().labels[0].values == std::vector<std::pair<std::string, double>>{{"max_v", 972}});
  CHECK_FALSE(box().labels[1].legible);
  REQUIRE(box().seen.size() == 2);
  CHECK(box().seen[0].what == "water-inside");
  CHECK(box().seen[0].where == "floor");
  CHECK(box().seen[0].origin == Origin::manufacture);
  CHECK(box().seen[0].photo == "p-3");
  CHECK(box().seen[0].note == "wet");
  CHECK_FALSE(box().seen[1].origin);
  REQUIRE(box().measured);
  CHECK(box().measured->irradiance_w_m2 == 812);
  CHECK(box().measured->cell == Celsius(44));
  REQUIRE(box().measured->strings.size() == 2);
  const MeasuredString& s = box().measured->strings[0];
  CHECK(s.position == 2U);
  CHECK(s.voc == Volts(705));
  CHECK(s.isc == Amps(9.5));
  CHECK(s.insulation_megohm == 55);
  CHECK(s.reversed == true);
  CHECK(box().measured->strings[1].voc == Volts(-3));  // a string with its poles swapped
}

TEST_CASE("what was not looked at is absent") {
  const VisitedBox& b = full().boxes[1];
  CHECK_FALSE(b.posted.id);
  CHECK_FALSE(b.posted.strings);
  CHECK_FALSE(b.count.positive);
  CHECK_FALSE(b.fuse.rating);
  CHECK_FALSE(b.enclosure.type);
  CHECK_FALSE(b.enclosure.secured);
  CHECK_FALSE(b.disconnect.present);
  CHECK_FALSE(b.output.size);
  CHECK_FALSE(b.source.insulation);
  CHECK_FALSE(b.egc.size);
  CHECK_FALSE(b.measured);
  CHECK(full().boxes[2].measured);
  CHECK(full().boxes[2].measured->strings.empty());
}

TEST_CASE("a record of no boxes is a record") {
  const Document document{"record.json", R"({ "format": "boxproof-asbuilt/1", "boxes": [] })"};
  CHECK(read_field_record(document).record.boxes.empty());
}

TEST_CASE("a visited box has an id that says something") {
  // As in the design: an empty id names no box.
  const Document document{"record.json", R"({ "format": "boxproof-asbuilt/1", "boxes": [ { "id": "" } ] })"};
  CHECK_THROWS_AS(read_field_record(document), InputError);
}
