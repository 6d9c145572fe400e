// Files of agreed exceptions: what is read, and all that is said of one with something wrong in it, and
// where.
#include "boxproof/exceptions.hpp"
#include "boxproof/rule.hpp"
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view sound = R"({
  'format': 'boxproof-exceptions/1', 'note': 'of our own',
  'exceptions': [
    { 'rule': 'fuse/too-small', 'boxes': ['A-01', 'B-*'],
      'reason': 'tested', 'agreed_by': 'office',
      'date': '2027-01-10', 'expires': '2027-02-20',
      'hazard': true, 'note': 1 },
    { 'rule': 'fuse/not-dc', 'boxes': ['*'], 'reason': 'seen', 'agreed_by': 'inspector', 'date': '2026-05-31' }
  ]
}
)";

constexpr std::string_view known =
    "; known keys are rule, boxes, designs, reason, agreed_by, date, expires, hazard";

}  // namespace

TEST_CASE("a file of agreed exceptions is read") {
  const ExceptionsFile file = read_exceptions({"e.json", as_json(sound)});
  CHECK(file.name == "e.json");
  REQUIRE(file.entries.size() == 2);
  const Exception& one = file.entries[0];
  CHECK(one.rule == find_rule("fuse/too-small"));
  CHECK(one.boxes == std::vector<std::string>{"A-01", "B-*"});
  CHECK(one.reason == "tested");
  CHECK(one.agreed_by == "office");
  CHECK(to_text(one.date) == "2027-01-10");
  REQUIRE(one.expires.has_value());
  CHECK(to_text(*one.expires) == "2027-02-20");
  CHECK(one.hazard);
  CHECK(one.place.file == "e.json");
  CHECK(one.place.pointer == "/exceptions/0");
  CHECK(one.place.line == 4);
  CHECK(one.place.column == 5);
  const Exception& two = file.entries[1];
  CHECK_FALSE(two.expires.has_value());
  CHECK_FALSE(two.hazard);
  CHECK(two.place.line == 8);
  CHECK(two.designs.empty());
  const ExceptionsFile of_designs = read_exceptions(
      {"e.json",
       as_json(changed(sound, "'boxes': ['*']", "'boxes': ['*'], 'designs': ['./a.json', 'north/../b/*']"))});
  CHECK(of_designs.entries[1].designs == std::vector<std::string>{"a.json", "b/*"});
  CHECK(read_exceptions({"e.json", R"({"format": "boxproof-exceptions/1", "exceptions": []})"})
            .entries.empty());
}

TEST_CASE("exceptions with something missing or of another kind than expected") {
  check_exceptions(
      sound,
      {{"another format",
        "boxproof-exceptions/1",
        "boxproof-asbuilt/1",
        {"2:13: /format: found text 'boxproof-asbuilt/1', expected 'boxproof-exceptions/1'; is this a file of "
         "agreed exceptions?"}},
       {"no format",
        "'format': 'boxproof-exceptions/1', ",
        "",
        {"1:1: found no 'format', expected it here; it is required"}},
       {"no list",
        "'exceptions': [",
        "'note': [",
        {"1:1: found no 'exceptions', expected it here; it is required",
         "3:3: /note: found the key 'note' a second time in one object (first at line 2, column 38), "
         "expected each key once; remove one of the two"}},
       {"no rule",
        "'rule': 'fuse/too-small', ",
        "",
        {"4:5: /exceptions/0: found no 'rule', expected it here; it is required"}},
       {"no boxes",
        "'boxes': ['A-01', 'B-*'],",
        "",
        {"4:5: /exceptions/0: found no 'boxes', expected it here; it is required"}},
       {"no reason",
        "'reason': 'tested', ",
        "",
        {"4:5: /exceptions/0: found no 'reason', expected it here; it is required"}},
       {"no authority",
        "'agreed_by': 'office',",
        "",
        {"4:5: /exceptions/0: found no 'agreed_by', expected it here; it is required"}},
       {"no date",
        "'date': '2027-01-10', ",
        "",
        {"4:5: /exceptions/0: found no 'date', expected it here; it is required"}},
       {"one id for the list of boxes",
        "['A-01', 'B-*']",
        "'A-01'",
        {"4:42: /exceptions/0/boxes: found text 'A-01', expected a list […]"}},
       {"no box in the list",
        "['A-01', 'B-*']",
        "[]",
        {"4:42: /exceptions/0/boxes: found an empty list, expected at least one id or pattern of boxes; '*' is "
         "every box and the site itself"}},
       {"an empty id",
        "'A-01'",
        "' '",
        {"4:43: /exceptions/0/boxes/0: found an empty text, expected the id of a box or a pattern (* ? [a-z] "
         "as in a shell)"}},
       {"one path for the list of designs",
        "'note': 1",
        "'designs': 'a.json'",
        {"7:34: /exceptions/0/designs: found text 'a.json', expected a list […]"}},
       {"no design in the list",
        "'note': 1",
        "'designs': []",
        {"7:34: /exceptions/0/designs: found an empty list, expected at least one path or pattern; leave the key "
         "out where the entry holds for every design"}},
       {"an empty path",
        "'note': 1",
        "'designs': ['a.json', '']",
        {"7:45: /exceptions/0/designs/1: found an empty text, expected the path of a design file or a pattern (* "
         "? [a-z] as in a shell)"}},
       {"a number for an id",
        "'B-*'",
        "7",
        {"4:51: /exceptions/0/boxes/1: found 7, expected text in quotes"}},
       {"an empty reason",
        "'tested'",
        "''",
        {"5:17: /exceptions/0/reason: found an empty text, expected why another method is accepted"}},
       {"an empty authority",
        "'office'",
        "'\\n '",
        {"5:40: /exceptions/0/agreed_by: found an empty text, expected who agreed to it"}},
       {"text for hazard",
        "'hazard': true",
        "'hazard': 'true'",
        {"7:17: /exceptions/0/hazard: found text 'true', expected true or false; write true or false without "
         "quotes"}},
       {"null for expires",
        "'2027-02-20'",
        "null",
        {"6:40: /exceptions/0/expires: found null, expected text in quotes; leave the key out where the value "
         "is not known"}},
       {"text for an entry",
        "{ 'rule': 'fuse/not-dc', 'boxes': ['*'], 'reason': 'seen', 'agreed_by': 'inspector', 'date': "
        "'2026-05-31' }",
        "'none'",
        {"8:5: /exceptions/1: found text 'none', expected an object {…}"}}});
}

TEST_CASE("exceptions with names that nobody knows") {
  const std::string unknown =
      "7:7: /exceptions/0/hazrad: found the key 'hazrad', which is not known here; did you "
      "mean 'hazard'?" +
      std::string(known);
  check_exceptions(
      sound,
      {{"a misspelt key", "'hazard'", "'hazrad'", {unknown}},
       {"a misspelt key at the top",
        "'note': 'of our own'",
        "'formatt': 1",
        {"2:38: /formatt: found the key 'formatt', which is not known here; did you mean 'format'?; known keys "
         "are $schema, format, exceptions"}},
       {"a misspelt rule",
        "fuse/too-small",
        "fuse/to-small",
        {"4:15: /exceptions/0/rule: found text 'fuse/to-small', expected the id of a rule; did you mean "
         "'fuse/too-small'?; boxproof rules lists them"}},
       {"no rule at all",
        "fuse/too-small",
        "zz",
        {"4:15: /exceptions/0/rule: found text 'zz', expected the id of a rule; boxproof rules lists them"}}});
}

TEST_CASE("exceptions with days that are none, or in the wrong order") {
  check_exceptions(
      sound,
      {{"a day that the calendar has not",
        "2027-01-10",
        "2027-02-30",
        {"6:15: /exceptions/0/date: found text '2027-02-30', expected a day of the calendar; that month has the "
         "days 01 to 28"}},
       {"another way to write a day",
        "2027-02-20",
        "20.02.2027",
        {"6:40: /exceptions/0/expires: found text '20.02.2027', expected a day as YYYY-MM-DD"}},
       {"a number for a day",
        "'2027-01-10'",
        "20270110",
        {"6:15: /exceptions/0/date: found 20270110, expected text in quotes"}},
       {"the end before the start",
        "2027-02-20",
        "2027-01-09",
        {"6:40: /exceptions/0/expires: found text '2027-01-09', expected no day before 2027-01-10, the date of the entry; check both"}},
       {"the end on the day of the start", "2027-02-20", "2027-01-10", {}}});
}

TEST_CASE("all that is wrong with a file of exceptions is said at once, in its order") {
  const auto said = exceptions_problems(as_json(R"({ 'format': 'boxproof-exceptions/1', 'exceptions': [
  { 'rule': 'x', 'boxes': [], 'reason': '', 'agreed_by': 1, 'date': '2027-06-31', 'until': '' },
  { }
] })"));
  const std::vector<std::string> starts{"e.json:2:13: /exceptions/0/rule: ",
                                        "e.json:2:27: /exceptions/0/boxes: ",
                                        "e.json:2:41: /exceptions/0/reason: ",
                                        "e.json:2:58: /exceptions/0/agreed_by",
                                        "e.json:2:69: /exceptions/0/date: ",
                                        "e.json:2:83: /exceptions/0/until: ",
                                        "e.json:3:3: /exceptions/1: found no \"rule\"",
                                        "e.json:3:3: /exceptions/1: found no \"boxes\"",
                                        "e.json:3:3: /exceptions/1: found no \"reason\"",
                                        "e.json:3:3: /exceptions/1: found no \"agreed_by\"",
                                        "e.json:3:3: /exceptions/1: found no \"date\""};
  REQUIRE(said.size() == starts.size());
  for (std::size_t i = 0; i < said.size(); ++i) {
    CAPTURE(said[i]);
    CHECK(said[i].starts_with(starts[i]));
  }
}

TEST_CASE("a file of exceptions that is no JSON, or no object") {
  for (const char* text : {"", "   ", "{", "[", "{\"format\": }", "\xFF"}) {
    CAPTURE(text);
    CHECK(exceptions_problems(text).size() == 1);
  }
  CHECK(exceptions_problems("[]") ==
        std::vector<std::string>{"e.json:1:1: found a list, expected an object {…}"});
}
