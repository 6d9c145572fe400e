// The page to count on: what the plan says in it is the design's, and no text of a file becomes markup.
#include <fmt/format.h>

#include <map>
#include <set>

#include "src/report/tally.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

struct Page {
  std::string html;
  Json plan;
};

// The page of a design; of its first `boxes` boxes.
Page page_of(const std::string& text, std::size_t boxes = 1000000, const std::string& why = "at random") {
  const Document document{"plan.json", text};
  const DesignFile design = read_design(document);
  const Edition edition = load_edition(design.design.edition);
  report::TallySheet sheet{design, edition, {}, {"How the boxes were chosen."}, {"low_c <b>"}};
  for (const Combiner& box : design.design.combiners)
    if (sheet.boxes.size() < boxes) sheet.boxes.push_back({&box, why});
  Page page;
  report::write_tally_html(sheet, [&](std::string_view piece) { page.html += piece; });
  constexpr std::string_view opening = "<script type=\"application/json\" id=\"plan\">";
  const std::size_t from = page.html.find(opening) + opening.size();
  page.plan = Json::parse(page.html.substr(from, page.html.find("</script>", from) - from));
  return page;
}
Page page_of(const Json& design, std::size_t boxes = 1000000, const std::string& why = "at random") {
  return page_of(design.dump(), boxes, why);
}

// A member of an object; null where it has none.
Json of(const Json& object, const char* key) {
  return object.is_object() && object.contains(key) ? object[key] : Json();
}

std::size_t times(std::string_view text, std::string_view what) {
  std::size_t n = 0;
  for (std::size_t at = text.find(what); at != std::string_view::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

}  // namespace

TEST_CASE("the plan in the tally page has the numbers of the design", "[tally_page]") {
  const Json design = example_json("saltmarsh.json");
  const Json plan = page_of(design).plan;
  CHECK(plan["site"] == design["site"]["name"]);
  REQUIRE(plan["boxes"].size() == design["combiners"].size());
  CHECK(plan["others"].empty());
  for (std::size_t i = 0; i < plan["boxes"].size(); ++i) {
    const Json &drawn = design["combiners"][i], &box = plan["boxes"][i],
               &kind = plan["kinds"][box["kind"].get<std::size_t>()];
    CAPTURE(drawn["id"]);
    CHECK(box["id"] == drawn["id"]);
    CHECK(box["sheet"] == drawn["sheet"]);
    CHECK(box["why"] == "at random");
    CHECK(of(kind, "type") == of(drawn, "type"));
    // A box states only what its type does not.
    Json whole =
        drawn.contains("type") ? design["box_types"][drawn["type"].get<std::string>()] : Json::object();
    whole.merge_patch(drawn);
    unsigned strings = 0, inputs = 0, modules = 0;
    for (const Json& c : whole["circuits"]) {
      const unsigned of_group = c.value("strings", 1U);
      strings += of_group;
      inputs += of_group / c.value("strings_per_fuse", 1U);
      modules += of_group * c["series"].get<unsigned>();
    }
    CHECK(kind["strings"] == strings);
    CHECK(kind["inputs"] == inputs);
    CHECK(kind["modules"] == modules);
    CHECK(kind["posted"]["strings"] == strings);
    CHECK(kind["groups"].size() == whole["circuits"].size());
    CHECK(kind["feeds"] == whole["inverter"]);
    for (const char* key : {"a", "v", "dc", "pv_listed", "poles"})
      CHECK(of(of(kind, "fuse"), key) == of(of(whole, "fuse"), key));
    CHECK(kind["fuses"] == Json::array({inputs * (of(of(whole, "fuse"), "poles") == "both" ? 2U : 1U)}));
    CHECK(of(kind["posted"], "fuse_a") == of(of(whole, "fuse"), "a"));
    CHECK(of(of(kind, "enclosure"), "type") == of(of(whole, "enclosure"), "type"));
    CHECK(kind["disconnect"]["present"] == whole.contains("disconnect"));
    const Json& wire = design["conductors"][whole["output"]["run"]["conductor"].get<std::string>()];
    for (const char* key : {"size", "material", "insulation", "stranding"})
      CHECK(of(of(kind, "output"), key) == of(wire, key));
  }
  // Computed on the README's row of A-01: 968.9 V and 232.0 A, of which a label says 969 and 232.
  const Json& first = plan["kinds"][plan["boxes"][0]["kind"].get<std::size_t>()]["posted"];
  CHECK(fmt::format("{:.1f}", first["max_v"].get<double>()) == "968.9");
  CHECK(first["max_v_label"] == 969);
  CHECK(first["max_a_label"] == 232);
  CHECK(plan["kinds"].size() < plan["boxes"].size());  // like boxes are told once
}

TEST_CASE("how many fuses make the plan true hangs on the poles", "[tally_page]") {
  // The sound design has nine strings on nine inputs.
  const auto fuses = [](const Json& patch) { return page_of(with_box(patch)).plan["kinds"][0]["fuses"]; };
  CHECK(fuses({{"fuse", {{"poles", "one"}}}}) == Json::array({9}));
  CHECK(fuses({{"fuse", {{"poles", "both"}}}}) == Json::array({18}));
  CHECK(fuses({{"fuse", {{"poles", nullptr}}}}) == Json::array({9, 18}));
  CHECK(fuses({{"fuse", nullptr}}) == Json::array());
}

TEST_CASE("what a plan does not state is not in the tally page", "[tally_page]") {
  const Json kind =
      page_of(with_box({{"fuse", {{"a", nullptr}}}, {"disconnect", nullptr}, {"output", nullptr}}))
          .plan["kinds"][0];
  CHECK_FALSE(kind["fuse"].contains("a"));
  CHECK_FALSE(kind["posted"].contains("fuse_a"));
  CHECK(kind["disconnect"] == Json{{"present", false}});
  CHECK_FALSE(kind.contains("output"));
}

TEST_CASE("boxes that a sheet leaves out stand apart", "[tally_page]") {
  const Page some = page_of(example_json("saltmarsh.json"), 3), all = page_of(example_json("saltmarsh.json"));
  CHECK(some.plan["boxes"].size() == 3);
  CHECK(some.plan["others"].size() == 47);
  CHECK(some.plan["others"][0]["id"] == all.plan["boxes"][3]["id"]);
  CHECK(some.plan["stamp"] == all.plan["stamp"]);
  CHECK(some.plan["key"] == all.plan["key"]);
}

TEST_CASE("the stamp changes with the plan, the key with the site", "[tally_page]") {
  const Json before = page_of(sound_design()).plan;
  const Json more = page_of(with_circuit({{"strings", 8}})).plan;
  CHECK(before["key"] == more["key"]);
  CHECK(before["stamp"] != more["stamp"]);
  CHECK(page_of(with({{"site", {{"name", "Another"}}}})).plan["key"] != before["key"]);
  CHECK(page_of(with({{"site", {{"permit", {{"number", "P-2"}}}}}})).plan["key"] != before["key"]);
  CHECK(page_of(with({{"site", {{"name", "Another"}}}})).plan["stamp"] == before["stamp"]);
  CHECK(page_of(sound_design()).html == page_of(sound_design()).html);
}

TEST_CASE("all words of a field record are in the tally page, each once", "[tally_page]") {
  const Json plan = page_of(sound_design()).plan;
  std::multiset<std::string> found;
  for (const Json& group : plan["conditions"])
    for (const Json& word : group["words"]) {
      found.insert(word[0].get<std::string>());
      CHECK(word[1].get<std::string>().size() > 5);
    }
  CHECK(found == std::multiset<std::string>(condition_words.begin(), condition_words.end()));
  CHECK(plan["label_kinds"].size() == label_kinds.size());
  CHECK(plan["sizes"].size() == Size::count);
  CHECK(plan["enclosure_types"].size() == 16);  // NFPA 70-2023, Table 110.28
}

TEST_CASE("no text of a design becomes markup of the tally page", "[tally_page]") {
  const Page plain_page = page_of(sound_design());
  const std::string long_text(10000, 'x');
  for (const std::string& text :
       {std::string("</script><script>alert(1)</script>"), std::string("<!--"), std::string("<!--<script>"),
        std::string("\"'`>&amp;</title></style>"), std::string("\u202E\u2066evil"),
        std::string("a\u0007b\u001Bc\nd"), std::string("\\u003cb\\"), std::string("__proto__"),
        std::string("\U0001F600 é"), long_text}) {
    CAPTURE(text.substr(0, 40));
    Json design = with_box({{"id", text}, {"sheet", text}, {"location", text}});
    design["site"]["name"] = text;
    design["site"]["permit"]["number"] = text;
    const Page page = page_of(design, 1, text);
    CHECK(page.plan["boxes"][0]["id"] == text);  // the record names the box as the plan does
    CHECK(page.plan["site"] == text);
    for (const std::string_view tag :
         {"<script", "</script>", "<!--", "</title>", "</style>", "<b>", "alert(1)</"})
      CHECK(times(page.html, tag) == times(plain_page.html, tag));
    for (const std::string_view hidden : {"\u202E", "\u2066", "\u0007", "\u001B"})
      CHECK(times(page.html, hidden) == 0);
  }
}

TEST_CASE("the tally page calls nobody and runs only its own scripts", "[tally_page]") {
  const Page page = page_of(example_json("saltmarsh.json"));
  for (const std::string_view address :
       {"http:", "https:", "//www", "ws://", "wss:", "src=", "@import", "url(", "fetch(", "XMLHttpRequest",
        "sendBeacon", "innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "onclick=\"",
        "<link", "<img"})
    CHECK(times(page.html, address) == 0);
  CHECK(times(page.html, "<script") ==
        times(page.html, "<script nonce=\"page\">") + times(page.html, "<script type=\"application/json\""));
  CHECK(times(page.html, "</script>") == times(page.html, "<script"));
}

TEST_CASE("the tally page says what its reader must know without a script", "[tally_page]") {
  const std::string html = page_of(example_json("saltmarsh.json")).html;
  CHECK(html.find(caution()) != std::string::npos);
  CHECK(html.find("A box stays energised from the array with its switch open.") < html.find("<main"));
  CHECK(html.find("NEC 2017") < html.find("<main"));
  CHECK(html.find("Changed on the command line: low_c &lt;b&gt;") < html.find("<main"));
  CHECK(html.find("How the boxes were chosen.") != std::string::npos);
  CHECK(html.find("--format text", html.find("<noscript>")) < html.find("</noscript>"));
}
