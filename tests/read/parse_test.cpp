// Every value of a tree knows its place: read again from there by nlohmann's own parser it gives the same
// value.
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "src/read/tree.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/random_json.hpp"

using namespace boxproof::read;
using boxproof::test::RandomJson;
using Json = nlohmann::json;

namespace {

struct Collector : Sink {
  std::vector<std::pair<std::string, Tree>> members;
  std::vector<Tree> elements;
  std::vector<std::string> problems;
  void member(std::string_view key, const Tree& tree) override { members.emplace_back(key, tree); }
  void element(std::uint32_t index, const Tree& tree) override {
    CHECK(index == static_cast<std::uint32_t>(tree.index));
    elements.push_back(tree);
  }
  void problem(std::uint32_t, std::string, std::string message) override {
    problems.push_back(std::move(message));
  }
};

// The string that starts at the offset, decoded by nlohmann.
std::string string_at(std::string_view source, std::size_t offset) {
  std::size_t end = offset + 1;
  for (; source[end] != '"'; ++end)
    if (source[end] == '\\') ++end;
  return Json::parse(source.substr(offset, end + 1 - offset)).get<std::string>();
}

// Holds the value against the same one parsed by nlohmann, at its place and all below it. Returns how many
// there are.
std::size_t check_value(const Value& value, const Json& expected) {
  const std::string_view source = value.tree()->source;
  const std::string_view here = source.substr(value.offset());
  std::size_t count = 1;
  switch (expected.type()) {
    case Json::value_t::null: CHECK((value.kind() == Kind::null && here.starts_with("null"))); break;
    case Json::value_t::boolean:
      CHECK((value.kind() == Kind::boolean && value.boolean() == expected.get<bool>()));
      CHECK(here.starts_with(expected.get<bool>() ? "true" : "false"));
      break;
    case Json::value_t::string:
      CHECK((value.kind() == Kind::text && value.text() == expected.get<std::string>()));
      CHECK(string_at(source, value.offset()) == expected.get<std::string>());
      break;
    case Json::value_t::object: {
      CHECK((value.kind() == Kind::object && here.front() == '{'));
      REQUIRE(value.size() == expected.size());
      for (Value v = value.first(); v; v = v.next_within(value)) {
        const std::string key(v.key());
        REQUIRE(expected.contains(key));
        CHECK(string_at(source, v.key_offset()) == key);
        CHECK(value.find(key).index() == v.index());
        count += check_value(v, expected[key]);
      }
      break;
    }
    case Json::value_t::array: {
      CHECK((value.kind() == Kind::array && here.front() == '['));
      REQUIRE(value.size() == expected.size());
      std::size_t i = 0;
      for (Value v = value.first(); v; v = v.next_within(value)) count += check_value(v, expected[i++]);
      break;
    }
    default: {
      CHECK((value.kind() == Kind::number && value.number() == expected.get<double>()));
      std::size_t end = 0;
      while (end < here.size() && is_number_char(here[end])) ++end;
      CHECK(Json::parse(here.substr(0, end)).get<double>() == expected.get<double>());
      CHECK((value.offset() == 0 || !is_number_char(source[value.offset() - 1])));
    }
  }
  return count;
}

std::string list_document(std::size_t elements, RandomJson& random) {
  std::string out = "{\"x\":1,\"boxes\":[";
  for (std::size_t i = 0; i < elements; ++i)
    out += (i == 0 ? "" : random.space() + ",") + random.space() + random.value(2);
  return out + random.space() + "],\"y\":[2]}";
}

}  // namespace

TEST_CASE("values of random documents know their places") {
  std::size_t values = 0;
  for (std::uint32_t seed = 0; seed < 400; ++seed) {
    RandomJson random(seed);
    const std::string source = (seed % 5 == 0 ? "\xEF\xBB\xBF" : "") + random.space() +
                               random.object(5, 2 + random.below(8)) + random.space();
    CAPTURE(source);
    Collector sink;
    const std::optional<Tree> tree = parse_whole(source, sink);
    REQUIRE(tree);
    const Value top(*tree, 0);
    values += check_value(top, Json::parse(source));
    const Tree again = parse_value(source, top.offset());
    CHECK(check_value(Value(again, 0), Json::parse(source)) > 0);
  }
  CHECK(values > 4000);
}

TEST_CASE("members and elements of random documents know their places") {
  for (std::uint32_t seed = 0; seed < 200; ++seed) {
    RandomJson random(1000 + seed);
    std::string source = list_document(random.below(6), random);
    if (seed % 2 == 0) source = "\xEF\xBB\xBF" + source;
    CAPTURE(source);
    const Json expected = Json::parse(source);
    Collector sink;
    const ListSpan span = find_list(source, "boxes");
    REQUIRE(parse_members(source, span, sink));
    REQUIRE(sink.members.size() == 3);
    CHECK(check_value(Value(sink.members[0].second, 0), expected["x"]) == 1);
    CHECK(check_value(Value(sink.members[1].second, 0), Json::array()) ==
          1);  // its elements come by themselves
    CHECK(check_value(Value(sink.members[2].second, 0), expected["y"]) == 2);
    const auto count = static_cast<std::uint32_t>(span.elements.size());
    if (count == 0) continue;
    REQUIRE(parse_elements(source, "boxes", span, 0, count, sink));
    REQUIRE(sink.elements.size() == expected["boxes"].size());
    for (std::size_t i = 0; i < sink.elements.size(); ++i) {
      CHECK(check_value(Value(sink.elements[i], 0), expected["boxes"][i]) > 0);
      CHECK(Value(sink.elements[i], 0).offset() == span.elements[i]);
      CHECK(pointer_of(Value(sink.elements[i], 0)) == fmt::format("/boxes/{}", i));
    }
  }
}

TEST_CASE("a long list in any two parts is the whole") {
  RandomJson random(7);
  const std::string source = list_document(1500, random);
  const Json expected = Json::parse(source)["boxes"];
  const ListSpan span = find_list(source, "boxes");
  REQUIRE(span.elements.size() == 1500);
  for (const std::uint32_t cut : {1U, 2U, 511U, 512U, 513U, 750U, 1024U, 1499U}) {
    Collector sink;
    REQUIRE(parse_elements(source, "boxes", span, 0, cut, sink));
    CHECK(sink.elements.size() == cut);
    REQUIRE(parse_elements(source, "boxes", span, cut, 1500, sink));
    REQUIRE(sink.elements.size() == 1500);
    for (std::size_t i = 0; i < 1500; ++i) CHECK(check_value(Value(sink.elements[i], 0), expected[i]) > 0);
    CHECK(sink.problems.empty());
  }
  for (std::uint32_t i = 0; i < 1500; ++i) {  // and each by itself
    Collector sink;
    REQUIRE(parse_elements(source, "boxes", span, i, i + 1, sink));
    REQUIRE(sink.elements.size() == 1);
    CHECK(check_value(Value(sink.elements[0], 0), expected[i]) > 0);
  }
}

TEST_CASE("elements with something wrong between them are refused") {
  for (const char* list : {"1,,2", "1,2,", ",1", "1 2", "{}{}", "1,tru", "\"a", "1,2]", "01"}) {
    const std::string source = fmt::format("{{\"boxes\":[{}]}}", list);
    CAPTURE(source);
    Collector sink;
    const ListSpan span = find_list(source, "boxes");
    const bool read =
        parse_members(source, span, sink) && span.found && !span.elements.empty() &&
        parse_elements(source, "boxes", span, 0, static_cast<std::uint32_t>(span.elements.size()), sink);
    CHECK_FALSE(read);
  }
}

TEST_CASE("64 levels are read, 65 are not") {
  for (const auto& [open, close] : {std::pair{"[", "]"}, std::pair{"{\"a\":", "}"}}) {
    std::string source = "1";
    for (int i = 0; i < 64; ++i) source = open + source + close;
    Collector sink;
    CHECK(parse_whole(source, sink));
    CHECK(sink.problems.empty());
    CHECK_FALSE(parse_whole(open + source + close, sink));
    CHECK(sink.problems.size() == 1);
  }
}

TEST_CASE("pointers there and back, with the escapes of RFC 6901") {
  const std::string source = R"({"a/b":{"m~n":[1,{"":[true]}]},"":2,"é\"":3})";
  Collector sink;
  const Tree tree = *parse_whole(source, sink);
  const Value top(tree, 0);
  std::string_view rest = "?";
  for (const char* pointer : {"", "/a~1b", "/a~1b/m~0n", "/a~1b/m~0n/0", "/a~1b/m~0n/1", "/a~1b/m~0n/1/",
                              "/a~1b/m~0n/1//0", "/", "/é\""}) {
    CAPTURE(pointer);
    CHECK(pointer_of(follow(top, pointer, &rest)) == pointer);
    CHECK(rest.empty());
  }
  CHECK(pointer_of(follow(top, "/a~1b/x/y", &rest)) == "/a~1b");
  CHECK(rest == "/x/y");
  CHECK(pointer_of(follow(top, "/a~1b/m~0n/7", &rest)) == "/a~1b/m~0n");
}
