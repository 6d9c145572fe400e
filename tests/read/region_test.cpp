// Every value of a design and of a field record is found with its own bytes, however the file is laid out.
#include "tests/support/region.hpp"
#include "src/read/source_map.hpp"
#include "tests/support/as_planned.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

Region region_of(const read::SourceMap::Found& found) {
  return {found.at.line, found.at.column, found.end.line, found.end.column};
}

// Every value of the text; returns how many.
std::size_t check_all(read::SourceMap& places, const std::string& text) {
  const auto values = all_values(Json::parse(text));
  for (const auto& [pointer, value] : values) {
    const auto found = places.find(pointer);
    if (found.pointer != pointer || !found.stated) FAIL("found " << found.pointer << " for " << pointer);
    check_region(text, region_of(found), value);
  }
  return values.size();
}

// The site with names that take more than a byte a letter, and quotes and strokes.
Json renamed(Json design) {
  for (Json& box : design["combiners"]) box["id"] = "Größe 𝟙 \"" + box["id"].get<std::string>() + "\" \\ é";
  design["site"]["name"] = "½ °C {\"a\": [1, 2}]\\";
  return design;
}

}  // namespace

TEST_CASE("each value of a design has its own bytes in every layout") {
  std::size_t looked_at = 0;
  for (const std::uint32_t seed : {1U, 2U}) {
    RandomSite site(seed);
    const Json design = renamed(site.design());
    std::vector<std::string> texts = layouts(design);
    texts.push_back(site.any_order(design));
    for (const std::string& text : texts) {
      const Document document{"design.json", text};
      const DesignFile file = read_design(document);
      looked_at += check_all(*file.places, text);
    }
  }
  CHECK(looked_at > 5'000);
}

TEST_CASE("each value of a field record has its own bytes in every layout") {
  std::size_t looked_at = 0;
  for (const std::uint32_t seed : {11U, 12U, 13U}) {
    RandomSite site(seed);
    const auto judged = judge(renamed(site.design()));
    const Json record = site.visit(record_as_planned(*judged, Posted::as_listed));
    for (const std::string& text : layouts(record)) {
      const Document document{"record.json", text};
      const RecordFile file = read_field_record(document);
      looked_at += check_all(*file.places, text);
    }
  }
  CHECK(looked_at > 2'000);
}

TEST_CASE("what a file does not state is not taken for what it does") {
  const std::string text = sound_design().dump(2);
  const Document document{"design.json", text};
  const DesignFile file = read_design(document);
  for (const char* pointer : {"/combiners/0/fuse/nothing", "/combiners/9", "/nothing", "",
                              "/site/permit/dc_kw", "/combiners/0/circuits/4/series"}) {
    const auto found = file.places->find(pointer);
    CAPTURE(pointer, found.pointer);
    CHECK_FALSE(found.stated);
    check_region(
        text, region_of(found),
        found.pointer.empty() ? Json::parse(text) : Json::parse(text)[Json::json_pointer(found.pointer)]);
  }
}

TEST_CASE("what a box has of its type is stated, at the type") {
  Json design = sound_design();
  Json type = design["combiners"][0];
  design["combiners"][0] = {{"id", "A-01"}, {"type", "T"}};
  for (const char* key : {"id", "sheet", "location"}) type.erase(key);
  design["box_types"]["T"] = type;
  for (const std::string& text : layouts(design)) {
    const Document document{"design.json", text};
    const DesignFile file = read_design(document);
    const auto found = file.places->find("/combiners/0/fuse/a");
    CHECK(found.stated);
    CHECK(found.pointer == "/box_types/T/fuse/a");
    CHECK(cut(text, region_of(found)) == "15");
  }
}

TEST_CASE("a document that begins late is found where it begins") {
  const std::string text = "\xEF\xBB\xBF\n\n  " + sound_design().dump();
  const Document document{"design.json", text};
  const auto found = read_design(document).places->find("/nothing");
  CHECK(found.at.line == 3);
  CHECK(found.at.column == 3);
  check_region(text, region_of(found), sound_design());
}
