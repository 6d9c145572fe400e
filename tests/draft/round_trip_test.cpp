// A design taken apart into schedule and site and made again: the same boxes, the same findings, the same
// bytes.
#include <fmt/format.h>

#include "src/draft/box_types.hpp"
#include "tests/support/box_text.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/drafted.hpp"
#include "tests/support/example.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::vector<std::string> boxes_of(const std::string& design) {
  const Document document{"design.json", design};
  return box_texts(read_design(document).design);
}

// The report without what says where things stand in the file.
Json findings_of(const Folder& folder, const std::string& design) {
  const Called c = call({"check", folder.put("judged.json", design), "--format", "json"});
  CAPTURE(c.err);
  REQUIRE(c.status < 2);
  Json report = Json::parse(c.out);
  for (Json& finding : report["findings"])
    for (const char* place : {"file", "line", "column", "end_line", "end_column", "pointer"})
      finding.erase(place);
  return report;
}

void check_round_trip(const std::string& design, bool all_of_it) {
  const Folder folder;
  const Halves halves = take_apart_design(folder, design);
  const std::string made = drafted(folder, halves.schedule, halves.site);
  CHECK(boxes_of(made) == boxes_of(design));
  CHECK(made == drafted(folder, halves.schedule, halves.site));
  const Halves again = take_apart_design(folder, made);
  CHECK(again.schedule == halves.schedule);
  CHECK(again.site == halves.site);
  CHECK(again.told.empty());
  if (all_of_it) CHECK(findings_of(folder, made) == findings_of(folder, design));
}

}  // namespace

TEST_CASE("the examples, taken apart and made again") {
  for (const char* name : {"saltmarsh.json", "saltmarsh-faults.json", "ferry-shed.json"}) {
    CAPTURE(name);
    Json design = example_json(name);
    if (design["code"].contains("amendments"))
      design["code"]["amendments"] = example_json("quay-amendments.json");
    check_round_trip(design.dump(1), true);
  }
}

TEST_CASE("random designs, taken apart and made again") {
  for (std::uint32_t seed = 1; seed <= 150; ++seed) {
    CAPTURE(seed);
    RandomSite site(seed);
    const Json design = site.design();
    check_round_trip(site.any_order(design), seed <= 40);
    // Without its types all boxes are whole; with types found anew they are the same boxes.
    const Folder folder;
    const Halves halves = take_apart_design(folder, with_types_resolved(design).dump());
    const auto whole = boxes_of(drafted(folder, halves.schedule, halves.site));
    const std::string column = "id,type,", without = "id,";
    REQUIRE(halves.schedule.starts_with(column));
    std::string untyped = without + halves.schedule.substr(column.size());
    for (std::size_t at = untyped.find("\r\n"); at != std::string::npos; at = untyped.find("\r\n", at + 2))
      if (const auto comma = untyped.find(',', at); comma != std::string::npos) untyped.erase(comma, 1);
    auto found = boxes_of(drafted(folder, untyped, halves.site));
    REQUIRE(found.size() == whole.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
      const auto of = found[i].find(" of "), at = found[i].find(" at ");
      found[i].replace(of, at - of, " of -");
      CHECK(found[i] == whole[i]);
    }
  }
}

TEST_CASE("parts of which nothing is known, and parts that there are not") {
  for (const char* part : {"mounting", "enclosure", "fuse", "output", "disconnect", "egc", "bond"}) {
    for (const bool typed : {false, true})
      for (const Json& value : {Json(nullptr), Json::object()}) {
        CAPTURE(part, typed, value.dump());
        Json design = sound_design();
        Json& boxes = design["combiners"];
        if (typed) {
          Json type = boxes[0];
          for (const char* own : {"id", "sheet", "location"}) type.erase(own);
          design["box_types"]["T"] = type;
          boxes = {{{"id", "A-01"}, {"type", "T"}}, {{"id", "A-02"}, {"type", "T"}}};
        }
        boxes.push_back(boxes[0]);
        boxes.back()["id"] = "A-03";
        // An empty object over a type's part changes nothing: its values must go one by one.
        boxes.back()[part] = value;
        if (typed && value.is_object())
          for (const auto& [key, unused] : design["box_types"]["T"][part].items())
            boxes.back()[part][key] = nullptr;
        check_round_trip(design.dump(), true);
      }
  }
  Json design = sound_design();
  design["combiners"][0]["output"]["run"] = Json::object();
  design["combiners"][0]["circuits"][0]["run"] = Json::object();
  design["combiners"][0]["circuits"][0]["bond"] = Json::object();
  design["combiners"][0]["labels"] = Json::array();
  check_round_trip(design.dump(), true);
  design["combiners"][0]["labels"] = nullptr;
  check_round_trip(design.dump(), true);
}

TEST_CASE("texts that a table may spoil") {
  for (const std::string text : {"=1+1",   "'=1+1",        "''=x",
                                 "-A1",    "+1",           "@x",
                                 "\t tab", " blank ",      " ",
                                 "  ",     "a,b",          "a\"b",
                                 "\"",     "\"\"",         "a\nb",
                                 "a\r\nb", "\n",           "a;b",
                                 "'",      "none",         "true",
                                 "1e5",    "é€\U0001F50C", "\xEF\xBB\xBFx",
                                 "a\\b",   "id",           "\x01\x1f\x7f",
                                 "note",   "type-1",       "0",
                                 "18"}) {
    CAPTURE(text);
    Json design = sound_design();
    Json& box = design["combiners"][0];
    for (const char* map : {"modules", "inverters", "conductors"}) {
      Json named = Json::object();
      if (text != "note")  // a remark there
        for (const auto& [key, value] : design[map].items()) named[key + text] = named[text] = value;
      design[map].update(named);
    }
    const std::string name = text == "note" ? "M" : text;
    box["id"] = text;
    box["sheet"] = text;
    box["location"] = text;
    box["circuits"][0]["id"] = text;
    if (text != "note") {
      box["circuits"][0]["module"] = text;
      box["inverter"] = text;
      box["output"]["run"]["conductor"] = text;
      box["circuits"][0]["run"]["conductor"] = text + "";
      box["type"] = text;
      design["box_types"][text] = {{"egc", {{"size", "4 AWG"}}}};
    }
    box["labels"][1]["values"] = {{"max_v", 597.25}, {"text", text}, {text, text}, {text + "2", -0.1}};
    check_round_trip(design.dump(), false);
  }
}

TEST_CASE("numbers come back to the last bit") {
  std::vector<double> numbers{0.1,  1.0 / 3,   1e-300, 123456789,           1234567890,
                              1e14, 1e9 + 0.5, 5e-324, 0.30000000000000004, 2.5,
                              1e15, 999999999, 4.35};
  RandomSite dice(7);
  for (int i = 0; i < 200; ++i) numbers.push_back(static_cast<double>(dice.below(4000000000U)) / 7.0e5);
  for (const double number : numbers) {
    CAPTURE(number);
    Json design = with_box({{"output", {{"run", {{"length_m", number}}}}}, {"fuse", {{"a", number}}}});
    design["combiners"][0]["labels"][1]["values"]["max_v"] = -number;
    check_round_trip(design.dump(), false);
  }
  for (const double celsius : {-40.0, -0.5, 0.0, -0.0, 0.1, 1.0 / 3}) {
    CAPTURE(celsius);
    const Json design =
        with_box({{"enclosure", {{"inside_c", celsius}}}, {"output", {{"run", {{"ambient_c", celsius}}}}}});
    check_round_trip(design.dump(), false);
  }
}

TEST_CASE("two like circuits without ids get the ids that they have") {
  Json design = sound_design();
  Json& circuits = design["combiners"][0]["circuits"];
  circuits[0].erase("id");
  circuits.push_back(circuits[0]);
  check_round_trip(design.dump(), true);
}

TEST_CASE("remarks and unused types are left out, and told") {
  const Folder folder;
  Json design = sound_design();
  design["combiners"][0]["note"] = "one";
  design["combiners"][0]["fuse"]["note"] = {{"note", "inside a remark"}};
  design["combiners"][0]["circuits"][0]["run"]["note"] = "three";
  design["combiners"][0]["labels"][0]["values"] = {{"note", "what the label says"}};
  design["box_types"] = {{"note", "four"}, {"T", {{"note", "five"}}}, {"U", Json::object()}};
  design["modules"]["M"]["note"] = "stays";
  design["note"] = "stays too";
  const Halves halves = take_apart_design(folder, design.dump());
  CHECK(halves.told ==
        "boxproof: 5 notes on boxes or box types left out: a schedule has no column for them\n"
        "boxproof: 2 box types left out that no box is of\n");
  CHECK(halves.schedule.find("what the label says") != std::string::npos);
  const Json site = Json::parse(halves.site);
  CHECK(site["modules"]["M"]["note"] == "stays");
  CHECK(site["note"] == "stays too");
}
