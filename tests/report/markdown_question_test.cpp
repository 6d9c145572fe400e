// Queries are asked as questions: each begins with one sentence that ends in a question mark.
#include "src/report/markdown_question.hpp"

#include <cctype>
#include <set>

#include "boxproof/input_error.hpp"
#include "boxproof/report.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge_text.hpp"
#include "tests/support/page.hpp"
#include "tests/support/rule_case.hpp"

using namespace boxproof;
using namespace boxproof::report;
using namespace boxproof::test;

namespace {

class Questions {
 public:
  // Checks each query of the judgement.
  void check(const Judged& j) {
    for (const Group& g : group(j.findings())) {
      const Finding& f = g.first();
      if (f.severity != Severity::query) continue;
      const Question q = question_of(g, asks_record(f) ? of_record_ : of_design_);
      CAPTURE(std::string(f.rule->id), f.part, f.message, q.ask, q.because);
      CHECK(q.ask.ends_with("?"));
      CHECK(q.ask.find('\n') == std::string::npos);
      CHECK(q.ask.find("? ") == std::string::npos);                      // one question
      CHECK(q.ask.find("can this be cleared up") == std::string::npos);  // each rule has its own
      CHECK((q.because.empty() || q.because.ends_with(".") || q.because.ends_with("?")));
      if (f.lacking) {
        CHECK(q.ask.find("`" + f.part + "`") != std::string::npos);
        CHECK(q.ask.find("` (") != std::string::npos);  // with what the key means
      }
      asked_.insert(std::string(f.rule->id) + (f.lacking ? " lacking" : ""));
    }
    // The item says it first.
    std::string letter;
    write_markdown({j.design, j.record ? &*j.record : nullptr, j.edition, j.judgement, {}},
                   [&](std::string_view text) { letter += text; });
    const auto queries = letter.find("\n## Queries: ");
    if (queries == std::string::npos) return;
    const auto end = letter.find("\n## ", queries + 1);
    for (const std::string& line : lines_of(letter.substr(queries, end - queries))) {
      if (line.empty() || std::isdigit(static_cast<unsigned char>(line.front())) == 0) continue;
      CAPTURE(line);
      CHECK(line.find("?** ") != std::string::npos);
    }
  }
  const std::set<std::string>& asked() const { return asked_; }

 private:
  KeyWords of_design_{false}, of_record_{true};
  std::set<std::string> asked_;
};

Group of(const Judged& j, std::string_view rule) {
  for (Group& g : group(j.findings()))
    if (g.first().severity == Severity::query && g.first().speaks_for(*find_rule(rule))) return g;
  FAIL("no query of " << rule);
  return {};
}

Json record(const char* box) {
  return Json::parse(std::string(R"({"format": "boxproof-asbuilt/1", "boxes": [)") + box + "]}");
}

// Every pointer to a value of the design below `at`.
void pointers(const Json& value, const std::string& at, std::vector<std::string>& out) {
  if (!at.empty()) out.push_back(at);
  if (value.is_object())
    for (const auto& [key, member] : value.items()) pointers(member, at + "/" + key, out);
  if (value.is_array())
    for (std::size_t i = 0; i < value.size(); ++i) pointers(value[i], at + "/" + std::to_string(i), out);
}

}  // namespace

TEST_CASE("every query that a value left out of the plan makes is a question with the key and its meaning") {
  Questions questions;
  std::vector<std::string> all;
  pointers(sound_design(), "", all);
  std::size_t refused = 0;
  for (const std::string& pointer : all)
    for (const std::string_view edition : {"2008", "2014", "2017", "2023"}) {
      CAPTURE(pointer, std::string(edition));
      try {
        questions.check(*judge(changed(sound_design(), "/combiners/0", {{pointer, nullptr}}), edition));
      } catch (const InputError&) {
        ++refused;  // a value that a design must have
      }
    }
  CHECK(refused > 0);
  CHECK(questions.asked().size() > 15);
}

TEST_CASE("every query of the rules' own cases is a question") {
  Questions questions;
  for (const RuleCase& c : every_rule_case())
    for (const std::string_view edition : edition_names) questions.check(*c.judged(edition, true));
  for (const std::string_view rule :
       {"site/grounding-term", "site/temperature-source", "fuse/heat", "tally/not-visited",
        "condition/wrong-torque-mark", "voltage/no-factor lacking"}) {
    CAPTURE(std::string(rule));
    CHECK(questions.asked().contains(std::string(rule)));
  }
}

// The queries of rules whose case makes something graver.
TEST_CASE("every other query is a question") {
  struct Row {
    std::string_view rule, edition;
    Json design, visit;
    std::string_view says;
  };
  const Json sound = sound_design();
  const auto fine = changed(sound, "/combiners/0", {{"/conductors/feeder/stranding", "fine"}});
  Json two = sound;
  two["combiners"].push_back(two["combiners"][0]);
  two["combiners"][1]["id"] = "A-02";
  Json four = two;
  for (const char* id : {"A-03", "A-04"}) {
    four["combiners"].push_back(two["combiners"][0]);
    four["combiners"].back()["id"] = id;
  }
  const auto without_ocpd = changed(four, "/combiners/0", {{"output/ocpd_a", nullptr}});
  const Json readings = Json::parse(R"({"id": "A-01", "measured": {"irradiance_w_m2": 50, "cell_c": 25,
    "strings": [{"position": 1, "voc_v": 540}]}})");
  for (
      const Row& row : std::vector<Row>{
          {"voltage/site-limit", "2017", with({{"site", {{"use", "ground"}}}}), nullptr,
           "which of the two is it?"},
          {"label/missing", "2017", sound, record(R"({"id": "A-01", "labels": []})"), "was it looked for"},
          {"tally/mixed-fuses", "2017", sound,
           record(R"({"id": "A-01", "mixed_fuses": [{"position": 40, "a": 15}]})"),
           "Which of the fuses is meant?"},
          {"tally/series", "2017", sound, record(R"({"id": "A-01", "count": {"series": [18, 18]}})"),
           "Which of the strings"},
          {"tally/series", "2017", sound,
           record(R"({"id": "A-01", "count": {"positive": 9, "negative": 9, "series": 18, "modules": 5}})"),
           "Which of the two counts is right?"},
          {"tally/part", "2017", sound,
           record(R"({"id": "A-01", "disconnect": {"present": false, "rated_a": 200}})"),
           "Is there a disconnect"},
          {"tally/part", "2017", changed(sound, "/combiners/0", {{"output/run", nullptr}}),
           record(R"({"id": "A-01", "output": {"size": "1/0 AWG"}})"), "Which conductor belongs there"},
          {"tally/not-visited", "2017", two, record(R"({"id": "A-01", "enclosure": {"listed": true}})"),
           "Was the box visited"},
          {"tally/not-visited", "2017", sound, record(R"({"id": "A-01"})"), "was it visited?"},
          {"label/values", "2017", changed(sound, "/combiners/0", {{"labels/1/values/colour", "red"}}),
           nullptr, "What does this value on the label mean?"},
          {"label/values", "2017", changed(sound, "/combiners/0", {{"labels/1/values/max_a", "high"}}),
           nullptr, "Which number stands on the label?"},
          {"enclosure/type", "2017", with_box({{"enclosure", {{"type", "IP65"}}}}), nullptr, "Which type"},
          {"enclosure/air-gap", "2017", with_box({{"mounting", {{"wet", false}, {"air_gap_mm", 2}}}}),
           nullptr, "is it under cover?"},
          {"conductor/insulation", "2017", with({{"conductors", {{"string", {{"insulation", "ZZ"}}}}}}),
           nullptr, "Does the insulation suit"},
          {"conductor/fine-strand", "2017", fine, nullptr, "are its terminals identified for them?"},
          {"conductor/unprotected", "2017", without_ocpd, nullptr, "Which overcurrent device"},
          {"measured/series-count", "2017", sound, record(readings.dump().c_str()),
           "Can `measured/irradiance_w_m2` (irradiance in the plane of the array, watts per square metre) in the field record of "
           "box A-01 be corrected, or measured again?"},
          {"measured/current", "2017", sound,
           record(R"({"id": "A-01", "measured": {"irradiance_w_m2": 1000, "cell_c": 25,
              "strings": [{"position": 1, "isc_a": 5}, {"position": 2, "isc_a": 5}]}})"),
           "what else puts all these currents off?"},
          {"measured/current", "2017", sound,
           record(R"({"id": "A-01", "measured": {"irradiance_w_m2": 1000, "cell_c": 25, "strings": [
              {"position": 1, "isc_a": 9.6}, {"position": 2, "isc_a": 9.6}, {"position": 3, "isc_a": 19}]}})"),
           "is more than one string on it"},
          {"measured/series-count", "2017", sound,
           record(R"({"id": "A-01", "measured": {"irradiance_w_m2": 1000, "cell_c": 25, "tolerance_pct": 10,
              "strings": [{"position": 1, "voc_v": 510}]}})"),
           "How many modules in series are there by count"},
          {"conductor/aluminum", "2017",
           with({{"conductors", {{"string", {{"material", "aluminum"}, {"size", "14 AWG"}}}}}}), nullptr,
           "Is the size of the aluminum conductor right?"},
          {"site/grounding-term", "2014", with({{"inverters", {{"I", {{"grounding", "functional"}}}}}}),
           nullptr, "ungrounded?"},
      }) {
    CAPTURE(std::string(row.rule), std::string(row.says));
    const auto judged = judge(row.design, row.edition, row.visit);
    CAPTURE(judged->summary());
    Questions questions;
    questions.check(*judged);
    bool said = false;
    std::string all;
    for (const Group& g : group(judged->findings()))
      if (g.first().severity == Severity::query) {
        const std::string ask = question_of(g, KeyWords(asks_record(g.first()))).ask;
        all += ask + "\n";
        said =
            said || (g.first().speaks_for(*find_rule(row.rule)) && ask.find(row.says) != std::string::npos);
      }
    CAPTURE(all);
    CHECK(said);
  }
}

TEST_CASE("a question in full") {
  const auto ask = [](const Json& design, std::string_view rule) {
    const auto judged = judge(design);
    const Question q = question_of(of(*judged, rule), KeyWords(false));
    return q.ask + " " + q.because;
  };
  Json two = with_box({{"fuse", {{"dc", nullptr}}}});
  two["combiners"].push_back(two["combiners"][0]);
  two["combiners"][1]["id"] = "B-12";
  CHECK(
      ask(two, "fuse/not-dc") ==
      "What is the value of `fuse/dc` (whether it is rated for direct current) of boxes A-01, B-12? Without it "
      "`fuse/not-dc` cannot be judged.");
  CHECK(
      ask(changed(sound_design(), "/combiners/0", {{"/inverters/I/rapid_shutdown", nullptr}}),
          "protection/rapid-shutdown")
          .starts_with(
              "What is the value of `inverters/I/rapid_shutdown` (whether there is rapid shutdown)? Without it "
              "`protection/rapid-shutdown`"));
  CHECK(
      ask(with({{"site", {{"temperature_source", nullptr}}}}), "site/temperature-source") ==
      "Where do the design temperatures come from? The design temperatures (−10 °C and 36 °C) have no source.");
}

TEST_CASE("what a key means, by the schema") {
  const KeyWords design(false), visit(true);
  struct Row {
    const KeyWords& words;
    std::string_view key, meaning;
  };
  for (const Row& row :
       std::vector<Row>{{design, "fuse/dc", "whether it is rated for direct current"},
                        {design, "site/low_c", "lowest ambient temperature expected, degrees Celsius"},
                        {design, "modules/M/vmp_v", "voltage at maximum power, volts"},
                        {design, "modules/a~1b/pmax_w", "maximum power, watts"},
                        {design, "inverters/I/grounding", "grounding of the array"},
                        {design, "circuits near/run/method", "how it is laid"},
                        {design, "circuits a/b/run/method", "how it is laid"},
                        {design, "output/run/length_m", "length one way, metres"},
                        {design, "string as found/rated_v", "rated voltage of the wire, volts"},
                        {visit, "measured/cell_c", "cell temperature, degrees Celsius"},
                        {design, "fuse/unheard", ""},
                        {design, "unheard", ""},
                        {visit, "fuse/unheard", ""}}) {
    CAPTURE(std::string(row.key));
    CHECK(row.words.of(row.key) == row.meaning);
  }
}

TEST_CASE("words of an amendment behind a question leave it one") {
  Finding f;
  f.message = "Is it so? Amended locally: a.b (1 in place of 2).";
  CHECK(own_words(f) == f.message);
  f.amended = {"a.b"};
  CHECK(own_words(f) == "Is it so?");
}
