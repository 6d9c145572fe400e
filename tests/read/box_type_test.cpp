// A box is an RFC 7396 merge patch onto its type: a member replaces, an object is merged, null removes, a
// list is replaced whole.
#include "boxproof/read.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;

namespace {

constexpr std::string_view head =
    R"("format": "boxproof-design/1", "site": { "name": "Trial", "use": "ground" },
  "code": { "edition": "2017" })";
constexpr std::string_view modules =
    R"("modules": { "M": { "voc_v": 40, "isc_a": 10 }, "N": { "voc_v": 41, "isc_a": 9 } })";
constexpr std::string_view inverters =
    R"("inverters": { "I": {}, "J": {} }, "conductors": { "C": {}, "D": {} })";
constexpr std::string_view types = R"("box_types": { "T": {
  "inverter": "I", "sheet": "E-1", "location": "row 1",
  "mounting": { "place": "roof", "cover": "side" },
  "enclosure": { "type": "4X", "rated_v": 1000, "listed": true },
  "circuits": [ { "id": "a", "module": "M", "series": 18, "strings": 9 }, { "id": "b", "module": "M", "series": 17 } ],
  "fuse": { "a": 15, "v": 1000 },
  "output": { "run": { "conductor": "C", "length_m": 20, "terminal_c": 75 }, "ocpd_a": 175 },
  "disconnect": { "rated_v": 1000 },
  "egc": { "size": "6 AWG", "material": "copper" },
  "labels": [ { "kind": "directory" } ] } })";

struct File {
  Document document;
  DesignFile file;
  const Design& design() const { return file.design; }
  const Combiner& box(std::size_t i = 0) const { return file.design.combiners.at(i); }
};

std::string boxes(std::string_view members) {
  return R"("combiners": [ { "id": "A", "type": "T")" + std::string(members) +
         R"( }, { "id": "B", "type": "T" } ])";
}

std::unique_ptr<File> file(const std::vector<std::string>& parts) {
  std::string text = "{ ";
  for (const std::string& part : parts) (text += part) += &part == &parts.back() ? " }" : ",\n";
  auto out = std::make_unique<File>();
  out->document = {"design.json", text};
  out->file = read_design(out->document);
  return out;
}

std::unique_ptr<File> patched(std::string_view members) {
  return file(
      {std::string(head), std::string(modules), std::string(inverters), std::string(types), boxes(members)});
}

}  // namespace

TEST_CASE("a box without a patch has what its type has, shared") {
  const auto f = patched("");
  const Combiner& a = f->box(0);
  const Combiner& type = f->design().box_types.find("T")->parts;
  CHECK(a.type == f->design().box_types.find("T"));
  CHECK(a.inverter == f->design().inverters.find("I"));
  CHECK(a.sheet == "E-1");
  CHECK(a.location == "row 1");
  CHECK(a.mounting == type.mounting);
  CHECK(a.enclosure == f->box(1).enclosure);
  CHECK(a.fuse == type.fuse);
  CHECK(a.output == type.output);
  CHECK(a.disconnect == type.disconnect);
  CHECK(a.labels == type.labels);
  CHECK(a.egc->size->name() == "6 AWG");
  REQUIRE(a.circuits.size() == 2);
  CHECK(a.circuits[1].series == 17);
}

TEST_CASE("a member of the box replaces the type's") {
  const auto f = patched(R"(, "inverter": "J", "sheet": "E-2")");
  CHECK(f->box().inverter == f->design().inverters.find("J"));
  CHECK(f->box().sheet == "E-2");
  CHECK(f->box().location == "row 1");
  CHECK(f->box(1).inverter == f->design().inverters.find("I"));
  CHECK(f->box(1).sheet == "E-1");
}

TEST_CASE("objects are merged at every depth") {
  const auto f = patched(R"(, "fuse": { "a": 20, "poles": "both" }, "mounting": { "wet": true },
      "output": { "run": { "length_m": 45 }, "ocpd_rated_100_pct": true }, "egc": { "size": "4 AWG" })");
  const Combiner& a = f->box();
  CHECK(a.fuse->rating == Amps(20));
  CHECK(a.fuse->voltage == Volts(1000));
  CHECK(a.fuse->poles == Poles::both);
  CHECK(a.mounting->place == Place::roof);
  CHECK(a.mounting->wet == true);
  CHECK(a.output->run->length == Metres(45));
  CHECK(a.output->run->conductor == f->design().conductors.find("C"));
  CHECK(a.output->run->terminal == 75);
  CHECK(a.output->ocpd == Amps(175));
  CHECK(a.output->ocpd_rated_100_pct == true);
  CHECK(a.egc->size->name() == "4 AWG");
  CHECK(a.egc->material == Material::copper);
  CHECK(f->box(1).fuse->rating == Amps(15));
  CHECK(f->box(1).output->run->length == Metres(20));
  CHECK(f->box(1).egc->size->name() == "6 AWG");
}

TEST_CASE("null removes what the type states") {
  const auto f = patched(R"(, "fuse": null, "disconnect": null, "egc": null, "labels": null, "sheet": null,
      "enclosure": { "rated_v": null }, "output": { "run": null })");
  const Combiner& a = f->box();
  CHECK(a.fuse == nullptr);
  CHECK(a.disconnect == nullptr);
  CHECK(a.labels == nullptr);
  CHECK_FALSE(a.egc);
  CHECK(a.sheet.empty());
  CHECK_FALSE(a.enclosure->rated_voltage);
  CHECK(a.enclosure->type == "4X");
  CHECK_FALSE(a.output->run);
  CHECK(a.output->ocpd == Amps(175));
  CHECK(f->box(1).fuse != nullptr);
  CHECK(f->box(1).output->run);
}

TEST_CASE("a list is replaced whole") {
  const auto f = patched(R"(, "circuits": [ { "module": "N", "series": 16 } ], "labels": [])");
  REQUIRE(f->box().circuits.size() == 1);
  CHECK(f->box().circuits[0].module == f->design().modules.find("N"));
  CHECK(f->box().circuits[0].strings == 1);  // nothing of the type's circuit
  CHECK(f->box().circuits[0].id == "1");
  REQUIRE(f->box().labels);
  CHECK(f->box().labels->empty());
  CHECK(f->box(1).circuits.size() == 2);
}

TEST_CASE("an object where the type has none, or null") {
  const auto f = file({std::string(head), std::string(modules), std::string(inverters),
                       R"("box_types": { "T": { "inverter": "I", "fuse": null,
                          "circuits": [ { "module": "M", "series": 1 } ] } })",
                       boxes(R"(, "fuse": { "a": 20 }, "bond": { "size": "8 AWG" })")});
  CHECK(f->box().fuse->rating == Amps(20));
  CHECK(f->box().bond->size->name() == "8 AWG");
  CHECK(f->box(1).fuse == nullptr);
}

TEST_CASE("parts may come in any order in the file") {
  const std::string h(head), m(modules), i(inverters), t(types), b = boxes(R"(, "fuse": { "a": 20 })");
  for (const std::vector<std::string>& order : std::vector<std::vector<std::string>>{
           {h, m, i, t, b}, {b, t, i, m, h}, {t, b, m, i, h}, {m, b, h, t, i}, {h, t, i, m, b}}) {
    const auto f = file(order);
    CHECK(f->box().circuits.at(0).module == f->design().modules.find("M"));
    CHECK(f->box().fuse->rating == Amps(20));
    CHECK(f->box().fuse->voltage == Volts(1000));
    CHECK(f->box().output->run->conductor == f->design().conductors.find("C"));
    CHECK(f->box(1).inverter == f->design().inverters.find("I"));
  }
}

TEST_CASE("boxes without a type stand for themselves") {
  const auto f = file({std::string(head), std::string(modules), std::string(inverters), std::string(types),
                       R"("combiners": [ { "id": "A", "inverter": "J",
                          "circuits": [ { "module": "N", "series": 3, "strings": 4 } ] } ])"});
  CHECK(f->box().type == nullptr);
  CHECK(f->box().fuse == nullptr);
  CHECK(f->box().enclosure == nullptr);
  CHECK_FALSE(f->box().egc);
  CHECK(f->box().circuits.at(0).strings == 4);
}
