// Site files: a design without its boxes.
#include "tests/support/catch.hpp"
#include "tests/support/drafted.hpp"
#include "tests/support/judge.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

Lines site_problems(const std::string& text) {
  try {
    const Document document{"site.json", text};
    read_site(document);
  } catch (const InputError& e) {
    Lines out;
    for (const Problem& p : e.problems()) out.push_back(to_text(p));
    return out;
  }
  return {};
}

Lines problems_with(const Json& change) {
  Json site = Json::parse(small_site());
  site.merge_patch(change);
  return site_problems(site.dump());
}

}  // namespace

TEST_CASE("a site file is read as the same part of a design is") {
  const Document site{"site.json", small_site()}, design{"design.json", sound_design().dump()};
  const Design one = read_site(site);
  const DesignFile other = read_design(design);
  CHECK(one.site.name == other.design.site.name);
  CHECK(one.site.low == other.design.site.low);
  CHECK(one.edition == "2017");
  CHECK(one.modules.find("M")->voc == other.design.modules.find("M")->voc);
  CHECK(one.inverters.find("J")->max_dc == Volts(1000));
  CHECK(one.conductors.entries().size() == 2);
  CHECK(one.combiners.empty());
}

TEST_CASE("site files that are none") {
  const std::string known = "known keys are $schema, format, site, code, modules, inverters, conductors";
  CHECK(
      problems_with(Json({{"combiners", {1}}, {"colour", 1}})) ==
      Lines{
          "site.json:1:28: /colour: found the key \"colour\", which is not known here; " + known,
          "site.json:1:51: /combiners: found \"combiners\", expected none in a site file: its boxes come from a "
          "schedule; remove it"});
  const Lines types = problems_with(Json({{"box_types", Json::object()}}));
  REQUIRE(types.size() == 1);
  CHECK(types[0].find("found \"box_types\", expected none in a site file") != std::string::npos);
  const Lines design = problems_with(Json({{"format", "boxproof-design/1"}}));
  REQUIRE(design.size() == 1);
  CHECK(
      design[0].ends_with("/format: found text \"boxproof-design/1\", expected \"boxproof-site/1\"; boxproof "
                          "schedule DESIGN --site FILE writes the site part of a design"));
  const Lines other = problems_with(Json({{"format", "boxproof-asbuilt/1"}}));
  REQUIRE(other.size() == 1);
  CHECK(other[0].ends_with(
      "found text \"boxproof-asbuilt/1\", expected \"boxproof-site/1\"; is this a site file?"));
  CHECK(site_problems("{}").size() == 5);  // format, site, code, modules, inverters
  CHECK(site_problems("{}")[0] ==
        "site.json:1:1: found no \"format\" at the top of the document, expected it; it is required");
  CHECK(problems_with(Json({{"conductors", nullptr}})).empty());  // no conductors
  CHECK(problems_with(Json({{"modules", {{"M", {{"voc_v", 4000}}}}}}))[0].find(
            "/modules/M/voc_v: found 4000") != std::string::npos);
}

TEST_CASE("a site file is no design file") {
  const Folder folder;
  const Called c = call({"check", folder.put("site.json", small_site())});
  CHECK(c.status == 3);
  CHECK(c.complains(
      "/format: found text \"boxproof-site/1\", expected \"boxproof-design/1\"; is this a design file?"));
}
