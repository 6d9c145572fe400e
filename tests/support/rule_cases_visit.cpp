// Cases of the rules on what was counted, measured and seen on site. The plan of the box: nine strings of 18
// modules of 30 V and 9.6 A, a 15 A fuse each.
#include "tests/support/rule_case.hpp"

namespace boxproof::test {
namespace {

// A measurement of the first strings at 1000 W/m² and 25 °C, where a string has 540 V and 9.6 A.
Json measured(std::string_view key, const std::vector<Json>& values) {
  Json strings = Json::array();
  for (const Json& value : values)
    strings.push_back({{"position", strings.size() + 1}, {std::string(key), value}});
  return {{"irradiance_w_m2", 1000}, {"cell_c", 25}, {"strings", strings}};
}

void add_tally(std::vector<RuleCase>& c) {
  c.push_back(visit_case("tally/strings", "strings", {{"count/positive", 10}, {"count/negative", 10}})
                  .with_record({{"count", {{"positive", 9}, {"negative", 9}}}}));
  c.push_back(visit_case("tally/polarity", "polarity", {{"count/negative", 8}})
                  .with_record({{"count", {{"positive", 9}, {"negative", 9}}}}));
  c.push_back(
      visit_case("tally/series", "series", {{"count/series", 17}}).with_record({{"count/series", 18}}));
  c.push_back(visit_case("tally/transposed", "counts", {{"posted", {{"strings", 18}, {"series", 9}}}})
                  .with_record({{"posted", {{"strings", 9}, {"series", 18}}}}));
  c.push_back(visit_case("tally/label", "label strings", {{"posted/strings", 8}})
                  .with_record({{"posted/strings", 9}}));
  c.push_back(visit_case("tally/fuse", "fuse rating", {{"fuse/a", 20}}).with_record({{"fuse/a", 15}}));
  c.push_back(visit_case("tally/mixed-fuses", "mixed fuses", {{"mixed_fuses/0/a", 20}})
                  .with_record({{"mixed_fuses", {{{"position", 7}, {"a", 15}}}}}));
  c.push_back(visit_case("tally/part", "output size", {{"output/size", "3/0 AWG"}})
                  .with_record({{"output/size", "4/0 AWG"}}));
  Json second = sound_design()["combiners"][0];
  second["id"] = "B-02";
  c.push_back(visit_case("tally/not-visited", "visit", {{"/boxes/1", nullptr}})
                  .with_scene({{"/combiners/1", second}})
                  .with_record({{"/boxes/1/id", "B-02"}, {"/boxes/1/enclosure/listed", true}}));
  c.push_back(visit_case("tally/not-on-plan", "id", {{"/boxes/1/id", "A-07"}})
                  .with_scene({{"/combiners/1", second}})
                  .with_record({{"/boxes/1/id", "B-02"}, {"/boxes/1/enclosure/listed", true}}));
}

void add_measured(std::vector<RuleCase>& c) {
  c.push_back(visit_case("measured/series-count", "string 1", {{"measured/strings/0/voc_v", 510}})
                  .with_record({{"measured", measured("voc_v", {540})}}));
  c.push_back(visit_case("measured/spread", "module M", {{"measured/strings/1/voc_v", 500}})
                  .with_record({{"measured", measured("voc_v", {540, 538})}}));
  c.push_back(visit_case("measured/reversed", "string 1", {{"measured/strings/0/reversed", true}})
                  .with_record({{"measured", measured("reversed", {false})}}));
  c.push_back(visit_case("measured/current", "string 2", {{"measured/strings/1/isc_a", 5}})
                  .with_record({{"measured", measured("isc_a", {9.6, 9.5, 9.6})}}));
  c.push_back(visit_case("measured/insulation", "string 1", {{"measured/strings/0/insulation_mohm", 0.2}})
                  .with_record({{"measured", measured("insulation_mohm", {40})}}));
}

}  // namespace

// Without its fault each condition is another one: the next word of the list.
std::vector<RuleCase> cases_of_visits() {
  std::vector<RuleCase> c;
  add_tally(c);
  add_measured(c);
  for (std::size_t i = 0; i < condition_words.size(); ++i) {
    const std::string word(condition_words[i]), other(condition_words[(i + 1) % condition_words.size()]);
    c.push_back(visit_case("condition/" + word, "lug 3", {{"seen/0/what", word}})
                    .with_record({{"seen", {{{"what", other}, {"where", "lug 3"}}}}}));
  }
  return c;
}

}  // namespace boxproof::test
