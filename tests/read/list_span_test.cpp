// Finding the long list without parsing, held against nlohmann's own parse of the same text.
#include "src/read/list_span.hpp"

#include <nlohmann/json.hpp>

#include "tests/support/catch.hpp"
#include "tests/support/random_json.hpp"

using namespace boxproof::read;
using boxproof::test::RandomJson;
using Json = nlohmann::json;

namespace {

// The elements as texts: from the first byte of each to the comma before the next.
std::vector<std::string> texts(std::string_view source, const ListSpan& span) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < span.elements.size(); ++i) {
    std::size_t end = i + 1 < span.elements.size() ? span.elements[i + 1] : span.close;
    std::string_view text = source.substr(span.elements[i], end - span.elements[i]);
    if (i + 1 < span.elements.size()) text = text.substr(0, text.rfind(','));
    out.emplace_back(text);
  }
  return out;
}

// Whether the span is the list as nlohmann sees it.
void check_list(const std::string& source, std::string_view key) {
  CAPTURE(source);
  const Json document = Json::parse(source);
  const ListSpan span = find_list(source, key);
  const auto list = document.find(std::string(key));
  const bool there = list != document.end() && list->is_array();
  REQUIRE(span.found == there);
  if (!there) return;
  CHECK(source[span.open] == '[');
  CHECK(source[span.close] == ']');
  REQUIRE(span.elements.size() == list->size());
  const std::vector<std::string> elements = texts(source, span);
  for (std::size_t i = 0; i < elements.size(); ++i) CHECK(Json::parse(elements[i]) == (*list)[i]);
}

}  // namespace

TEST_CASE("the list in documents written by hand") {
  for (const char* source : {R"({"boxes":[]})",
                             R"({"boxes":[ ]})",
                             R"({"boxes" : [1]})",
                             R"({ "boxes":[{"a":1},{"b":2}] })",
                             R"({"a":1,"boxes":[1,2]})",
                             R"({"boxes":[1,2],"a":1})",
                             R"({"a":{"boxes":[9]},"boxes":[1]})",
                             R"({"a":"boxes","boxes":[1]})",
                             R"({"a":"\"boxes\":[7]","boxes":[1]})",
                             R"({"a":["boxes",[8]],"boxes":[1]})",
                             R"({"boxes":{"boxes":[9]}})",
                             R"({"boxes":5})",
                             R"({"boxes":"[1]"})",
                             R"({"boxesx":[1],"xboxes":[2]})",
                             R"({"boxes\\":[3],"boxes":[1]})",
                             R"({"boxes":["]",",","[","\"","\\"]})",
                             R"({"boxes":[[1,2],[[3]],[]]})",
                             R"({"boxes":[ "a" , "b" ,
"c" ]})",
                             "{\"a\":\"\\\\\",\"boxes\":[1]}",
                             "\xEF\xBB\xBF{\"boxes\":[1,2]}",
                             R"({})",
                             R"({"a":[{"boxes":[1]}]})"})
    check_list(source, "boxes");
}

TEST_CASE("the list in random documents, first, last or between") {
  for (std::uint32_t seed = 0; seed < 300; ++seed) {
    RandomJson random(seed);
    std::vector<std::string> members;
    for (std::size_t i = random.below(4); i-- > 0;)
      members.push_back("\"k" + std::to_string(i) + "\":" + random.value(4));
    members.push_back(R"("text":"\"boxes\":[1,2]")");
    members.push_back(R"("deep":{"boxes":[5],"x":[{"boxes":[]}]})");
    std::string list = "[" + random.space();
    const std::size_t count = random.below(8);
    for (std::size_t i = 0; i < count; ++i)
      list += (i == 0 ? "" : random.space() + "," + random.space()) + random.value(3);
    members.insert(members.begin() + static_cast<std::ptrdiff_t>(random.below(members.size() + 1)),
                   "\"boxes\"" + random.space() + ":" + random.space() + list + random.space() + "]");
    std::string source = random.space() + "{";
    for (std::size_t i = 0; i < members.size(); ++i)
      source += (i == 0 ? "" : random.space() + ",") + random.space() + members[i];
    check_list(source + random.space() + "}" + random.space(), "boxes");
  }
}

TEST_CASE("a list that does not close is not found") {
  for (const char* source :
       {R"({"boxes":[1,2)", R"({"boxes":[1,2})", R"({"boxes":[")", R"({"boxes":["\)", R"({"boxes")",
        R"({"boxes":)", R"({"boxes)", R"([{"boxes":[1]}])", "", "\"", "\"\\"}) {
    CAPTURE(source);
    CHECK_FALSE(find_list(source, "boxes").found);
  }
}
