// Labels in one cell: what is read, what is written, what is wrong.
#include "src/draft/labels_cell.hpp"

#include <nlohmann/json.hpp>

#include "tests/support/catch.hpp"

using namespace boxproof;
using Json = nlohmann::json;

TEST_CASE("a cell of labels, as JSON and as we write it") {
  struct Case {
    std::string cell, json, text;
  };
  const std::vector<Case> cases{
      {"none", "[]", "none"},
      {" none ", "[]", "none"},
      {"disconnect", R"([{"kind":"disconnect"}])", "disconnect"},
      {"disconnect;", R"([{"kind":"disconnect"}])", "disconnect"},
      {"a;b", R"([{"kind":"a"},{"kind":"b"}])", "a; b"},
      {"a ;\n b()", R"([{"kind":"a"},{"kind":"b"}])", "a; b"},
      {"max-voltage(max_v=970,max_a=232.50)",
       R"([{"kind":"max-voltage","values":{"max_v":970,"max_a":232.5}}])",
       "max-voltage(max_v=970, max_a=232.5)"},
      {"x ( a = 1 , b = 'two' ) ; y", R"([{"kind":"x","values":{"a":1,"b":"two"}},{"kind":"y"}])",
       "x(a=1, b='two'); y"},
      {"x(a='it''s; (b), c=1')", R"([{"kind":"x","values":{"a":"it's; (b), c=1"}}])",
       "x(a='it''s; (b), c=1')"},
      {"x(a='')", R"([{"kind":"x","values":{"a":""}}])", "x(a='')"},
      {"x('a b'=1, ''''='\"')", R"([{"kind":"x","values":{"a b":1,"'":"\""}}])", "x('a b'=1, ''''='\"')"},
      {"x(max v=1)", R"([{"kind":"x","values":{"max v":1}}])", "x('max v'=1)"},
      {"x(a=-0.5, b=.5, c=1e3)", R"([{"kind":"x","values":{"a":-0.5,"b":0.5,"c":1000}}])",
       "x(a=-0.5, b=0.5, c=1000)"},
  };
  for (const Case& c : cases) {
    CAPTURE(c.cell);
    const draft::LabelsCell read = draft::read_labels_cell(c.cell);
    CHECK(read.problem.empty());
    CHECK(Json::parse(read.json) == Json::parse(c.json));
    CHECK(read.text == c.text);
    const draft::LabelsCell again = draft::read_labels_cell(read.text);
    CHECK(again.text == read.text);
    CHECK(Json::parse(again.json) == Json::parse(c.json));
  }
}

TEST_CASE("each label is placed where it stands in the cell") {
  const draft::LabelsCell read = draft::read_labels_cell("one;  two(a=1); three");
  REQUIRE(read.places.size() == 3);
  const std::size_t in_cell[] = {0, 6, 16};
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(read.places[i].second == in_cell[i]);
    CHECK(read.json.substr(read.places[i].first, 9) == "{\"kind\":\"");
  }
}

TEST_CASE("what is wrong with a cell of labels, and where") {
  struct Case {
    std::string cell, problem;
    std::uint32_t at;
  };
  const std::vector<Case> cases{
      {";", "found \";\", expected the kind of a label", 0},
      {"a;;b", "found \";\", expected the kind of a label", 2},
      {"(a=1)", "found \"(\", expected the kind of a label", 0},
      {"a(max_v=970", "found the end of the cell, expected , or ) behind a value", 11},
      {"a(", "found the end of the cell, expected the name of a value, such as max_v", 2},
      {"a(=1)", "found \"=\", expected the name of a value, such as max_v", 2},
      {"a(max_v)", "found \")\", expected = behind \"max_v\"", 7},
      {"a(max_v=)", "found \")\", expected a number, or a text in single quotes", 8},
      {"a(max_v=970 V)", "found \"970 V\", expected a number, or a text in single quotes", 8},
      {"a(id=A-02)", "found \"A-02\", expected a number, or a text in single quotes", 5},
      {"a(max_v=9,7)", "found \")\", expected = behind \"7\"", 11},
      {"a(b=1, b=2)", "found \"b\" a second time, expected each value once", 7},
      {"a(b='x)", "found a single quote that is not closed, expected another one behind the text", 4},
      {"a('b=1)", "found a single quote that is not closed, expected another one behind the text", 2},
      {"a(b='x' y)", "found \"y\", expected , or ) behind a value", 8},
      {"a(b='x'é)", "found \"é\", expected , or ) behind a value", 7},
      {"a(b=1) c", "found \"c\", expected ; and the next label, or ( and what this one states", 7},
      {"a, b", "found \",\", expected ; and the next label, or ( and what this one states", 1},
  };
  for (const Case& c : cases) {
    CAPTURE(c.cell);
    const draft::LabelsCell read = draft::read_labels_cell(c.cell);
    CHECK(read.problem == c.problem);
    CHECK(read.problem_at == c.at);
    CHECK(read.json == "[]");
  }
}
