// Several errors in one go: order, count, each told once; and keys that stand twice.
#include <fmt/format.h>

#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

Lines after(std::string_view from, std::string_view to) {
  return design_problems(changed(as_json(small_design), as_json(from), as_json(to)));
}

// The small design with these boxes, a line each from line 14.
std::string with_boxes(const Lines& boxes) {
  const std::string text = as_json(small_design);
  const auto list = text.find("\"combiners\": [\n") + 15;
  return text.substr(0, list) + fmt::format("{}", fmt::join(boxes, ",\n")) + "\n  ]\n}\n";
}

std::size_t total(const std::string& text) {
  const Document document{"design.json", text};
  try {
    read_design(document);
  } catch (const InputError& e) {
    return e.total();
  }
  return 0;
}

}  // namespace

TEST_CASE("errors of several kinds come in one go, sorted by place") {
  std::string text = as_json(small_design);
  text = changed(text, "\"use\": \"ground\"", "\"use\": \"castle\"");
  text = changed(text, "\"isc_a\": 10", "\"isc_a\": \"10\"");
  text = changed(text, "\"wet\": true", "\"wett\": true");
  text = changed(text, "\"series\": 20", "\"series\": 2.5");
  text = changed(text, "\"conductor\": \"pv-10\"", "\"conductor\": \"pv-8\"");
  text = changed(text, "\"size\": \"6 AWG\"", "\"size\": \"6 AWG\", \"size\": \"4 AWG\"");
  const Lines lines = design_problems(text);
  const Lines starts{"design.json:3:43: /site/use: ",
                     "design.json:6:36: /modules/M-1/isc_a: ",
                     "design.json:11:47: /box_types/T-1/mounting/wett: ",
                     "design.json:14:78: /combiners/0/circuits/0/series: ",
                     "design.json:19:78: /combiners/1/circuits/0/run/conductor: ",
                     "design.json:24:33: /combiners/1/egc/size: "};
  REQUIRE(lines.size() == starts.size());
  for (std::size_t i = 0; i < starts.size(); ++i) CHECK(lines[i].substr(0, starts[i].size()) == starts[i]);
}

TEST_CASE("the first fifty errors are told, the others counted") {
  for (const std::size_t boxes : {49, 50, 51, 120}) {
    Lines list;
    for (std::size_t i = 0; i < boxes; ++i)
      list.push_back(fmt::format(R"({{"id": "B-{}", "inverter": "I-1", "circuits": [], "oops": 1}})", i));
    const std::string text = with_boxes(list);
    CAPTURE(boxes);
    CHECK(total(text) == 2 * boxes);  // an empty list and a key each
    const Lines lines = design_problems(text);
    REQUIRE(lines.size() == 50);
    for (std::size_t i = 0; i < lines.size(); ++i)
      CHECK(lines[i].find(fmt::format("design.json:{}:", 14 + i / 2)) == 0);
  }
  CHECK(design_problems(with_boxes(Lines(25, R"({"id": "", "inverter": "I-1", "circuits": []})"))).size() ==
        50);
}

TEST_CASE("the first fifty are the first of the file, however many there are") {
  // 20 · 50 are kept while reading, and the members are read before the boxes, which here stand before them.
  std::string modules;
  for (std::size_t i = 0; i < 1100; ++i)
    modules += fmt::format("{}\n\"M-{}\": {{\"voc_v\": 40, \"isc_a\": 0}}", i == 0 ? "" : ",", i);
  const std::string text =
      R"({"combiners": [{"id": "", "inverter": "I", "circuits": [{"module": "M-0", "series": 1}]}],
"format": "boxproof-design/1", "site": {"name": "Trial", "use": "ground"}, "code": {"edition": "2017"},
"inverters": {"I": {}}, "modules": {)" +
      modules + "}}";
  CHECK(total(text) == 1101);
  CHECK(design_problems(text).front() ==
        "design.json:1:23: /combiners/0/id: found an empty id, expected the id of the box on the plan");
}

TEST_CASE("what is wrong with a box type is told once, though forty boxes use it") {
  Lines boxes;
  for (std::size_t i = 0; i < 40; ++i)
    boxes.push_back(fmt::format(
        R"({{"id": "B-{}", "type": "T-1", "fuse": {{"a": 15}}, "circuits": [{{"module": "M-1", "series": 18}}]}})",
        i));
  std::string text = with_boxes(boxes);
  CHECK(design_problems(text) == Lines{});
  text = changed(text, R"("mounting": { "wet": true })",
                 R"("mounting": { "wet": 1, "plaec": "roof" }, "fuse": { "v": "600", "pole": 1 })");
  const Lines starts{"design.json:11:54: /box_types/T-1/mounting/wet: found 1, ",
                     "design.json:11:57: /box_types/T-1/mounting/plaec: found the key ",
                     "design.json:11:91: /box_types/T-1/fuse/v: found text ",
                     "design.json:11:98: /box_types/T-1/fuse/pole: found the key "};
  const Lines lines = design_problems(text);
  REQUIRE(lines.size() == starts.size());
  for (std::size_t i = 0; i < starts.size(); ++i) CHECK(lines[i].substr(0, starts[i].size()) == starts[i]);
}

TEST_CASE("keys that stand twice") {
  const auto twice = [](std::string_view place, std::string_view key, std::string_view first) {
    return fmt::format(
        "design.json:{}: found the key \"{}\" a second time in one object (first at {}), expected each "
        "key once; remove one of the two",
        place, key, first);
  };
  CHECK(after("'code': {", "'format': 'boxproof-design/1',\n  'code': {") ==
        Lines{twice("4:3: /format", "format", "line 2, column 3")});
  CHECK(after("'isc_a': 10", "'isc_a': 10, 'voc_v': 41") ==
        Lines{twice("6:40: /modules/M-1/voc_v", "voc_v", "line 6, column 14")});
  CHECK(after("'isc_a': 10", "'isc_a': 10, 'voc\\u005fv': 41") ==
        Lines{twice("6:40: /modules/M-1/voc_v", "voc_v", "line 6, column 14")});
  CHECK(after("'ocpd_a': 175", "'ocpd_a': 175, 'ocpd_a': 175") ==
        Lines{twice("22:34: /combiners/1/output/ocpd_a", "ocpd_a", "line 22, column 19")});
  CHECK(after("'conductors': {", "'conductors': { 'a/b~c': {}, 'a/b~c': {},") ==
        Lines{twice("9:32: /conductors/a~1b~0c", "a/b~c", "line 9, column 19")});
  CHECK(after("'code':", "'note': { 'x': 1, 'x': 1 }, 'code':") ==  // also where nobody reads
        Lines{twice("4:21: /note/x", "x", "line 4, column 13")});
}

TEST_CASE("a key that stands twice among thirty") {
  std::string parts;
  for (int i = 0; i < 30; ++i) parts += fmt::format("\n\"k{}\": {{}},", i);
  const std::string text = changed(as_json(small_design), "\"conductors\": {", "\"conductors\": {" + parts);
  CHECK(design_problems(text) == Lines{});
  CHECK(design_problems(changed(text, "\"k29\"", "\"k3\"")) ==
        Lines{"design.json:39:1: /conductors/k3: found the key \"k3\" a second time in one object (first at "
              "line 13, "
              "column 1), expected each key once; remove one of the two"});
}

TEST_CASE("a key that stands twice deep in a box") {
  CHECK(after("'series': 18", "'series': 18, 'series': 19") ==
        Lines{"design.json:19:42: /combiners/1/circuits/0/series: found the key \"series\" a second time in "
              "one object "
              "(first at line 19, column 28), expected each key once; remove one of the two"});
  CHECK(after("'conductor': 'pv-10'", "'conductor': 'pv-10', 'conductor': 'pv-10'").size() == 1);
  CHECK(after("'kind': 'disconnect'", "'kind': 'disconnect', 'kind': 'directory'").size() == 1);
  CHECK(record_problems(changed(as_json(small_record), "\"voc_v\": 700", "\"voc_v\": 700, \"voc_v\": 710"))
            .size() == 1);
}

TEST_CASE("a thing that stands three times is told twice") {
  CHECK(
      after("'code': {", "'format': 'boxproof-design/1', 'format': 'boxproof-design/1', 'code': {").size() ==
      2);
  CHECK(after("'isc_a': 10", "'isc_a': 10, 'voc_v': 41, 'voc_v': 42").size() == 2);  // here it is
  const std::string third =
      ", 'id': 'x' }, { 'id': 'x', 'module': 'M-1', 'series': 18 }, { 'id': 'x', "
      "'module': 'M-1', 'series': 18";
  CHECK(after("'strings': 4", "'strings': 4" + third).size() == 2);
}

TEST_CASE("a box of an unknown type is told of the type alone") {
  // What the type would have stated is not missing: nobody knows.
  CHECK(after("'type': 'T-1'", "'type': 'T-9'") ==
        Lines{"design.json:14:28: /combiners/0/type: found the id \"T-9\", which is not in /box_types, "
              "expected an id "
              "from there; did you mean \"T-1\"?"});
}

TEST_CASE("a circuit of an unknown type of box is judged where the box states it") {
  const Lines lines = after("'type': 'T-1'", "'type': 'T-9', 'inverter': 'I-1', 'sheeet': 'E-1'");
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].find("design.json:14:28: /combiners/0/type: ") == 0);
  CHECK(lines[1].find("design.json:14:54: /combiners/0/sheeet: ") == 0);
}
