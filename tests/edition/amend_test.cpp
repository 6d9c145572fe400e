// Local amendments: a merge patch onto the edition that may change values and nothing else.
#include <fmt/format.h>

#include <algorithm>

#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

// In these the amendments are a file of their own, with ' for " and ^ for '.
Edition amended(std::string_view text, std::string_view edition = "2017") {
  const Document document{"local.json", as_json(text)};
  const Amendments amendments{&document, std::nullopt};
  return load_edition(edition, &amendments);
}
Lines told(std::string_view text, std::string_view edition = "2017") {
  Lines out;
  try {
    amended(text, edition);
  } catch (const InputError& e) {
    for (const Problem& p : e.problems()) out.push_back(to_text(p));
  }
  return out;
}
std::string line(std::string_view text) {
  std::string out = "local.json:" + as_json(text);
  std::replace(out.begin(), out.end(), '^', '\'');
  return out;
}

constexpr std::string_view max_v = "{ 'voltage': {\n  'limits': { 'building': { 'max_v': 600 } } } }";

}  // namespace

TEST_CASE("an amendment changes one value and leaves the others") {
  const Edition e = amended(max_v);
  const Edition& before = edition_of("2017");
  CHECK(before.limits[static_cast<std::size_t>(Use::building)].max == Volts(1000));
  CHECK(e.limits[static_cast<std::size_t>(Use::building)].max == Volts(600));
  CHECK(e.limits[static_cast<std::size_t>(Use::building)].section ==
        before.limits[static_cast<std::size_t>(Use::building)].section);
  CHECK(e.limits[static_cast<std::size_t>(Use::dwelling)].max == before.limits[0].max);
  CHECK(e.overcurrent_factor == before.overcurrent_factor);
  CHECK(e.amended == Lines{"voltage.limits.building.max_v"});
  CHECK(before.amended.empty());
}

TEST_CASE("several values, texts and sections") {
  const Edition e = amended(
      "{ 'note': 'why', 'title': 'Trial county', 'current': { 'note': 'n', 'overcurrent': { 'factor': 1.3 } "
      "},"
      "  'rules': { 'voltage/site-limit': { 'section': 'Trial 4' } } }");
  CHECK(e.title == "Trial county");
  CHECK(e.overcurrent_factor == 1.3);
  CHECK(e.rules.find("voltage/site-limit")->second.section == "Trial 4");
  CHECK(e.amended == Lines{"title", "current.overcurrent.factor", "rules.voltage/site-limit.section"});
  CHECK(amended("{}").amended.empty());
  CHECK(amended("{ 'voltage': { 'limits': {} } }").amended.empty());
}

TEST_CASE("a list of an amendment replaces the edition's") {
  const Edition e = amended("{ 'overcurrent': { 'standard': { 'ratings_a': [ 15, 20 ] } } }");
  CHECK(e.standard_ratings == std::vector<double>{15, 20});
  CHECK(e.amended == Lines{"overcurrent.standard.ratings_a"});
}

TEST_CASE("null removes what an edition can do without, and nothing else") {
  // 2020 has tables for photovoltaic wire of their own, 2017 has not.
  CHECK(edition_of("2020").pv_wire_raceway.has_value());
  const Edition e = amended("{ 'conductor': { 'pv_wire_raceway': null } }", "2020");
  CHECK_FALSE(e.pv_wire_raceway.has_value());
  CHECK(e.amended == Lines{"conductor.pv_wire_raceway"});
  CHECK(told("{ 'voltage': {\n  'limits': { 'building': { 'max_v': null } } } }") ==
        Lines{line("2:27: /voltage/limits/building: found no 'max_v', expected it: the edition needs it")});
}

TEST_CASE("a key that the edition does not have is refused") {
  for (const std::string_view text :
       {"{ 'voltag': {} }", "{ 'voltage': { 'limits': { 'building': { 'maxv': 600 } } } }",
        "{ 'conductor': { 'pv_wire_raceway': null } }",
        "{ 'rules': { 'voltage/none': { 'section': 'x' } } }"})
    CHECK(told(text).size() == 1);
}

TEST_CASE("a key that the edition does not have is told at the key, as everywhere else") {
  const std::string more = "; an amendment can change values, not add keys";
  CHECK(
      told("{ 'voltag': {} }") ==
      Lines{line(
          "1:3: /voltag: found the key 'voltag', which this edition does not have; did you mean 'voltage'?; "
          "expected one of edition, title, sources, terms, voltage, current, overcurrent, grounding_terms, "
          "conductor, disconnect, labels, enclosure, protection, site, measured, rules" +
          more)});
  CHECK(
      told("{ 'voltage': {\n  'limits': { 'building': { 'maxv': 600 } } } }") ==
      Lines{line(
          "2:29: /voltage/limits/building/maxv: found the key 'maxv', which this edition does not have; did "
          "you mean 'max_v'?; expected one of max_v, kind, section, source" +
          more)});
}

TEST_CASE("an amendment cannot add a section to what is no requirement") {
  // The design page: an amendment cannot add a key that the edition does not have. The top has no section.
  CHECK(told("{ 'section': 'x' }").size() == 1);
}

TEST_CASE("a value of another type") {
  CHECK(told("{ 'voltage': {\n  'limits': { 'building': { 'max_v': '600' } } } }") ==
        Lines{line("2:38: /voltage/limits/building/max_v: found text '600', expected the type that the value "
                   "has in the edition: "
                   "1000")});
  CHECK(
      told("{ 'voltage': 5 }") ==
      Lines{line("1:14: /voltage: found 5, expected the type that the value has in the edition: an object")});
  CHECK(told("{ 'overcurrent': { 'standard': { 'ratings_a': [ 15, '20' ] } } }") ==
        Lines{line("1:53: /overcurrent/standard/ratings_a/1: found text '20', expected a number; write "
                   "numbers without "
                   "quotes and units")});
  CHECK(told("{ 'voltage': { 'limits': { 'building': { 'kind': 'bann' } } } }") ==
        Lines{line("1:50: /voltage/limits/building/kind: found text 'bann', expected one of 'ban', "
                   "'threshold'; did you "
                   "mean 'ban'?")});
}

TEST_CASE("a document of amendments that is none") {
  CHECK(told("[]") == Lines{line("1:1: found a list, expected an object {…}")});
  CHECK(told("5") == Lines{line("1:1: found 5, expected an object {…}")});
  CHECK(told("").size() == 1);
  CHECK(told("{ 'voltage': ").size() == 1);
  CHECK(told("{ 'title': 'a', 'title': 'b' }") ==
        Lines{line("1:17: /title: found the key 'title' a second time in one object (first at line 1, column "
                   "3), expected "
                   "each key once; remove one of the two")});
}

TEST_CASE("what an amendment makes inconsistent is told at the amendment") {
  // Two columns where each size has three values: the rows are the edition's, the place is that of the
  // columns.
  const Lines lines = told("{ 'conductor': {\n  'raceway': { 'columns_c': [ 60, 75 ] } } }\n\n\n");
  REQUIRE_FALSE(lines.empty());
  for (const std::string& text : lines) CHECK(text.find("local.json:2:") == 0);
}

TEST_CASE("an amendment does not make one edition another") {
  const std::string more =
      ", the edition that is amended; an amendment changes values of an edition, the design^s code.edition says "
      "which edition it is";
  CHECK(told("{ 'edition': '2023' }") == Lines{line("1:14: /edition: found '2023', expected '2017'" + more)});
  CHECK(told("{ 'edition': null }") == Lines{line("1:14: /edition: found null, expected '2017'" + more)});
  CHECK(told("{ 'edition': '2017' }").empty());
  CHECK(told("{ 'edition': '2017' }", "2020").size() == 1);
}

TEST_CASE("what an amendment takes away is said to be") {
  const auto to = [](std::string_view text, std::string_view edition = "2017") {
    return amended(text, edition).amended_to;
  };
  CHECK(to("{ 'rules': { 'enclosure/type': null } }") == Lines{"taken away: this rule does not run"});
  CHECK(amended("{ 'rules': { 'enclosure/type': null } }").rules.count("enclosure/type") == 0);
  CHECK(to("{ 'conductor': { 'pv_wire_raceway': null } }", "2020") == Lines{"taken away"});
}

TEST_CASE("a factor must be above 0") {
  for (const std::string_view path :
       {"current/maximum/factor", "current/overcurrent/factor", "current/conductor/before_factor",
        "current/conductor/after_factor", "disconnect/current/factor", "conductor/grounding/assumed_factor"})
    for (const double factor : {0.0, -1.25}) {
      CAPTURE(path, factor);
      Json patch;
      patch[Json::json_pointer("/" + std::string(path))] = factor;
      const Lines lines = told(patch.dump());
      REQUIRE(lines.size() == 1);
      CHECK(lines[0].find(": /" + std::string(path) + ": found ") != std::string::npos);
      CHECK(lines[0].find("expected a number above 0") != std::string::npos);
      patch[Json::json_pointer("/" + std::string(path))] = 0.01;
      CHECK(told(patch.dump()).empty());
    }
  for (const std::string_view table :
       {"{ 'voltage': { 'cold_table': { 'bands': [ { 'down_to_c': -40, 'factor': 0 } ] } } }",
        "{ 'conductor': { 'adjustment': { 'bands': [ { 'factor': 0 } ] } } }",
        "{ 'conductor': { 'correction': { 'bands': [ { 'up_to_c': 30, 'factors': [ 1, 0, 1 ] } ] } } }"}) {
    const Lines lines = told(table);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].find("found 0, expected a number above 0") != std::string::npos);
  }
}

TEST_CASE("amendments in the design itself") {
  const Json design =
      with({{"code", {{"amendments", {{"voltage", {{"limits", {{"building", {{"max_v", 500}}}}}}}}}}}});
  const auto judged = judge(design);
  CHECK(judged->edition.amended == Lines{"voltage.limits.building.max_v"});
  // 18 · 30 V · (1 + 0.3 % · 35) = 596.7 V at −10 °C.
  const Finding* f = judged->find("voltage/site-limit");
  REQUIRE(f != nullptr);
  CHECK(f->amended == Lines{"voltage.limits.building.max_v"});
  CHECK(f->message.find("Amended locally: voltage.limits.building.max_v (") != std::string::npos);
  CHECK(severity_of(with(Json::object()), "voltage/site-limit") == "none");
}

TEST_CASE("a finding that the amendment does not touch does not name it") {
  Json design =
      with({{"code", {{"amendments", {{"voltage", {{"limits", {{"building", {{"max_v", 500}}}}}}}}}}}});
  design["combiners"][0]["fuse"]["dc"] = false;
  const auto judged = judge(design);
  REQUIRE(judged->find("fuse/not-dc") != nullptr);
  CHECK(judged->find("fuse/not-dc")->amended.empty());
}

TEST_CASE("a mistake in amendments in the design is told at its place there") {
  const std::string text = as_json(changed(
      small_design, "'edition': '2017'", "'edition': '2017', 'amendments': { 'voltage': { 'limit': {} } }"));
  const Document document{"design.json", text};
  const DesignFile file = read_design(document);
  const Amendments amendments{&document, file.design.amendments_offset};
  Lines lines;
  try {
    load_edition("2017", &amendments);
  } catch (const InputError& e) {
    for (const Problem& p : e.problems()) lines.push_back(to_text(p));
  }
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].find("design.json:4:") == 0);
  CHECK(
      lines[0].find(
          ": /code/amendments/voltage/limit: found the key \"limit\", which this edition does not have; did "
          "you mean \"limits\"?") != std::string::npos);
}

TEST_CASE("an edition that there is not") {
  CHECK_THROWS_AS(load_edition("2018"), std::out_of_range);
  for (const std::string_view name : edition_names) CHECK(load_edition(name).name == name);
}
