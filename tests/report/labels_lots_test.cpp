// Boxes that need the same label are one entry of the schedule; those that differ are entries of their own.
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

std::string page_of(const Json& design, std::string_view edition = {}) {
  return schedule_of(report::write_labels_text, design, edition);
}

// Every entry of this kind, its lines joined.
std::vector<std::string> entries(const std::string& page, const std::string& kind) {
  std::vector<std::string> out;
  bool inside = false;
  for (const std::string& line : lines_of(page)) {
    if (line.find(" " + kind + "  [") != std::string::npos) {
      inside = true;
      out.emplace_back();
    } else if (line.empty()) {
      inside = false;
    }
    if (!inside) continue;
    const auto first = line.find_first_not_of(' ');
    out.back() += (out.back().empty() ? "" : " ") + line.substr(first);
  }
  return out;
}

bool holds(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

Json boxes(const std::vector<Json>& patches) {
  Json design = sound_design();
  design["combiners"] = Json::array();
  int number = 1;
  for (const Json& patch : patches) {
    Json box = sound_design()["combiners"][0];
    box["id"] = "A-0" + std::to_string(number++);
    box.merge_patch(patch);
    design["combiners"].push_back(box);
  }
  return design;
}

const Json like = Json::object();

}  // namespace

TEST_CASE("like boxes stand together, and each kind is told once") {
  const std::string page = page_of(boxes({like, like, like}));
  for (const std::string kind :
       {"box-identification", "max-voltage", "shock-both-sides", "raceway-power-source", "disconnect"}) {
    CAPTURE(kind);
    REQUIRE(entries(page, kind).size() == 1);
    CHECK(holds(entries(page, kind)[0], "boxes     A-01…A-03  (3 boxes)"));
  }
  CHECK(entries(page, "rapid-shutdown").size() == 1);
}

TEST_CASE("a box that needs other values is an entry of its own") {
  const Json shorter =
      Json::parse(R"({"circuits": [{"id": "1", "module": "M", "series": 18, "strings": 8}]})");
  const auto found = entries(page_of(boxes({like, shorter, like})), "max-voltage");
  REQUIRE(found.size() == 2);
  CHECK(holds(found[0], "MAXIMUM CURRENT 108 A"));
  CHECK(holds(found[0], "(2 boxes)"));
  CHECK(holds(found[0], "A-01, A-03"));
  CHECK(holds(found[1], "MAXIMUM CURRENT 96 A"));
  CHECK(holds(found[1], "box       A-02"));
}

TEST_CASE("names of boxes do not set lots apart, and the first four are shown") {
  const std::vector<Json> five(5, like);
  for (const std::string kind : {"box-identification", "disconnect"}) {
    const auto four_boxes = entries(page_of(boxes({like, like, like, like})), kind);
    REQUIRE(four_boxes.size() == 1);
    for (const char* id : {"COMBINER A-01", "COMBINER A-02", "COMBINER A-03", "COMBINER A-04"})
      CHECK(holds(four_boxes[0], id));
    CHECK_FALSE(holds(four_boxes[0], "more"));
    const auto five_boxes = entries(page_of(boxes(five)), kind);
    REQUIRE(five_boxes.size() == 1);
    CHECK(holds(five_boxes[0], "COMBINER A-04"));
    CHECK_FALSE(holds(five_boxes[0], "COMBINER A-05"));
    CHECK(holds(five_boxes[0], "… and 1 more, as --format csv lists them"));
  }
}

TEST_CASE("strings of two lengths stand in the identification, without fuses where there are none") {
  Json two = boxes({like});
  Json second = two["combiners"][0]["circuits"][0];
  second.merge_patch({{"id", "2"}, {"series", 16}, {"strings", 2}});
  two["combiners"][0]["circuits"].push_back(second);
  two["combiners"][0]["circuits"].push_back(second);
  two["combiners"][0]["circuits"][2]["id"] = "3";
  CHECK(holds(entries(page_of(two), "box-identification")[0],
              "COMBINER A-01: 9 STRINGS OF 18 AND 4 STRINGS OF 16, FUSES 15 A"));
  two["combiners"][0].erase("fuse");
  CHECK(entries(page_of(two), "box-identification")[0].ends_with("4 STRINGS OF 16"));
}

TEST_CASE("entries are numbered through, the site's first, kinds in their order") {
  const std::string page = page_of(boxes({like, {{"labels", all_labels()}}}), "2023");
  std::size_t number = 0, last = 0;
  bool site = true;
  for (const std::string& line : lines_of(page)) {
    if (line == "AT THE BOXES") site = false, last = 0;
    const auto bracket = line.find("  [");
    if (bracket == std::string::npos || line.size() < 5 || line[3] != ' ' || line[2] == ' ') continue;
    CAPTURE(line);
    CHECK(line.substr(0, 4) == std::string(number + 1 < 10 ? "  " : " ") + std::to_string(number + 1) + " ");
    ++number;
    const std::string kind = line.substr(4, bracket - 4);
    const auto rank = static_cast<std::size_t>(std::find(label_kinds.begin(), label_kinds.end(), kind) -
                                               label_kinds.begin());
    CHECK(rank < label_kinds.size());
    CHECK(rank >= last);
    last = rank;
    if (site) CHECK((kind == "max-voltage" || kind == "rapid-shutdown"));
  }
  CHECK(number >= 8);
}

TEST_CASE("needs that hang on different values are not one entry") {
  Json design = boxes({{{"labels", Json::array()}}, {{"labels", Json::array()}, {"inverter", "J"}}});
  design["inverters"]["I"].erase("grounding");
  design["inverters"]["J"] = design["inverters"]["I"];
  const auto found = entries(page_of(design, "2014"), "ungrounded-system");
  std::string all;
  for (const std::string& text : found) all += text;
  CHECK(holds(all, "/inverters/I/grounding"));
  CHECK(holds(all, "/inverters/J/grounding"));
}

TEST_CASE("the labels of an amendment reach the page without control characters") {
  const Json design =
      put(boxes({like}), "/code/amendments",
          {{"labels", {{"kinds", {{"raceway-power-source", {{"words", "PV\u001b[31m SOURCE"}}}}}}}});
  CHECK(control_characters(page_of(design)) == 0);
}
