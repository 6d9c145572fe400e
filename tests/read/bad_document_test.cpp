// Texts that are no document at all: what is said, and where. The reason that the JSON parser gives in
// brackets is cut out before comparing. Places are counted by hand.
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

constexpr std::string_view expected = "; expected one complete JSON document (RFC 8259) in UTF-8";

std::string small() {
  return as_json(small_design);
}
std::string ends(std::string_view place) {
  return "design.json:" + std::string(place) + ": the file ends in the middle of a value" +
         std::string(expected);
}
std::string no_json(std::string_view place, std::string_view found) {
  return "design.json:" + std::string(place) + ": found " + std::string(found) + ", which is not JSON here" +
         std::string(expected);
}
Lines problems(std::string_view text) {
  return without_reasons(design_problems(text));
}
Lines after(std::string_view from, std::string_view to) {
  return problems(changed(small(), as_json(from), as_json(to)));
}
// Where each problem is: "file:line:column".
Lines places(const Lines& lines) {
  Lines out;
  for (const std::string& line : lines) out.push_back(line.substr(0, line.find(": ")));
  return out;
}

}  // namespace

TEST_CASE("texts that are no JSON") {
  CHECK(problems("") == Lines{ends("1:1")});
  CHECK(problems("\xEF\xBB\xBF") == Lines{ends("1:1")});
  CHECK(problems(" \r\n \n") == Lines{ends("3:1")});
  CHECK(problems("hello") == Lines{no_json("1:1", "\"h\"")});
  CHECK(problems("{") == Lines{ends("1:2")});
  CHECK(problems("{\"format\"") == Lines{ends("1:10")});
  CHECK(after("'isc_a': 10", "'isc_a': tru") == Lines{no_json("6:39", "\",\"")});
  CHECK(after("'isc_a': 10", "'isc_a': -") == Lines{no_json("6:37", "\",\"")});
  CHECK(after("'isc_a': 10,", "'isc_a': 10") == Lines{no_json("6:39", "text \"vmp_v\"")});
  CHECK(after("'cell': 'mono-si'", "'cell': 'mono-si',") == Lines{no_json("6:99", "\"}\"")});
  CHECK(after("Trial Field", "Trial \\x") == Lines{no_json("3:29", "\"x\"")});
}

TEST_CASE("a trailing comma and a comment are no JSON") {
  CHECK(places(after("'use': 'ground',", "'use': 'ground',,")) == Lines{"design.json:3:52"});
  CHECK(places(after("'code':", "// code\n'code':")) == Lines{"design.json:4:3"});
  CHECK(places(problems("{} {}")).front() == "design.json:1:4");
}

TEST_CASE("another kind of value at the top") {
  for (const std::string_view text : {"[]", "5", "\"design\"", "null", "true", " [ {} ]"}) {
    CAPTURE(std::string(text));
    CHECK(problems(text) ==
          Lines{"design.json:1:1: found no JSON object at the top of the document, expected { … }"});
  }
}

TEST_CASE("invalid UTF-8") {
  CHECK(after("Trial Field", "Trial \xFF") == Lines{no_json("3:28", "the byte 0xFF")});
  CHECK(after("Trial Field", "Trial \xC0\xAF") == Lines{no_json("3:28", "the byte 0xC0")});  // overlong
  CHECK(after("Trial Field", "Trial \xED\xA0\x80") ==
        Lines{no_json("3:29", "the byte 0xA0")});                               // a surrogate
  CHECK(after("Trial Field", "\xE2\x82") == Lines{no_json("3:23", "\"\"\"")});  // cut short
  CHECK(places(after("'code':", "\xFF'code':")) == Lines{"design.json:4:3"});
  CHECK(problems("\xFE\xFF") == Lines{no_json("1:1", "the byte 0xFE")});  // UTF-16
}

TEST_CASE("control characters in a string") {
  CHECK(after("Trial Field", "Trial\tField") == Lines{no_json("3:27", "the byte 0x09")});
  CHECK(places(after("Trial Field", std::string("Trial\0Field", 11))) == Lines{"design.json:3:27"});
}

TEST_CASE("nesting: 64 deep is read, 65 is not") {
  // The top object and the list of boxes are the first two levels, the box is the third, its note the
  // next 61.
  const auto nested = [](std::size_t lists) {
    return after("'fuse': { 'a': 20 }", "'note': " + std::string(lists, '[') + std::string(lists, ']'));
  };
  CHECK(nested(61) == Lines{});
  CHECK(nested(62) ==
        Lines{"design.json:21:76: found lists and objects nested over 64 deep, expected at most 64; a "
              "design needs under 10"});
  const auto on_top = [](std::size_t lists) {
    return after("'code':", "'note': " + std::string(lists, '[') + std::string(lists, ']') + ", 'code':");
  };
  CHECK(on_top(63) == Lines{});
  CHECK(on_top(64) ==
        Lines{"design.json:4:74: found lists and objects nested over 64 deep, expected at most 64; a "
              "design needs under 10"});
  // What is nested far deeper takes no more stack.
  CHECK(problems("{\"note\": " + std::string(200'000, '[')).size() == 1);
}

TEST_CASE("a byte-order mark takes no column") {
  CHECK(problems("\xEF\xBB\xBF" + small()) == Lines{});
  CHECK(problems("\xEF\xBB\xBF{}").front() ==
        "design.json:1:1: found no \"format\" at the top of the document, expected it; it is required");
  CHECK(problems("\xEF\xBB\xBF{ \"format\": 1 }").at(5) ==
        "design.json:1:13: /format: found 1, expected text in quotes");
}

TEST_CASE("lines end with LF or CRLF, columns count code points") {
  std::string crlf;
  for (const char c : small()) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
  CHECK(problems(crlf) == Lines{});
  CHECK(problems(changed(crlf, "\"roof\"", "\"rof\"")) ==
        Lines{"design.json:16:30: /combiners/1/mounting/place: found text \"rof\", expected one of \"roof\", "
              "\"wall\", "
              "\"ground\", \"indoor\"; did you mean \"roof\"?"});
  // ä is two bytes, 🌞 four, and each one column.
  CHECK(after("'use': 'ground'", "'note': 'ä🌞', 'use': 3") ==
        Lines{"design.json:3:57: /site/use: found 3, expected text in quotes"});
}

TEST_CASE("a field record is told of in the same words") {
  CHECK(without_reasons(record_problems("")) ==
        Lines{"record.json:1:1: the file ends in the middle of a value" + std::string(expected)});
  CHECK(record_problems("[]") ==
        Lines{"record.json:1:1: found no JSON object at the top of the document, expected { … }"});
  CHECK(record_problems("{}") ==
        Lines{"record.json:1:1: found no \"format\" at the top of the document, expected it; it is required",
              "record.json:1:1: found no \"boxes\" at the top of the document, expected it; it is required"});
}
