// Baselines: what is read, and all that is said of one with something wrong in it, and where.
#include "boxproof/baseline.hpp"
#include "tests/support/bad_input.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// The fingerprints are those that a report has of these findings.
constexpr std::string_view sound = R"({
  'format': 'boxproof-baseline/1', '$schema': 'x', 'note': 1,
  'date': '2027-03-18', 'reason': 'existing',
  'findings': [
    { 'design': 'north/b.json', 'fingerprint': '7a4f77afdef427ec', 'rule': 'disconnect/too-far',
      'box': 'F-2', 'part': 'disconnect', 'severity': 'correction' },
    { 'design': './a.json', 'fingerprint': 'c80c475d5f205a20', 'rule': 'site/temperature-source',
      'box': null, 'part': 'temperature_source', 'severity': 'query', 'note': 'by hand' }
  ]
}
)";

}  // namespace

TEST_CASE("a baseline is read, the entries of a design together") {
  const Baseline b = read_baseline({"b.json", as_json(sound)});
  CHECK(b.name == "b.json");
  CHECK(to_text(b.date) == "2027-03-18");
  CHECK(b.reason == "existing");
  REQUIRE(b.entries.size() == 2);
  CHECK(b.entries[0].design == "a.json");  // normalised
  CHECK(b.entries[0].box.empty());
  CHECK(b.entries[0].severity == Severity::query);
  CHECK(b.entries[1].design == "north/b.json");
  CHECK(b.entries[1].fingerprint == "7a4f77afdef427ec");
  CHECK(b.entries[1].rule == "disconnect/too-far");
  CHECK(b.entries[1].box == "F-2");
  CHECK(b.entries[1].part == "disconnect");
  CHECK(b.entries[1].severity == Severity::correction);
  CHECK(b.entries[1].place.pointer == "/findings/0");
  CHECK(b.entries[1].place.line == 5);
  CHECK(b.entries[1].place.column == 5);
  CHECK(read_baseline({"b.json", as_json(R"({'format': 'boxproof-baseline/1', 'date': '2027-03-18',
                                          'reason': 'x', 'findings': []})")})
            .entries.empty());
}

TEST_CASE("what is written is read back") {
  const Baseline before = read_baseline({"b.json", as_json(sound)});
  std::string text;
  write_baseline(before, [&](std::string_view piece) { text += piece; });
  const Baseline after = read_baseline({"b.json", text});
  CHECK(after.reason == before.reason);
  CHECK(after.date == before.date);
  REQUIRE(after.entries.size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK_FALSE(comes_before(after.entries[i], before.entries[i]));
    CHECK_FALSE(comes_before(before.entries[i], after.entries[i]));
    CHECK(after.entries[i].place.line == 6 + i);  // an entry a line
  }
}

TEST_CASE("baselines with something missing or of another kind than expected") {
  check_baselines(
      sound,
      {{"another format",
        "boxproof-baseline/1",
        "boxproof-exceptions/1",
        {"2:13: /format: found text 'boxproof-exceptions/1', expected 'boxproof-baseline/1'; is this a "
         "baseline?"}},
       {"no format",
        "'format': 'boxproof-baseline/1', ",
        "",
        {"1:1: found no 'format', expected it here; it is required"}},
       {"no date", "'date': '2027-03-18', ", "", {"1:1: found no 'date', expected it here; it is required"}},
       {"no reason",
        "'date': '2027-03-18', 'reason': 'existing'",
        "'date': '2027-03-18'",
        {"1:1: found no 'reason', expected it here; it is required"}},
       {"an empty reason",
        "'existing'",
        "' '",
        {"3:35: /reason: found an empty text, expected why these findings stay for now"}},
       {"no findings",
        "'findings': [",
        "'finding': [",
        {"1:1: found no 'findings', expected it here; it is required",
         "4:3: /finding: found the key 'finding', which is not known here; did you mean 'findings'?; known keys "
         "are $schema, format, date, reason, findings"}},
       {"a day that the calendar has not",
        "2027-03-18",
        "2027-03-32",
        {"3:11: /date: found text '2027-03-32', expected a day of the calendar; that month has the days 01 to "
         "31"}},
       {"no design",
        "'design': 'north/b.json', ",
        "",
        {"5:5: /findings/0: found no 'design', expected it here; it is required"}},
       {"a design from the root",
        "north/b.json",
        "/b.json",
        {"5:17: /findings/0/design: found text '/b.json', expected a path from the folder of this baseline; write "
         "the baseline anew with boxproof baseline"}},
       {"no fingerprint",
        "'fingerprint': '7a4f77afdef427ec', ",
        "",
        {"5:5: /findings/0: found no 'fingerprint', expected it here; it is required"}},
       {"no fingerprint at all",
        "'7a4f77afdef427ec'",
        "'7a4f77afdef427e'",
        {"5:48: /findings/0/fingerprint: found text '7a4f77afdef427e', expected 16 hexadecimal digits; findings "
         "are known by them; write the baseline anew with boxproof baseline"}},
       {"no hexadecimal digits",
        "'7a4f77afdef427ec'",
        "'7a4f77afdef427eg'",
        {"5:48: /findings/0/fingerprint: found text '7a4f77afdef427eg', expected 16 hexadecimal digits; findings "
         "are known by them; write the baseline anew with boxproof baseline"}},
       {"no rule",
        ", 'rule': 'disconnect/too-far'",
        "",
        {"5:5: /findings/0: found no 'rule', expected it here; it is required"}},
       {"no box",
        "'box': 'F-2', ",
        "",
        {"5:5: /findings/0: found no 'box', expected it here; it is required"}},
       {"a number for a box", "'F-2'", "2", {"6:14: /findings/0/box: found 2, expected text in quotes"}},
       {"no part",
        "'part': 'disconnect', ",
        "",
        {"5:5: /findings/0: found no 'part', expected it here; it is required"}},
       {"no severity",
        ", 'severity': 'correction'",
        "",
        {"5:5: /findings/0: found no 'severity', expected it here; it is required"}},
       {"a list for an entry",
        "{ 'design': 'north/b.json', 'fingerprint': '7a4f77afdef427ec', 'rule': 'disconnect/too-far',\n      "
        "'box': 'F-2', 'part': 'disconnect', 'severity': 'correction' }",
        "[]",
        {"5:5: /findings/0: found a list, expected an object {…}"}}});
}

TEST_CASE("baselines with names that nobody knows, and a hazard") {
  check_baselines(
      sound,
      {{"a misspelt key",
        "'part': 'disconnect', ",
        "'part': 'disconnect', 'severitty': 1, ",
        {"6:43: /findings/0/severitty: found the key 'severitty', which is not known here; did you mean 'severity'?; known "
         "keys are design, fingerprint, rule, box, part, severity"}},
       {"a rule that is none",
        "disconnect/too-far",
        "disconnect/too-fat",
        {"5:76: /findings/0/rule: found text 'disconnect/too-fat', expected the id of a rule; did you mean "
         "'disconnect/too-far'?; boxproof rules lists them; if another version had it, write the baseline anew "
         "with boxproof baseline"}},
       {"a severity that is none",
        "'correction'",
        "'corection'",
        {"6:55: /findings/0/severity: found text 'corection', expected one of 'correction', 'query', 'advice'; did "
         "you mean 'correction'?"}},
       {"a hazard",
        "'correction'",
        "'hazard'",
        {"6:55: /findings/0/severity: found 'hazard', expected 'correction', 'query' or 'advice': a hazard is "
         "never on a baseline; only an agreed exception sets one aside (boxproof check --exceptions)"}}});
}

TEST_CASE("an entry that covers another finding than it names") {
  const std::string_view made_of = "5:48: /findings/0/fingerprint: found text '7a4f77afdef427ec', expected '";
  for (const auto& [from, to] :
       {std::pair{"disconnect/too-far", "disconnect/missing"}, std::pair{"'F-2'", "'F-3'"},
        std::pair{"'F-2'", "null"}, std::pair{"'disconnect',", "'output',"}}) {
    CAPTURE(from, to);
    const auto said = baseline_problems(as_json(changed(sound, from, to)));
    REQUIRE(said.size() == 1);
    CHECK(said[0].starts_with("b.json:" + as_json(made_of)));
    CHECK(said[0].ends_with(
        "\", which is made of this rule, box and part; write the baseline anew with boxproof baseline"));
  }
}

TEST_CASE("all that is wrong with a baseline is said at once, in its order") {
  const auto said =
      baseline_problems(as_json(R"({ 'format': 'boxproof-baseline/1', 'date': 'spring', 'reason': '',
  'findings': [ { 'design': '', 'fingerprint': 1, 'rule': 'x', 'box': [], 'part': {}, 'severity': 'hazard' },
  { } ] })"));
  const std::vector<std::string> starts{"1:44: /date",
                                        "1:64: /reason",
                                        "2:29: /findings/0/design",
                                        "2:48: /findings/0/fingerprint",
                                        "2:59: /findings/0/rule",
                                        "2:71: /findings/0/box",
                                        "2:83: /findings/0/part",
                                        "2:99: /findings/0/severity",
                                        "3:3: /findings/1: found no \"design\"",
                                        "3:3: /findings/1: found no \"fingerprint\"",
                                        "3:3: /findings/1: found no \"rule\"",
                                        "3:3: /findings/1: found no \"box\"",
                                        "3:3: /findings/1: found no \"part\"",
                                        "3:3: /findings/1: found no \"severity\""};
  REQUIRE(said.size() == starts.size());
  for (std::size_t i = 0; i < said.size(); ++i) {
    CAPTURE(said[i], starts[i]);
    CHECK(said[i].starts_with("b.json:" + starts[i]));
  }
}

TEST_CASE("a baseline that is no JSON, or no object") {
  for (const char* text : {"", "   ", "{", "[", "{\"format\": }", "\xFF"}) {
    CAPTURE(text);
    CHECK(baseline_problems(text).size() == 1);
  }
  CHECK(baseline_problems("[]") ==
        std::vector<std::string>{"b.json:1:1: found a list, expected an object {…}"});
}
