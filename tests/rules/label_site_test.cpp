// Labels that go once on the site: the ground-fault warning at the inverter (up to 2014), the rapid-shutdown
// label at the service (from 2014, on buildings), the highest voltage at one of three places (from 2020).
#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::string_view missing = "label/missing";
using Words = std::vector<std::string>;

Json two_boxes(const Json& labels, const Json& second) {
  return with_second_box(with_labels(sound_design(), labels), {{"labels", second}});
}

Words told_on_site(const Json& design, std::string_view edition) {
  Words out;
  const auto judged = judge(design, edition);
  for (const Finding& f : judged->findings())
    if (f.rule->id == missing && !f.box)
      out.push_back(std::string(severity_names[static_cast<std::size_t>(f.severity)]) + " " + f.part);
  return out;
}

Words asked(std::string_view edition, bool building) {
  Words out;
  if (edition >= "2020") out.push_back("query label max-voltage");
  if (edition <= "2014") out.push_back("query label ground-fault");
  if (edition >= "2014" && building) out.push_back("query label rapid-shutdown");
  return out;
}

}  // namespace

TEST_CASE("one query on the site, however many boxes") {
  for (const std::string_view edition : edition_names)
    for (const char* use : {"dwelling", "building", "ground"}) {
      CAPTURE(edition, use);
      const bool building = std::string(use) != "ground";
      const Json none = put(two_boxes(Json::array(), Json::array()), "/site/use", use);
      CHECK(told_on_site(none, edition) == asked(edition, building));
      CHECK(told_on_site(put(two_boxes(Json::array(), nullptr), "/site/use", use), edition) ==
            asked(edition, building));
    }
}

TEST_CASE("any one box that calls for it is enough") {
  const Json full = all_labels();
  for (const std::string_view edition : edition_names) {
    CAPTURE(edition);
    CHECK(told_on_site(two_boxes(full, Json::array()), edition).empty());
    CHECK(told_on_site(two_boxes(Json::array(), full), edition).empty());
  }
  // Either label with the highest voltage on it.
  for (const char* kind : {"max-voltage", "dc-power-source"}) {
    const Json one = found_labels({kind, "rapid-shutdown"});
    CHECK(told_on_site(two_boxes(one, Json::array()), "2023").empty());
  }
}

TEST_CASE("what the query says") {
  const auto judged = judge(with_labels(sound_design(), labels_without(all_labels(), {"rapid-shutdown"})));
  const Finding* f = judged->find(missing);
  check_words(f, "no box calls for it", "rapid-shutdown", "690.56(C)");
  CHECK(f->severity == Severity::query);
  CHECK_FALSE(f->box);
  CHECK(f->place.pointer == "/combiners");
  CHECK(f->message ==
        "No box of the plan calls for a rapid-shutdown label, needed once at the service equipment; is it on "
        "another sheet?");
  const auto system = judge(
      with_labels(sound_design(), labels_without(all_labels(), {"max-voltage", "dc-power-source"})), "2023");
  REQUIRE(system->find(missing) != nullptr);
  CHECK(says(*system->find(missing), "needed once for each PV system"));
  const auto old = judge(with_labels(sound_design(), labels_without(all_labels(), {"ground-fault"})), "2014");
  REQUIRE(old->find(missing) != nullptr);
  CHECK(old->find(missing)->section == "690.5(C)");
  CHECK(says(*old->find(missing), "needed at each inverter"));
}

TEST_CASE("the ground-fault warning is needed where one array is solidly grounded") {
  Json design = two_boxes(Json::array(), Json::array());
  design["inverters"]["J"] = design["inverters"]["I"];
  design["combiners"][1]["inverter"] = "J";
  const auto grounded = [&](const Json& first, const Json& second) {
    return told_on_site(put(put(design, "/inverters/I/grounding", first), "/inverters/J/grounding", second),
                        "2011");
  };
  const Words needed{"query label ground-fault"};
  CHECK(grounded("solid", "ungrounded") == needed);
  CHECK(grounded("ungrounded", "solid") == needed);
  CHECK(grounded("ungrounded", "ungrounded").empty());
  // One that is solidly grounded decides, whatever the other is.
  CHECK(told_on_site(without(design, "/inverters/I/grounding"), "2011") == needed);
  CHECK(told_on_site(without(design, "/inverters/J/grounding"), "2011") == needed);
}

TEST_CASE("a visit asks nothing more of the site, and a selection of boxes nothing at all") {
  const Json design = two_boxes(Json::array(), Json::array());
  const auto built = judge(design, "2023", visit_with({{"labels", Json::array()}}));
  Words site;
  for (const Finding& f : built->findings())
    if (f.rule->id == missing && !f.box) site.push_back(f.part);
  CHECK(site == Words{"label max-voltage", "label rapid-shutdown"});
  CheckOptions options;
  options.boxes = {"A-01"};
  const auto selected = judge(design, "2023", nullptr, options);
  for (const Finding& f : selected->findings()) CHECK(f.box.has_value());
}
