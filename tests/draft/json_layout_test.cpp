// JSON laid out: the same values, lines that a page can hold, nothing on a line of its own that fits.
#include "src/draft/json_layout.hpp"

#include <sstream>

#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::string laid_out(const std::string& json, std::size_t indent = 0, std::size_t column = 0) {
  const read::Tree tree = read::parse_value(json, 0);
  report::Buffer out;
  draft::lay_out(out, read::Value(tree, 0), indent, column);
  return {out.data(), out.size()};
}

}  // namespace

TEST_CASE("what fits on a line is one line") {
  CHECK(laid_out(R"({"a":1,"b":[true,null,"x"],"c":{},"d":[],"e":{"f":-0.5}})") ==
        R"({ "a": 1, "b": [ true, null, "x" ], "c": {}, "d": [], "e": { "f": -0.5 } })");
  CHECK(laid_out("41.0") == "41");
  CHECK(laid_out("0.1") == "0.1");
  CHECK(laid_out("\"a\\u0000\\u202e\\n\\\"\"") == "\"a\\u0000\\u202e\\n\\\"\"");
}

TEST_CASE("a line holds 110 columns and its comma, and no more") {
  for (const std::size_t length : {std::size_t{99}, std::size_t{100}, std::size_t{101}}) {
    const std::string text = "{ \"a\": \"" + std::string(length, 'x') + "\" }";  // 11 columns more
    CAPTURE(text.size());
    CHECK((laid_out(text) == text) == (text.size() < 110));
    CHECK((laid_out(text, 2, 2) == text) == (text.size() + 2 < 110));
  }
}

TEST_CASE("short values share lines, nested ones stand alone") {
  const std::string forty(40, 'x');
  CHECK(laid_out("{\"a\":\"" + forty + "\",\"b\":\"" + forty + "\",\"c\":\"" + forty +
                     "\",\"d\":{\"e\":1},\"f\":2,\"g\":3}",
                 2, 2) == "{\n    \"a\": \"" + forty + "\", \"b\": \"" + forty + "\",\n    \"c\": \"" +
                              forty + "\",\n    \"d\": { \"e\": 1 },\n    \"f\": 2, \"g\": 3\n  }");
}

TEST_CASE("random designs keep their values, and their lines are no wider") {
  for (std::uint32_t seed = 1; seed < 50; ++seed) {
    CAPTURE(seed);
    const Json design = RandomSite(seed).design();
    const std::string text = laid_out(design.dump());
    CHECK(Json::parse(text) == design);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 110);
  }
}
