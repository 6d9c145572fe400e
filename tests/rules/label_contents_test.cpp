// A label that is called for without what the edition wants on it: a query. 2008 and 2011 want operating
// point, highest voltage and short-circuit current, 2014 the highest current in its place, 2017 the two
// maxima; from 2020 on nothing at the box. (2008: a label engraver's page; the others from memory.)
#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view values = "label/values";
using Words = std::vector<std::string>;

const Json full = {{"imp_a", 81}, {"vmp_v", 450}, {"max_v", 597}, {"max_a", 108}, {"isc_a", 86.4}};

// The sound design with these labels in place of its two with values.
Json design_with(const Json& labels) {
  Json all = labels_without(sound_design()["combiners"][0]["labels"], {"max-voltage", "dc-power-source"});
  for (const Json& label : labels) all.push_back(label);
  return with_labels(sound_design(), all);
}

Json label(const char* kind, const Json& stated) {
  return {{"kind", kind}, {"values", stated}};
}

// What is said to be absent; "" where nothing is said.
std::string absent(const Json& labels, std::string_view edition) {
  const auto judged = judge(design_with(labels), edition);
  const Finding* f = judged->find(values);
  if (f == nullptr) return "";
  CHECK(f->severity == Severity::query);
  CHECK(f->part.ends_with(" contents"));
  return std::get<std::string>(f->required);
}

}  // namespace

TEST_CASE("a source label without values, by edition") {
  const Json bare = found_labels({"dc-power-source"});
  CHECK(absent(bare, "2008") == "imp_a, vmp_v, max_v, isc_a");
  CHECK(absent(bare, "2011") == "imp_a, vmp_v, max_v, isc_a");
  CHECK(absent(bare, "2014") == "imp_a, vmp_v, max_v, max_a");
  CHECK(absent(bare, "2017") == "max_v, max_a");
  CHECK(absent(bare, "2020").empty());
  CHECK(absent(bare, "2023").empty());
  for (const std::string_view edition : edition_names)
    CHECK(absent(Json::array({label("dc-power-source", full)}), edition).empty());
}

TEST_CASE("one value less than the edition wants") {
  for (const std::string_view edition : edition_names)
    for (const char* key : {"imp_a", "vmp_v", "max_v", "max_a", "isc_a"}) {
      CAPTURE(edition, key);
      Json stated = full;
      stated.erase(key);
      const std::string name = key;
      const bool maxima = name == "max_v" || name == "max_a";
      const bool wanted = edition == "2017"   ? maxima
                          : edition == "2014" ? name != "isc_a"
                                              : edition < "2014" && name != "max_a";
      CHECK(absent(Json::array({label("dc-power-source", stated)}), edition) == (wanted ? name : ""));
    }
}

TEST_CASE("a text in place of a number is asked about by itself, and not as absent besides") {
  const Json text = label("max-voltage", {{"max_v", "597 V"}, {"max_a", 108}});
  CHECK(told_by(*judge(design_with(Json::array({text}))), values) == Words{"query label max-voltage max_v"});
}

TEST_CASE("of several labels that would do the fullest counts") {
  const Json bare = {{"kind", "max-voltage"}};
  const Json half = label("dc-power-source", {{"max_v", 597}});
  CHECK(absent(Json::array({bare, label("dc-power-source", full)}), "2017").empty());
  CHECK(absent(Json::array({label("dc-power-source", full), bare}), "2017").empty());
  CHECK(absent(Json::array({bare, half}), "2017") == "max_a");
  // The voltage label does not do in 2014, however full.
  CHECK(absent(Json::array({label("max-voltage", full), half}), "2014") == "imp_a, vmp_v, max_a");
}

TEST_CASE("what the query says, and where") {
  const auto judged = judge(design_with(Json::array({label("max-voltage", {{"max_v", 597}})})));
  const Finding* f = judged->find(values);
  check_words(f, "no max_a", "max_a", "690.53");
  CHECK(f->part == "label max-voltage contents");
  CHECK(f->place.pointer == "/combiners/0/labels/6");
  CHECK(f->message == "The max-voltage label of A-01 is called for without its max_a; what will it state?");
}

TEST_CASE("nothing is asked of a label that is not needed, or not there") {
  Json design = design_with(found_labels({"max-voltage"}));
  CHECK(severity_of(design, values) == "query");
  design["combiners"][0].erase("disconnect");
  CHECK(severity_of(design, values) == "none");
  const auto judged = judge(design_with(Json::array()));  // label/missing speaks
  CHECK(told_by(*judged, values).empty());
  CHECK(told_by(*judged, "label/missing") == Words{"correction label max-voltage"});
}
