// Where a text stops to be JSON when it does so in the long list or behind it, which is parsed in stretches;
// and what no place and no key may hide.
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

std::string place(const Lines& lines) {
  REQUIRE(lines.size() == 1);
  return lines.front().substr(0, lines.front().find(": "));
}
std::string place_after(std::string_view from, std::string_view to) {
  return place(design_problems(changed(as_json(small_design), as_json(from), as_json(to))));
}

}  // namespace

TEST_CASE("the place of an error in the list of boxes and behind it") {
  // The last character read, as outside the list: the comma behind "tru", the } behind the comma.
  CHECK(place_after("'strings': 6", "'strings': tru") == "design.json:14:96");
  CHECK(place_after("'strings': 4", "'strings': tru") == "design.json:19:56");
  CHECK(place_after("'ocpd_a': 175", "'ocpd_a': 175,") == "design.json:22:34");
  CHECK(place_after("'id': 'A-2'", "'id': 'A-\xFF'") == "design.json:15:16");
  CHECK(place(design_problems("{\"combiners\": [ {}, {} ],\n \"note\": tru }")) == "design.json:2:13");
  CHECK(place(record_problems(changed(as_json(small_record), "\"voc_v\": 700", "\"voc_v\": tru"))) ==
        "record.json:18:77");
}

TEST_CASE("a number too large for any computer is told with its place and pointer") {
  // The design page: a number that is not finite is an error with file, line, column and pointer.
  const auto told = [](std::string_view from, std::string_view to) {
    const Lines lines = design_problems(changed(as_json(small_design), as_json(from), as_json(to)));
    REQUIRE(lines.size() == 1);
    return lines.front().substr(0, lines.front().find(": found "));
  };
  CHECK(told("'isc_a': 10", "'isc_a': 1e400") == "design.json:6:36: /modules/M-1/isc_a");
  CHECK(told("'a': 20", "'a': -1e400") == "design.json:21:22: /combiners/1/fuse/a");
}

TEST_CASE("a number too large is refused") {
  CHECK(design_problems(changed(as_json(small_design), "\"isc_a\": 10", "\"isc_a\": 1e400")).size() == 1);
  CHECK(design_problems(changed(as_json(small_design), "\"a\": 20", "\"a\": 1e400")).size() == 1);
}

TEST_CASE("a key with an escape is the key that it spells") {
  // RFC 8259 section 7: any character may be escaped. Two boxes are there, and they must not go unread.
  const std::string escaped = changed(as_json(small_design), "\"combiners\"", "\"\\u0063ombiners\"");
  const boxproof::Document document{"design.json", escaped};
  std::size_t boxes = 0, problems = 0;
  try {
    boxes = boxproof::read_design(document).design.combiners.size();
  } catch (const boxproof::InputError& e) {
    problems = e.total();
  }
  CHECK((boxes == 2 || problems > 0));
  const boxproof::Document record{"record.json",
                                  changed(as_json(small_record), "\"boxes\"", "\"box\\u0065s\"")};
  std::size_t visited = 0;
  problems = 0;
  try {
    visited = boxproof::read_field_record(record).record.boxes.size();
  } catch (const boxproof::InputError& e) {
    problems = e.total();
  }
  CHECK((visited == 2 || problems > 0));
}

TEST_CASE("other keys may be escaped") {
  CHECK(design_problems(changed(as_json(small_design), "\"modules\"", "\"\\u006dodules\"")) == Lines{});
  CHECK(design_problems(changed(as_json(small_design), "\"isc_a\"", "\"isc\\u005fa\"")) == Lines{});
}

TEST_CASE("a zero byte outside of a string is no end of the file") {
  const std::string zero(1, '\0');
  // Behind the document it is text that does not belong to it (RFC 8259 section 2 knows four kinds of white
  // space).
  CHECK(design_problems(as_json(small_design) + zero + "more").size() == 1);
  CHECK(design_problems(as_json(small_design) + zero).size() == 1);
  const Lines within = design_problems(changed(as_json(small_design), "\"code\"", zero + "\"code\""));
  REQUIRE(within.size() == 1);
  CHECK(within.front().find("the file ends") == std::string::npos);
}

TEST_CASE("an unknown key at the top is told at the key, as everywhere else") {
  check_designs(
      small_design,
      {{"top",
        "'code':",
        "'codes': {}, 'code':",
        {"4:3: /codes: found the key 'codes', which is not known here; did you mean 'code'?; known keys are "
         "$schema, format, site, code, modules, inverters, conductors, box_types, combiners"}}});
  check_records(
      small_record,
      {{"top",
        "'visit': {",
        "'visits': {",
        {"3:3: /visits: found the key 'visits', which is not known here; did you mean 'visit'?; known keys "
         "are $schema, format, visit, boxes"}}});
}

TEST_CASE("amendments in a file without a name are an error") {
  const Lines lines =
      design_problems(changed(as_json(small_design), "\"2017\"", "\"2017\", \"amendments\": \"\""));
  REQUIRE(lines.size() == 1);  // else the amendments are dropped without a word
  CHECK(lines.front().find("design.json:4:46: /code/amendments: ") == 0);
}
