// Which JSON files of a folder are taken for designs.
#include "src/read/peek.hpp"

#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;
using read::why_no_design;

TEST_CASE("designs, whole and broken: their reader has the word") {
  const std::string sound = sound_design().dump();
  CHECK(why_no_design(sound) == "");
  for (std::size_t end = 40; end < sound.size(); end += 97) {  // cut off anywhere behind the format
    CAPTURE(end);
    CHECK(why_no_design(std::string_view(sound).substr(0, end)) == "");
  }
  std::string wide{"\xFF\xFE"};
  for (const char c : sound) (wide += c) += '\0';
  const std::string_view texts[] = {
      R"({"format": "boxproof-design/1"})",
      R"({"format": "boxproof-design/2"})",
      R"({"format": "boxproof-desing/1"})",
      R"({"format": "boxproof-design"})",
      R"({"form\u0061t": "boxproof-design\/1"})",
      R"({"note": {"format": "other"}, "format": "boxproof-design/1"})",
      R"({"format": "other", "format": "boxproof-design/1"})",  // its reader says that this is twice
      R"({"combiners": []})",
      R"({"site": {}, "combiners": {}})",
      R"({"format": 1, "combiners": []})",
      R"({"format": null, "combiners": []})",
      R"({"combiners": [)",
      "\xEF\xBB\xBF{\"format\": \"boxproof-design/1\"}",
      R"({"site": {"name": "no end, "format": "boxproof-design/1"})",
      R"({"site": {"format": "boxproof-design/1", "combiners": [})",
      R"({"site": {"name": "x", "combiners": []})",
      wide,
  };
  for (const std::string_view text : texts) {
    CAPTURE(std::string(text));
    CHECK(why_no_design(text) == "");
  }
}

TEST_CASE("strangers, and why") {
  struct Row {
    std::string_view text, why;
  };
  const Row rows[] = {
      {R"({"format": "boxproof-asbuilt/1", "boxes": []})",
       R"(its format is "boxproof-asbuilt/1", not "boxproof-design/1")"},
      {R"({"format": "boxproof-report/1", "combiners": [], "note": "of a boxproof-design/1"})",
       R"(its format is "boxproof-report/1", not "boxproof-design/1")"},
      {R"({"format": "boxproof-report/1", "note": "boxproof-design/1")",  // broken, and says what it is
       R"(its format is "boxproof-report/1", not "boxproof-design/1")"},
      {R"({"format": ["boxproof-design/1"]})", R"(its format is a list, not "boxproof-design/1")"},
      {R"({"format": 1})", R"(its format is 1, not "boxproof-design/1")"},
      {R"({"conductor": {"voltage_drop": {"max_pct": 1.5}}})", "it states no format and no combiners"},
      {R"({"totals": {"combiners": 5}})", "it states no format and no combiners"},
      {R"({"note": "see boxproof-design/1"})", "it states no format and no combiners"},
      {R"([{"format": "boxproof-design/1", "combiners": []}])", "it is no JSON object"},
      {"{]", "it states no format and no combiners"},
      {"not JSON", "it is no JSON object"},
      {"", "it is empty"},
      {" \n", "it is empty"},
  };
  for (const Row& row : rows) {
    CAPTURE(std::string(row.text));
    CHECK(why_no_design(row.text) == row.why);
  }
  for (const char* name : {"saltmarsh-visit.json", "saltmarsh-exceptions.json", "quay-amendments.json"}) {
    CAPTURE(name);
    CHECK(why_no_design(example_text(name)) != "");
  }
  for (const char* name : {"saltmarsh.json", "saltmarsh-faults.json", "ferry-shed.json"}) {
    CAPTURE(name);
    CHECK(why_no_design(example_text(name)) == "");
  }
}

TEST_CASE("none of our formats is near enough to a design's to be taken for a slip of it") {
  for (const char* name : {"asbuilt", "exceptions", "baseline", "settings", "report", "reports", "comparison",
                           "labels", "rules"}) {
    CAPTURE(name);
    CHECK(why_no_design(std::string(R"({"format": "boxproof-)") + name + R"(/1", "combiners": []})") != "");
  }
}
