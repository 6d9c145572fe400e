// The regions of SARIF hold the bytes of the values that findings are about.
#include "boxproof/rule.hpp"
#include "tests/support/as_planned.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/random_design.hpp"
#include "tests/support/region.hpp"
#include "tests/support/sarif.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::unique_ptr<Judged> judge_texts(std::string design, std::string record) {
  auto out = std::make_unique<Judged>();
  out->document = {"plans/site 1.json", std::move(design)};
  out->design = read_design(out->document);
  out->record_document = {"visits/größe.json", std::move(record)};
  out->record = read_field_record(out->record_document);
  out->edition = load_edition(out->design.design.edition);
  out->judgement = check(out->design, out->edition, &*out->record, {});
  return out;
}

// The document that a location names.
const Document& document_of(const Judged& judged, const Json& physical) {
  const std::string path = path_of(physical["artifactLocation"]);
  CHECK(physical["artifactLocation"]["uriBaseId"] == "%SRCROOT%");
  if (path == judged.record_document.name) return judged.record_document;
  CHECK(path == judged.document.name);
  return judged.document;
}

std::string pointer_of(const Json& result) {
  for (const Json& l : result["locations"][0]["logicalLocations"])
    if (l["kind"] == "value") return l["fullyQualifiedName"];
  return "";
}

struct Looked {
  std::size_t results = 0, related = 0;
};

void check_regions(const Judged& judged, Looked& looked) {
  const Json design = Json::parse(judged.document.text), record = Json::parse(judged.record_document.text);
  const Json results = sarif_results(judged);
  CHECK(results.size() == judged.findings().size());
  for (const Json& r : results) {
    CAPTURE(r.dump());
    ++looked.results;
    const Json& physical = r["locations"][0]["physicalLocation"];
    const Document& document = document_of(judged, physical);
    const Json& whole = &document == &judged.document ? design : record;
    const Json::json_pointer pointer(pointer_of(r));
    REQUIRE(whole.contains(pointer));
    check_region(document.text, region_of(physical["region"]), whole.at(pointer));
    if (!r.contains("relatedLocations")) continue;
    ++looked.related;
    const Json& other = r["relatedLocations"][0]["physicalLocation"];
    const std::string bytes = cut(document_of(judged, other).text, region_of(other["region"]));
    CHECK((Json::accept(bytes) || bytes.front() == '{' || bytes.front() == '['));
  }
}

}  // namespace

TEST_CASE("the region of every result is the value at its pointer, in every layout") {
  Looked looked;
  for (std::uint32_t seed = 200; seed < 202; ++seed) {
    RandomSite site(seed);
    Json design = site.design();
    for (Json& box : design["combiners"]) box["id"] = "Ü𝟙 " + box["id"].get<std::string>();
    const auto plan = judge(design);
    const Json record = site.visit(record_as_planned(*plan, Posted::as_listed));
    const std::vector<std::string> designs = layouts(design), records = layouts(record);
    for (std::size_t i = 0; i < designs.size(); ++i) {
      CAPTURE(seed, i);
      check_regions(*judge_texts(designs[i], records[(i + 3) % records.size()]), looked);
    }
  }
  CHECK(looked.results > 500);
  CHECK(looked.related > 80);
}

TEST_CASE("a field record in CSV: the cell") {
  auto judged = std::make_unique<Judged>();
  judged->document = {"design.json", sound_design().dump(2)};
  judged->design = read_design(judged->document);
  judged->record_document = {"visit.csv",
                             "id,positive,negative,series,fuse_a,posted_id,seen\r\n"
                             "\"A-01\", 8,8 ,\"18;18;17;18;18;18;18;18\",\"30\",\"A, 02\",none\r\n"};
  judged->record = read_field_record(judged->record_document);
  judged->edition = load_edition("2017");
  judged->judgement = check(judged->design, judged->edition, &*judged->record, {});
  const Json results = sarif_results(*judged);
  const auto bytes = [&](std::string_view rule) {
    const std::vector<Json> told = results_of(results, rule);
    REQUIRE(!told.empty());
    const Json place = told.front()["locations"][0]["physicalLocation"];
    CHECK(place["artifactLocation"]["uri"] == "visit.csv");
    return cut(judged->record_document.text, region_of(place["region"]));
  };
  CHECK(bytes("tally/strings") == "8");
  CHECK(bytes("tally/fuse") == "\"30\"");
  CHECK(bytes("fuse/over-module-limit") == "\"30\"");
  CHECK(bytes("tally/label") == "\"A, 02\"");
  CHECK(bytes("tally/series") == "\"18;18;17;18;18;18;18;18\"");
}

TEST_CASE("paths become URIs") {
  struct Row {
    std::string path, uri;
    bool under_root;
  };
  for (const Row& row : std::vector<Row>{{"site.json", "site.json", true},
                                         {"./plans//a/../site 1.json", "plans/site%201.json", true},
                                         {"größe#1?.json", "gr%C3%B6%C3%9Fe%231%3F.json", true},
                                         {"a:b.json", "a%3Ab.json", true},
                                         {"100%.json", "100%25.json", true},
                                         {"back\\slash.json", "back%5Cslash.json", true},
                                         {"bad\xFF.json", "bad%FF.json", true},
                                         {"new\nline.json", "new%0Aline.json", true},
                                         {"../site.json", "../site.json", false},
                                         {"a/../../site.json", "../site.json", false},
                                         {"/srv/plans/site 1.json", "file:///srv/plans/site%201.json", false},
                                         {"<stdin>", "stdin", false},
                                         {"-", "stdin", false}}) {
    CAPTURE(row.path);
    auto judged = std::make_unique<Judged>();
    judged->document = {row.path, with_box({{"fuse", {{"a", 30}}}}).dump(2)};
    judged->design = read_design(judged->document);
    judged->edition = load_edition("2017");
    judged->judgement = check(judged->design, judged->edition, nullptr, {});
    const Json log = sarif_log(*judged);
    for (const Json& location :
         {log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"],
          log["runs"][0]["artifacts"][0]["location"]}) {
      CHECK(location["uri"] == row.uri);
      CHECK(location.contains("uriBaseId") == row.under_root);
      CHECK(location.contains("description") == (row.uri == "stdin"));
    }
  }
}

TEST_CASE("words of a file are neither link nor placeholder, and no bytes that JSON does not take") {
  Json design = with_box({{"fuse", {{"a", 30}}}});
  design["combiners"][0]["id"] = "{0} [x](http://example.invalid) [y](1) \x1b[31m";
  const Json r = result_of(sarif_results(*judge(design)), "fuse/over-module-limit");
  const std::string text = r["message"]["text"];
  CHECK(text.find(R"({{0}} \[x\](http)") != std::string::npos);
  CHECK(text.find(R"(\[y\](1))") != std::string::npos);
  CHECK(text.find('\x1b') == std::string::npos);
  CHECK(r["properties"]["box"] == design["combiners"][0]["id"]);  // for programs as it is

  Json harmless = with_box({{"fuse", {{"a", 30}}}});
  harmless["combiners"][0]["id"] = "A[1]";
  const std::string plain =
      result_of(sarif_results(*judge(harmless)), "fuse/over-module-limit")["message"]["text"];
  CHECK(plain.find("A[1]") != std::string::npos);

  // Where a link of ours follows, nothing may begin it before, and no backslash may set a bracket free.
  Json beside = sound_design();
  beside["combiners"][0]["id"] = R"(A[1\[x](1))";
  const Json box{{"id", R"(A[1\[x](1))"}, {"fuse", {{"a", 10}}}};
  const auto seen = judge(beside, {}, Json{{"format", "boxproof-asbuilt/1"}, {"boxes", Json::array({box})}});
  const std::string linked = result_of(sarif_results(*seen), "tally/fuse")["message"]["text"];
  CHECK(linked.find(R"(A\[1\\\[x\](1))") != std::string::npos);
  CHECK(linked.ends_with(" [What the plan says](1)."));

  SarifRun run;
  run.unread.emplace_back("bad\xFF\xC3.json",
                          InputError({{"bad\xFF\xC3.json", 0, 0, "", "found \xF0\x9F"}}, 1));
  const Json log = Json::parse(run.text());  // throws where it is not UTF-8
  CHECK(log["runs"][0]["invocations"][0]["toolExecutionNotifications"][0]["message"]["text"] ==
        "bad\uFFFD\uFFFD.json was not judged: found \uFFFD\uFFFD");
}
