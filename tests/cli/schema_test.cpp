// The command schema: every schema in data/schema, each whole in itself.
#include <filesystem>
#include <set>

#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::set<std::string> schema_names() {
  std::set<std::string> out;
  for (const auto& file : std::filesystem::directory_iterator(BOXPROOF_SOURCE "/data/schema"))
    out.insert(file.path().stem().stem().string());
  return out;
}

void add_references(const Json& value, std::vector<std::string>& out) {
  if (value.is_object() && value.contains("$ref")) out.push_back(value["$ref"]);
  for (const Json& part : value)
    if (part.is_structured()) add_references(part, out);
}

std::vector<std::string> references(const Json& schema) {
  std::vector<std::string> out;
  add_references(schema, out);
  return out;
}

}  // namespace

TEST_CASE("schema: each is a JSON Schema, and every reference in it points to a place within it") {
  REQUIRE(schema_names().size() >= 11);
  for (const std::string& name : schema_names()) {
    CAPTURE(name);
    const Called c = call({"schema", name});
    CHECK(c.status == 0);
    const Json schema = Json::parse(c.out);
    CHECK(schema["$schema"] == "https://json-schema.org/draft/2020-12/schema");
    CHECK(schema["$id"] == "urn:boxproof:" + name + ":1");
    for (const std::string& reference : references(schema)) {
      CAPTURE(reference);
      REQUIRE(reference.starts_with("#/"));
      CHECK(schema.contains(Json::json_pointer(reference.substr(1))));
    }
    if (!schema.contains("$defs")) continue;
    for (const Json& definition : schema["$defs"]) CHECK_FALSE(definition.contains("$id"));
  }
  CHECK(call({"schema"}).status == 2);
  CHECK(call({"schema", "desing"}).status == 2);
}

TEST_CASE("schema: what a format borrows from another comes along as it is there") {
  const std::vector<std::pair<std::string, std::string>> borrowed{{"site", "design"}, {"reports", "report"}};
  for (const auto& [name, lender] : borrowed) {
    CAPTURE(name);
    const Json own = Json::parse(call({"schema", name}).out);
    const Json lent = Json::parse(call({"schema", lender}).out);
    Json expected = lent;
    expected.erase("$schema");
    expected.erase("$id");
    std::string text = expected.dump();
    const std::string before = "\"$ref\":\"#", after = "\"$ref\":\"#/$defs/" + lender;
    for (auto at = text.find(before); at != std::string::npos; at = text.find(before, at + after.size()))
      text.replace(at, before.size(), after);
    CHECK(own["$defs"][lender] == Json::parse(text));
    CHECK(references(own).size() > references(lent).size());
  }
  const Json site = Json::parse(call({"schema", "site"}).out);
  CHECK(site["properties"]["site"]["$ref"] == "#/$defs/design/properties/site");
  CHECK(site["properties"]["note"]["$ref"] == "#/$defs/design/$defs/note");
  CHECK(Json::parse(call({"schema", "reports"}).out)["$defs"]["judged"]["properties"]["report"]["$ref"] ==
        "#/$defs/report");
}
