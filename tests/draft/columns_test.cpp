// The columns against the schema of designs: each key of a box has one, and each is told.
#include "src/draft/columns.hpp"

#include <set>

#include "src/draft/column_list.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const Json& schema() {
  static const Json whole = Json::parse(call({"schema", "design"}).out);
  return whole;
}

Json resolved(Json part) {
  while (!part.contains("properties")) {
    if (part.contains("$ref"))
      part = Json(schema()[Json::json_pointer(part["$ref"].get<std::string>().substr(1))]);
    else if (part.contains("allOf"))
      part = Json(part["allOf"][0]);
    else if (part.contains("anyOf"))
      part = Json(part["anyOf"][0]);
    else
      break;
  }
  return part;
}

// Every path of keys below an object, except remarks; a list of objects counts as an object.
void paths(const Json& object, const std::string& above, std::set<std::string>& out) {
  const Json whole = resolved(object);
  for (const auto& [key, unresolved] : whole["properties"].items()) {
    if (key == "note") continue;
    Json part = resolved(unresolved);
    const std::string path = above + key;
    if (path == "labels") {
      out.insert(path);
      continue;
    }
    if (part.contains("items")) {
      paths(part["items"], path + "/", out);
      continue;
    }
    out.insert(path);
    if (part.contains("properties")) paths(part, path + "/", out);
  }
}

}  // namespace

TEST_CASE("each key of a box that the schema has is a column, and no other") {
  std::set<std::string> keys, known;
  paths(schema()["$defs"]["combiner"], "", keys);
  for (const draft::Column& column : draft::columns) known.emplace(column.path);
  CHECK(known == keys);
  CHECK(known.size() == draft::columns.size());
  CHECK(std::set<std::string_view>(draft::column_names.begin(), draft::column_names.end()).size() ==
        draft::columns.size());
}

TEST_CASE("a column holds what the schema says, and a unit stands in its name as in the key's") {
  for (std::size_t c = 0; c < draft::columns.size(); ++c) {
    const draft::Column& column = draft::columns[c];
    CAPTURE(std::string(column.name));
    Json part = schema()["$defs"]["combiner"];
    std::string rest(column.path);
    while (!rest.empty()) {
      const auto end = rest.find('/');
      part = resolved(part);
      if (part.contains("items")) part = resolved(part["items"]);
      part = part["properties"][rest.substr(0, end)];
      rest = end == std::string::npos ? "" : rest.substr(end + 1);
    }
    part = resolved(part);
    // Words that are known, beside any other text: without a type.
    const std::string type = !part.contains("type")    ? "string"
                             : part["type"].is_array() ? part["type"][0]
                                                       : part["type"];
    const std::string holds = column.holds == draft::Holds::text     ? "string"
                              : column.holds == draft::Holds::truth  ? "boolean"
                              : column.holds == draft::Holds::part   ? "object"
                              : column.holds == draft::Holds::labels ? "array"
                                                                     : "number";
    CHECK((type == holds || (type == "integer" && holds == "number")));
    CHECK(column.name.ends_with(draft::key_of(c)));
    if (column.words.empty()) continue;
    std::vector<std::string> words(column.words.begin(), column.words.end()), listed;
    for (const Json& word : part["enum"])
      if (word.is_string()) listed.push_back(word);
    CHECK(words == listed);
  }
}

TEST_CASE("draft --columns lists and explains each column") {
  const Called c = call({"draft", "--columns"});
  CHECK(c.status == 0);
  CHECK(c.err.empty());
  std::size_t at = 0;
  for (const std::string_view name : draft::column_names) {
    CAPTURE(std::string(name));
    at = c.out.find("\n  " + std::string(name) + " ", at);
    REQUIRE(at != std::string::npos);
    const std::string line = c.out.substr(at + 1, c.out.find('\n', at + 1) - at - 1);
    CHECK(line.size() > 32);
    CHECK(line.size() <= 80);
    const bool required = line.find(" * ") != std::string::npos;
    CHECK(required == (name == "id" || name == "inverter" || name == "module" || name == "series"));
    CHECK(line[30] != ' ');
    CHECK(line[30] != ';');
  }
}
