// The same field record as JSON and as CSV: the same values, the same findings, and places in the CSV.
#include <fmt/format.h>

#include "src/read/source_map.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/csv_input.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

Lines read_as(const std::string& name, const std::string& text) {
  const Document document{name, text};
  return flat_values(read_field_record(document).record);
}

// The first of what is wrong.
std::string told(const std::string& name, const std::string& text) {
  try {
    read_as(name, text);
  } catch (const InputError& e) {
    return e.what();
  }
  return "nothing";
}

const std::string csv =
    "id,positive,negative,fuses,series,fuse_a,fuse_v,fuse_dc,posted_id,posted_strings,posted_series,seen\n"
    "A-01,16,15,16,18,20,1000,true,A-01,16,18,\n"
    "A-02,2,2,2,18;19,22.5,1000,false,,,,water-inside; gasket-damaged\n"
    "A-03,,,,,,,,,,,\n"
    "\"A \"\"4\"\", \\\",0,,,,,,,\"A\n4\",,,\n";
const std::string json = R"({ "format": "boxproof-asbuilt/1", "boxes": [
  { "id": "A-01", "count": { "positive": 16, "negative": 15, "fuses": 16, "series": 18 },
    "fuse": { "a": 20, "v": 1000, "dc": true }, "posted": { "id": "A-01", "strings": 16, "series": 18 } },
  { "id": "A-02", "count": { "positive": 2, "negative": 2, "fuses": 2, "series": [18, 19] },
    "fuse": { "a": 22.5, "v": 1000, "dc": false },
    "seen": [ { "what": "water-inside" }, { "what": "gasket-damaged" } ] },
  { "id": "A-03" },
  { "id": "A \"4\", \\", "count": { "positive": 0 }, "posted": { "id": "A\n4" } } ] })";

// The example visit with nothing but what CSV can hold.
Json flat_visit() {
  Json visit = example_json("saltmarsh-visit.json");
  visit.erase("visit");
  const auto keep = [](Json& box, const char* part, std::vector<std::string> keys) {
    if (!box.contains(part)) return;
    Json kept = Json::object();
    for (const std::string& key : keys)
      if (box[part].contains(key)) kept[key] = box[part][key];
    box[part] = kept;
  };
  for (Json& box : visit["boxes"]) {
    keep(box, "posted", {"id", "strings", "series"});
    keep(box, "count", {"positive", "negative", "fuses", "series"});
    keep(box, "fuse", {"a", "v", "dc"});
    if (box.contains("seen"))
      for (Json& seen : box["seen"]) seen = {{"what", seen["what"]}};
    for (const char* other :
         {"note", "mixed_fuses", "enclosure", "disconnect", "output", "source", "egc", "labels", "measured"})
      box.erase(other);
  }
  return visit;
}

}  // namespace

TEST_CASE("a record in CSV holds what the same record in JSON holds") {
  const Lines expected{
      "A-01 count 16/15/16 series [18] fuse 20/1000/true posted A-01/16/18 seen []",
      "A-02 count 2/2/2 series [18 19] each fuse 22.5/1000/false posted -/-/- seen [water-inside "
      "gasket-damaged]",
      "A-03 count -/-/- series [] fuse -/-/- posted -/-/- seen []",
      "A \"4\", \\ count 0/-/- series [] fuse -/-/- posted A\n4/-/- seen []"};
  CHECK(read_as("visit.csv", csv) == expected);
  CHECK(read_as("visit.json", json) == expected);
}

TEST_CASE("none in the column of what was seen: looked for, and nothing there; an empty cell says nothing") {
  const auto listed = [](const std::string& cell) {
    const Document document{"visit.csv", "id,positive,seen\nA-01,16," + cell + "\n"};
    return read_field_record(document).record.boxes[0].seen_listed;
  };
  CHECK(listed("none"));
  CHECK(listed(" none "));
  CHECK(listed("water-inside"));
  CHECK_FALSE(listed(""));
  CHECK(told("visit.csv", "id,seen\nA-01,none; water-inside\n").find("found text \"none\"") !=
        std::string::npos);
}

TEST_CASE("CSV is told from JSON by what is in it, then by its name, then by its first line") {
  const Lines one{"A-1 count -/-/- series [] fuse -/-/- posted -/-/- seen []"};
  const std::string mark = "\xEF\xBB\xBF";
  const std::string record = R"({ "format": "boxproof-asbuilt/1", "boxes": [ { "id": "A-1" } ] })";
  for (const char* name : {"visit.csv", "VISIT.CSV", "visit.json", "visit", "<stdin>", "x", ""})
    for (const std::string& text :
         {std::string("id\nA-1\n"), std::string("id\r\nA-1"), mark + "id\nA-1\n", mark + "\r\nid\nA-1\n",
          std::string("fuses,\"id\"\n,A-1"), "\n " + record, mark + record}) {
      CAPTURE(name, text);
      CHECK(read_as(name, text) == one);
    }
  // Neither: it is told as JSON that is none, except under a name that says CSV.
  CHECK(told("visit", "box,fuses\n").find("expected one complete JSON document") != std::string::npos);
  CHECK(told("visit.csv", "box,fuses\n").find("known columns are id") != std::string::npos);
}

TEST_CASE("as a spreadsheet writes it") {
  const Lines expected{"A-1 count 4/-/- series [18 18] each fuse 20/-/true posted -/-/- seen [burned-bus]"};
  for (const char* text : {
           "id,positive,series,fuse_a,fuse_dc,seen\nA-1,4,18;18,20,true,burned-bus\n",
           "seen,fuse_dc,fuse_a,series,positive,id\nburned-bus,true,20,18;18,4,A-1\n",  // any order
           "id,positive,series,fuse_a,fuse_dc,seen\r\nA-1, 4 , 18 ; 18 , 20.0 ,TRUE, burned-bus ;\r\n",
           "\"id\",\"positive\",\"series\",\"fuse_a\",\"fuse_dc\",\"seen\"\n"
           "\"A-1\",\" 4\",\"18;18\",\"020\",\"True\",\"burned-bus\"\n",
           "id,positive,series,fuse_a,fuse_dc,seen,,\nA-1,4,18;18,2e1,true,burned-bus,,\n,,,,,,,\n\n",
       }) {
    CAPTURE(text);
    CHECK(read_as("visit.csv", text) == expected);
  }
  CHECK(read_as("visit.csv", "id,fuses\n").empty());  // nothing visited
}

TEST_CASE("a pointer leads to its cell") {
  const Document document{"visit.csv", csv};
  const RecordFile file = read_field_record(document);
  const std::vector<std::pair<std::string_view, std::string_view>> table{
      {"/boxes/0", "/boxes/0 2:1"},
      {"/boxes/0/id", "/boxes/0/id 2:1"},
      {"/boxes/0/count", "/boxes/0/count 2:6"},
      {"/boxes/0/count/positive", "/boxes/0/count/positive 2:6"},
      {"/boxes/0/count/negative", "/boxes/0/count/negative 2:9"},
      {"/boxes/0/count/fuses", "/boxes/0/count/fuses 2:12"},
      {"/boxes/0/count/series", "/boxes/0/count/series 2:15"},
      {"/boxes/0/fuse", "/boxes/0/fuse 2:18"},
      {"/boxes/0/fuse/a", "/boxes/0/fuse/a 2:18"},
      {"/boxes/0/fuse/v", "/boxes/0/fuse/v 2:21"},
      {"/boxes/0/fuse/dc", "/boxes/0/fuse/dc 2:26"},
      {"/boxes/0/posted/id", "/boxes/0/posted/id 2:31"},
      {"/boxes/0/posted/strings", "/boxes/0/posted/strings 2:36"},
      {"/boxes/0/posted/series", "/boxes/0/posted/series 2:39"},
      {"/boxes/0/posted/max_v", "/boxes/0/posted 2:31"},  // not there: the nearest around it
      {"/boxes/0/enclosure", "/boxes/0 2:1"},
      {"/boxes/1/count/series", "/boxes/1/count/series 3:12"},
      {"/boxes/1/count/series/1", "/boxes/1/count/series/1 3:15"},
      {"/boxes/1/seen/1/what", "/boxes/1/seen/1/what 3:51"},
      {"/boxes/2/fuse/a", "/boxes/2 4:1"},
      {"/boxes/3/posted/id", "/boxes/3/posted/id 5:22"},
      {"/boxes/4", " 1:1"},
      {"/boxes", "/boxes 1:1"},
      {"/visit/date", " 1:1"},
  };
  for (const auto& [pointer, expected] : table) {
    CAPTURE(std::string(pointer));
    const auto found = file.places->find(pointer);
    CHECK(fmt::format("{} {}:{}", found.pointer, found.at.line, found.at.column) == expected);
  }
}

TEST_CASE("the example visit in CSV gives the findings of the same values in JSON, placed in the CSV") {
  const auto judged = judge_example("saltmarsh.json", "saltmarsh-visit.csv");
  const Document flat{"flat.json", flat_visit().dump()};
  const RecordFile record = read_field_record(flat);
  CHECK(flat_values(judged->record->record) == flat_values(record.record));
  const Judgement same = check(judged->design, judged->edition, &record, {});
  REQUIRE(judged->findings().size() == same.findings.size());
  for (std::size_t i = 0; i < same.findings.size(); ++i) {
    const Finding &csv_one = judged->findings()[i], &json_one = same.findings[i];
    CAPTURE(csv_one.message);
    CHECK(csv_one.rule == json_one.rule);
    CHECK(csv_one.message == json_one.message);
    CHECK(csv_one.place.pointer == json_one.place.pointer);
    CHECK(csv_one.place.file ==
          (csv_one.in_record ? "examples/saltmarsh-visit.csv" : "examples/saltmarsh.json"));
  }
}

TEST_CASE("what the example visit in CSV shows, and in which cell") {
  const auto judged = judge_example("saltmarsh.json", "saltmarsh-visit.csv");
  const auto place = [&](std::string_view box, std::string_view rule) -> std::string {
    for (const Finding& f : judged->findings())
      if (f.box_id == box && f.rule->id == rule && f.in_record)
        return fmt::format("{}:{}", f.place.line, f.place.column);
    return "not found";
  };
  CHECK(place("A-04", "tally/series") == "5:15");  // 19
  CHECK(place("A-04", "voltage/site-limit") == "5:15");
  CHECK(place("A-08", "tally/polarity") == "9:9");      // 15 negatives
  CHECK(place("A-14", "tally/strings") == "14:6");      // 16 positives
  CHECK(place("A-21", "tally/fuse") == "21:18");        // 15 A
  CHECK(place("B-16", "tally/transposed") == "44:36");  // 18, which stands before 12
  CHECK(place("B-1O", "tally/not-on-plan") == "38:1");
}

TEST_CASE("the command line takes CSV from a file and from standard input") {
  const std::string design = BOXPROOF_EXAMPLES "/saltmarsh.json",
                    record = BOXPROOF_EXAMPLES "/saltmarsh-visit.csv";
  const Called from_file = call({"check", design, "--asbuilt", record});
  CHECK(from_file.status == 1);
  CHECK(from_file.says("saltmarsh-visit.csv:9:9"));
  const Called from_input =
      call({"check", design, "--asbuilt", "-"}, {example_text("saltmarsh-visit.csv"), false, {}});
  CHECK(from_input.status == 1);
  CHECK(from_input.says("<stdin>:9:9"));
  CHECK(call({"box", design, "A-04", "--asbuilt", record}).says("As built"));
  CHECK(call({"check", "--help"}).says("JSON or CSV"));
}

TEST_CASE("the sample of the README is a field record, the same as its sample in JSON but for the visit") {
  const std::string readme = read_file(BOXPROOF_SOURCE "/README.md");
  const auto section = readme.find("### The field record");
  REQUIRE(section != std::string::npos);
  const auto block = [&](const std::string& kind) {
    const auto start = readme.find("```" + kind + "\n", section);
    REQUIRE(start != std::string::npos);
    const auto text = start + kind.size() + 4;
    return readme.substr(text, readme.find("```", text) - text);
  };
  const Lines values = read_as("<stdin>", block("csv"));
  CHECK(values.size() == 2);
  CHECK(values.front() == read_as("<stdin>", block("json")).front());
}
