// Whatever a file says, the page shows it as words: no markup, no script, nothing that turns or hides text.
#include <algorithm>
#include <set>

#include "src/report/html_text.hpp"
#include "src/report/layout.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/web_page.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// Ends an attribute, an element, a comment, a style sheet, a script; turns the direction of writing.
const std::string hostile =
    "\"'><script>alert(1)</script></style>--><!-- &amp; &#60; \u202E\u2066\u200F\u0001\u007F\u0085 } @import url(//x)";
// With a blank and a slash in it too: a part's kind is told by what stands before them.
const std::string harmless = "y z/w";

std::string longer(const std::string& text, std::size_t characters = 10000) {
  return text + std::string(characters, 'x');
}

// Two boxes, one visited, with something found in each; every text that a file can hold is there.
Json full_design() {
  Json design = sound_design();
  design["site"]["permit"] = {{"number", "P-1"}, {"strings", 8}};
  design["box_types"]["T"] = {{"fuse", {{"pv_listed", true}}}};
  Json& box = design["combiners"][0];
  box["type"] = "T";
  box["fuse"]["a"] = 30;
  box["circuits"].push_back(box["circuits"][0]);
  box["circuits"][1]["id"] = "2";
  box["circuits"][1]["series"] = 40;
  box["labels"][0]["values"] = {{"id", "A-01"}};
  Json other = box;
  other["id"] = "B-02";
  design["combiners"].push_back(other);
  return design;
}

Json full_record() {
  return Json::parse(R"({
    "format": "boxproof-asbuilt/1",
    "visit": {"date": "2027-03-18", "by": "two persons", "kind": "first", "weather": "dry"},
    "boxes": [
      {"id": "A-01", "posted": {"id": "A-07", "strings": 4, "series": 17, "max_v": 5, "max_a": 5, "fuse_a": 5},
       "count": {"positive": 18, "negative": 18, "fuses": 17, "series": 19, "modules": 3},
       "fuse": {"a": 25}, "mixed_fuses": [{"position": 3, "a": 10}], "enclosure": {"type": "3R"},
       "output": {"size": "1 AWG", "insulation": "THW"}, "source": {"insulation": "THW"},
       "labels": [{"kind": "max-voltage", "values": {"max_v": 3}}],
       "seen": [{"what": "burned-bus", "where": "top", "photo": "p1", "note": "black"},
                {"what": "debris-inside", "where": "floor", "photo": "p2", "note": "dust"}]},
      {"id": "Z-99", "seen": [{"what": "water-inside", "where": "floor", "note": "deep"}]}
    ]
  })");
}

void each_text(const Json& json, const Json::json_pointer& here, std::vector<Json::json_pointer>& out) {
  if (json.is_string()) out.push_back(here);
  if (json.is_object())
    for (const auto& [key, value] : json.items()) each_text(value, here / key, out);
  if (json.is_array())
    for (std::size_t i = 0; i < json.size(); ++i) each_text(json[i], here / i, out);
}

std::string page_of(const Json& design, const Json& record) {
  return html_report(*judge(design, "", record, {{}, true}), false, {});
}

// A name and all that refers to it.
Json renamed(const Json& json, const std::string& from, const std::string& to) {
  std::string text = json.dump();
  const std::string quoted = Json(from).dump(), fresh = Json(to).dump();
  for (std::size_t at = text.find(quoted); at != std::string::npos; at = text.find(quoted, at + fresh.size()))
    text.replace(at, quoted.size(), fresh);
  return Json::parse(text);
}

// A drawing breaks a long name into lines, so that their number differs.
bool in_drawing(const WebElement& e) {
  return std::find(e.inside.begin(), e.inside.end(), "svg") != e.inside.end();
}
const std::set<std::string> of_drawings{"a", "desc", "g", "path", "text", "title", "tspan"};

std::vector<std::string> names(const WebPage& page) {
  std::vector<std::string> out;
  for (const WebElement& e : page.elements)
    if (!in_drawing(e)) out.push_back(e.name);
  return out;
}

void expect_words(const std::string& page, const std::string& twin) {
  CHECK(page.find("<script>alert") == std::string::npos);
  for (const char* mark : {"\u202E", "\u2066", "\u200F", "\u0085"})
    CHECK(page.find(mark) == std::string::npos);
  CHECK(std::none_of(page.begin(), page.end(), [](char c) {
    return (static_cast<unsigned char>(c) < 0x20 && c != '\n') || c == 0x7F;
  }));
  const WebPage taken = take_apart(page);
  CHECK(taken.problems == std::vector<std::string>());
  const bool same_elements = names(taken) == names(take_apart(twin));  // a list of thousands
  CHECK(same_elements);
  for (const WebElement& e : taken.elements)
    if (in_drawing(e)) CHECK(of_drawings.contains(e.name));
  for (const WebElement* style : taken.all("style")) CHECK(style->text.find("@import") == std::string::npos);
}

}  // namespace

TEST_CASE("each text of a design and of a field record comes out as words") {
  const Json design = full_design(), record = full_record();
  // Puts words in one place after the other, then very long ones in all of them.
  const auto try_out = [&](bool of_record) {
    std::vector<Json::json_pointer> texts;
    each_text(of_record ? record : design, Json::json_pointer(), texts);
    Json all_hostile[] = {design, record}, all_harmless[] = {design, record};
    std::size_t tried = 0;
    for (const auto& at : texts) {
      CAPTURE(at.to_string(), of_record);
      Json bad[] = {design, record}, good[] = {design, record};
      bad[of_record][at] = hostile;
      good[of_record][at] = harmless;
      try {
        expect_words(page_of(bad[0], bad[1]), page_of(good[0], good[1]));
      } catch (const InputError&) {
        continue;  // a word of a list, or a name that something refers to
      }
      all_hostile[of_record][at] = longer(hostile) + std::to_string(tried);  // an id is there once
      all_harmless[of_record][at] = longer(harmless) + std::to_string(tried);
      ++tried;
    }
    expect_words(page_of(all_hostile[0], all_hostile[1]), page_of(all_harmless[0], all_harmless[1]));
    return tried;
  };
  CHECK(try_out(false) >= 10);  // site, sheets, locations, ids of circuits, insulations …
  CHECK(try_out(true) >= 12);   // visit, posted id, insulations, where, photo, note …
}

TEST_CASE("each name of a design comes out as words") {
  constexpr std::size_t characters = 500;  // looking for the nearest id takes its time with long ones
  Json all_hostile[] = {full_design(), full_record()}, all_harmless[] = {full_design(), full_record()};
  for (const std::string name : {"M", "I", "string", "feeder", "T", "A-01", "B-02", "1", "2", "Z-99"}) {
    CAPTURE(name);
    expect_words(page_of(renamed(full_design(), name, hostile), renamed(full_record(), name, hostile)),
                 page_of(renamed(full_design(), name, harmless), renamed(full_record(), name, harmless)));
    for (Json* json : {&all_hostile[0], &all_hostile[1]})
      *json = renamed(*json, name, name + longer(hostile, characters));
    for (Json* json : {&all_harmless[0], &all_harmless[1]})
      *json = renamed(*json, name, name + longer(harmless, characters));
  }
  expect_words(page_of(all_hostile[0], all_hostile[1]), page_of(all_harmless[0], all_harmless[1]));
}

TEST_CASE("the command line's own words too") {
  const auto judged = judge(sound_design());
  expect_words(html_report(*judged, false, {hostile}), html_report(*judged, false, {harmless}));
}

TEST_CASE("text within a style sheet ends neither its string nor the sheet") {
  CHECK(report::css_text("Saltmarsh 2") == "\"Saltmarsh 2\"");
  CHECK(report::css_text("a, b") ==
        "\"a\\2c  b\"");  // the blank that ends the code point, and the text's own
  CHECK(report::css_text("\"") == "\"\\22 \"");
  CHECK(report::css_text("\\") == "\"\\5c \"");
  CHECK(report::css_text("</style>") == "\"\\3c \\2f style\\3e \"");
  CHECK(report::css_text("°C") == "\"°C\"");
  CHECK(report::css_text("a\nb") == report::css_text("a\\u{A}b"));
}
