// draft and schedule on the command line: what is written where, and what is refused.
#include <filesystem>

#include "src/cli/case.hpp"
#include "src/draft/columns.hpp"
#include "tests/support/box_text.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/drafted.hpp"
#include "tests/support/example.hpp"
#include "tests/support/rfc4180.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const std::string shed = BOXPROOF_EXAMPLES "/ferry-shed.json",
                  shed_schedule = BOXPROOF_EXAMPLES "/ferry-shed-schedule.csv",
                  shed_site = BOXPROOF_EXAMPLES "/ferry-shed-site.json";
const std::string two_boxes = "id,inverter,module,series\nA,I,M,18\nB,I,M,17\n";

}  // namespace

TEST_CASE("draft: the example's schedule and site make a design that is judged as the example is") {
  const Folder folder;
  const std::string made = folder.path("shed.json");
  const Called c = call({"draft", shed_schedule, "--site", shed_site, "--output", made});
  CHECK(c.status == 0);
  CHECK(c.out.empty());
  CHECK(c.err.empty());
  const Json design = Json::parse(folder.get("shed.json"));
  CHECK(design["$schema"] == "design.schema.json");
  CHECK(design["format"] == "boxproof-design/1");
  const auto findings = [](const std::string& path) {
    const Called judged = call({"check", path, "--format", "json"});
    REQUIRE(judged.status == 1);
    Json out = Json::parse(judged.out)["findings"];
    for (Json& finding : out)
      for (const char* place : {"file", "line", "column", "end_line", "end_column", "pointer"})
        finding.erase(place);
    return out;
  };
  CHECK(findings(made).size() > 4);
  CHECK(findings(made) == findings(shed));
}

TEST_CASE("schedule: the example's files are what it writes") {
  const Folder folder;
  const Called c = call({"schedule", shed, "--site", folder.path("site.json")});
  CHECK(c.status == 0);
  CHECK(c.out == example_text("ferry-shed-schedule.csv"));
  CHECK(c.err == "boxproof: 5 notes on boxes or box types left out: a schedule has no column for them\n");
  Json site = Json::parse(folder.get("site.json"));
  CHECK(site["code"]["amendments"] != "quay-amendments.json");  // seen from the other folder
  site["code"]["amendments"] = "quay-amendments.json";
  CHECK(site["$schema"] == "site.schema.json");  // beside it, where somebody puts it
  site.erase("$schema");
  CHECK(site == example_json("ferry-shed-site.json"));
}

TEST_CASE("a schedule is what RFC 4180 calls CSV: a row a circuit, the box in its first row") {
  const Called c = call({"schedule", BOXPROOF_EXAMPLES "/saltmarsh.json"});
  CHECK(c.status == 0);
  const std::vector<Cells> rows = read_csv(c.out);
  const Json design = example_json("saltmarsh.json");
  std::size_t circuits = 0;
  for (const Json& box : design["combiners"]) {
    Json whole = box.contains("type") ? design["box_types"][box["type"].get<std::string>()] : Json::object();
    whole.merge_patch(box);
    circuits += whole["circuits"].size();
  }
  CHECK(rows.size() == circuits + 1);
  for (const Cells& row : rows) CHECK(row.size() == rows[0].size());
  const auto column = [&](const std::string& name) {
    const auto found = std::find(rows[0].begin(), rows[0].end(), name);
    REQUIRE(found != rows[0].end());
    return static_cast<std::size_t>(found - rows[0].begin());
  };
  CHECK(rows[1][column("id")] == "A-01");
  CHECK(rows[1][column("circuit_id")] == "near");
  CHECK(rows[1][column("run_length_m")] == "22");
  CHECK(rows[1][column("labels")].starts_with("box-identification; dc-power-source(max_v=970, max_a=232); "));
  CHECK(rows[2][column("id")] == "A-01");
  CHECK(rows[2][column("circuit_id")] == "far");
  CHECK(rows[2][column("inverter")].empty());
  // Only columns that a box says something in.
  for (std::size_t c2 = 0; c2 < rows[0].size(); ++c2)
    CHECK(std::any_of(rows.begin() + 1, rows.end(), [&](const Cells& row) { return !row[c2].empty(); }));
}

TEST_CASE("from standard input, to standard output, and progress of neither") {
  const Called draft =
      call({"draft", "-", "--site", shed_site}, {example_text("ferry-shed-schedule.csv"), false, {}});
  CHECK(draft.status == 0);
  CHECK(draft.out == call({"draft", shed_schedule, "--site", shed_site}).out);
  const Called site =
      call({"draft", shed_schedule, "--site", "-"}, {example_text("ferry-shed-site.json"), false, {}});
  CHECK(site.status == 0);
  const Called schedule = call({"schedule", "-"}, {draft.out, false, {}});
  CHECK(schedule.out == example_text("ferry-shed-schedule.csv"));
  const Called bad =
      call({"draft", "-", "--site", shed_site}, {"id,inverter,module,series\nA,INV-F,M,18\n", false, {}});
  CHECK(bad.status == 3);
  CHECK(
      bad.err ==
      "<stdin>:2:9: /combiners/0/circuits/0/module: found the id \"M\", which is not in /modules in row 2, "
      "column module, expected an id from there\nboxproof: 1 problem with the input; nothing was written\n");
}

TEST_CASE("amendments in a file of their own are found from wherever the design is written") {
  const Folder folder;
  std::filesystem::create_directories(folder.path("in"));
  std::filesystem::create_directories(folder.path("out/deep"));
  Json site = Json::parse(small_site());
  folder.put("in/local.json", R"({"conductor": {"voltage_drop": {"max_pct": 1.5}}})");
  const std::string schedule = folder.put("in/boxes.csv", two_boxes);
  const auto amendments = [&](const std::string& stated, const std::string& output) {
    site["code"]["amendments"] = stated;
    const Called c = call({"draft", schedule, "--site", folder.put("in/site.json", site.dump()), "--output",
                           folder.path(output)});
    REQUIRE(c.status == 0);
    CHECK(call({"check", folder.path(output)}).status < 2);
    return Json::parse(folder.get(output))["code"]["amendments"].get<std::string>();
  };
  CHECK(amendments("local.json", "in/design.json") == "local.json");
  CHECK(amendments("./local.json", "in/design.json") == "./local.json");
  CHECK(amendments("local.json", "design.json") == "in/local.json");
  CHECK(amendments("local.json", "out/deep/design.json") == "../../in/local.json");
  CHECK(amendments("../in/local.json", "out/design.json") == "../in/local.json");
  CHECK(amendments(folder.path("in/local.json"), "out/design.json") == folder.path("in/local.json"));
  // Back again: the site file in a third folder.
  std::filesystem::create_directories(folder.path("third"));
  CHECK(call({"schedule", folder.path("out/deep/design.json"), "--site", folder.path("third/site.json"),
              "--output", folder.path("third/boxes.csv")})
            .status == 0);
  CHECK(Json::parse(folder.get("third/site.json"))["code"]["amendments"] == "../in/local.json");
  // To standard output: as seen from the working folder.
  const auto before = std::filesystem::current_path();
  std::filesystem::current_path(folder.path("out"));
  const Called c = call({"draft", "../in/boxes.csv", "--site", "../in/site.json"});
  CHECK(call({"check", "-"}, {c.out, false, {}}).status < 2);
  std::filesystem::current_path(before);
  // No output takes their place.
  for (const auto& arguments : std::vector<std::vector<std::string>>{
           {"draft", schedule, "--site", folder.path("in/site.json"), "--output",
            folder.path("in/local.json")},
           {"schedule", folder.path("out/deep/design.json"), "--output", folder.path("in/local.json")},
           {"schedule", folder.path("out/deep/design.json"), "--site", folder.path("in/local.json")}}) {
    const Called over = call(arguments);
    CAPTURE(over.err);
    CHECK(over.status == 2);
    CHECK(over.complains("expected another file: they would be lost"));
  }
  CHECK(folder.get("in/local.json").starts_with("{\"conductor\""));
  // An object stays one.
  site["code"]["amendments"] = {{"conductor", {{"voltage_drop", {{"max_pct", 1.5}}}}}};
  const Called object = call({"draft", schedule, "--site", folder.put("in/site.json", site.dump()),
                              "--output", folder.path("d.json")});
  CHECK(Json::parse(folder.get("d.json"))["code"] == site["code"]);
}

TEST_CASE("nothing is written where something is wrong") {
  const Folder folder;
  const std::string site = folder.put("site.json", small_site()), boxes = folder.put("boxes.csv", two_boxes),
                    kept = folder.put("kept.json", "kept"), bad = folder.put("bad.csv", "id,inverter\nA,x\n"),
                    bad_site = folder.put("bad.json", "{}"), nothing = folder.path("none.csv");
  const auto names = folder.names();
  for (const auto& arguments :
       std::vector<std::vector<std::string>>{{"draft", bad, "--site", site},
                                             {"draft", boxes, "--site", bad_site},
                                             {"draft", nothing, "--site", site},
                                             {"draft", boxes, "--site", nothing},
                                             {"schedule", bad_site, "--site", folder.path("new.json")},
                                             {"schedule", nothing}}) {
    CAPTURE(arguments);
    std::vector<std::string> to_file = arguments;
    to_file.insert(to_file.end(), {"--output", kept});
    for (const auto& all : {arguments, to_file}) {
      const Called c = call(all);
      CHECK(c.status == 3);
      CHECK(c.out.empty());
      CHECK(c.err.ends_with("with the input; nothing was written\n"));
    }
    CHECK(folder.get("kept.json") == "kept");
    CHECK(folder.names() == names);
  }
}

TEST_CASE("an output takes the place of no input, and of no other output") {
  const Folder folder;
  const std::string site = folder.put("site.json", small_site()), boxes = folder.put("boxes.csv", two_boxes);
  CHECK(call({"draft", boxes, "--site", site, "--output", boxes}).status == 2);
  CHECK(call({"draft", boxes, "--site", site, "--output", site}).status == 2);
  const std::string design = folder.path("design.json");
  REQUIRE(call({"draft", boxes, "--site", site, "--output", design}).status == 0);
  CHECK(call({"schedule", design, "--output", design}).status == 2);
  const Called over = call({"schedule", design, "--site", design});
  CHECK(over.status == 2);
  CHECK(over.err == "boxproof: found --site " + design + ", which is the input " + design +
                        ", expected another file: it would be lost\n");
  CHECK(call({"schedule", design, "--output", folder.path("x"), "--site", folder.path("x")}).status == 2);
  CHECK(call({"schedule", design, "--output", site, "--site", site}).status == 2);
  CHECK(call({"schedule", design, "--output", folder.path("no/where")}).status == 2);
  CHECK(call({"schedule", design, "--site", folder.path("no/where")}).status == 2);
  CHECK(folder.get("boxes.csv") == two_boxes);
  CHECK(folder.get("site.json") == small_site());
}

TEST_CASE("wrong use of draft and schedule") {
  const auto wrong = [](const std::vector<std::string>& arguments, const std::string& line) {
    CAPTURE(arguments);
    const Called c = call(arguments);
    CHECK(c.status == 2);
    CHECK(c.out.empty());
    CHECK(c.err == "boxproof: " + line + "\n");
  };
  wrong({"draft"},
        "SCHEDULE is required; boxproof draft --blank writes a starter; see boxproof draft --help");
  wrong({"draft", "x.csv"},
        "--site FILE is required: what a schedule has no columns for; see boxproof draft --help");
  wrong({"draft", "-", "--site", "-"},
        "found - for both the schedule and the site file, expected it once: there is one standard input");
  wrong({"draft", "--blank", "x.csv"}, "found --blank with a schedule, expected one of the two");
  wrong({"draft", "--columns", "--site", "x.json"}, "found --columns with --site, expected one of the two");
  wrong({"draft", "--columns", "--blank"}, "found --columns with --blank, expected one of the two");
  wrong({"draft", "x.csv", "--site", "x.json", "--format", "csv"},
        "found --format without --blank, expected both: a schedule and a site make a design");
  wrong({"schedule"}, "DESIGN is required; see boxproof schedule --help");
  CHECK(call({"draft", "--blank", "--format", "text"}).status == 2);
  CHECK(call({"draft", "x.csv", "--stie", "x"}).complains("did you mean \"--site\"?"));
}

TEST_CASE("the starter is a design without a fault, explained, and a schedule with every column") {
  const Folder folder;
  const std::string path = folder.path("starter.json");
  REQUIRE(call({"draft", "--blank", "--output", path}).status == 0);
  CHECK(folder.get("starter.json") == call({"draft", "--blank"}).out);
  const Called judged = call({"check", path, "--fail-on", "advice"});
  CHECK(judged.status == 0);
  CHECK(judged.says("VERDICT  ACCEPT"));
  const Json starter = Json::parse(folder.get("starter.json"));
  CHECK(starter.contains("$schema"));
  for (const char* where :
       {"", "/site", "/code", "/modules", "/inverters", "/conductors", "/box_types", "/combiners/0"})
    CHECK(starter[Json::json_pointer(where)].contains("note"));
  const Called table = call({"draft", "--blank", "--format", "csv"});
  CHECK(table.status == 0);
  CHECK(table.err.empty());
  const std::vector<Cells> rows = read_csv(table.out);
  REQUIRE(rows.size() == 5);
  CHECK(rows[0] == Cells(draft::column_names.begin(), draft::column_names.end()));
  // Both halves of the starter make it again.
  const Halves halves = take_apart_design(folder, folder.get("starter.json"));
  const Document made{"made", drafted(folder, table.out, halves.site)},
      own{"own", folder.get("starter.json")};
  CHECK(box_texts(read_design(made).design) == box_texts(read_design(own).design));
}

TEST_CASE("a text that no cell can hold") {
  const Folder folder;
  Json design = sound_design();
  design["combiners"][0]["location"] = std::string("a\0b", 3);
  design["combiners"][0]["labels"][1]["values"][std::string("k\0", 2)] = 1;
  design["combiners"][0]["circuits"][0]["id"] = "";
  design["modules"][""] = design["modules"]["M"];
  design["combiners"][0]["circuits"][0]["module"] = "";
  const Called c = call({"schedule", folder.put("design.json", design.dump())});
  CHECK(c.status == 3);
  CHECK(c.out.empty());
  const std::string zero =
      ": found a character of value zero, expected text that a cell of a schedule can hold; remove it\n";
  const std::string empty =
      ": found an empty id, expected one that a cell of a schedule can hold; give it a name\n";
  for (const std::string& line :
       {"/combiners/0/circuits/0/id" + empty, "/combiners/0/circuits/0/module" + empty,
        "/combiners/0/labels/1/values/k\\u{0}" + zero, "/combiners/0/location" + zero}) {
    CAPTURE(c.err);
    CHECK(c.complains(line));
  }
  CHECK(c.err.ends_with("boxproof: 4 problems with the input; nothing was written\n"));
}

TEST_CASE("the sample of the README is a schedule of its sample site") {
  const std::string readme = read_file(BOXPROOF_SOURCE "/README.md");
  const auto section = readme.find("### The combiner schedule");
  REQUIRE(section != std::string::npos);
  const auto block = [&](const std::string& kind) {
    const auto start = readme.find("```" + kind + "\n", section);
    REQUIRE(start != std::string::npos);
    const auto text = start + kind.size() + 4;
    return readme.substr(text, readme.find("```", text) - text);
  };
  const Folder folder;
  const Json design = Json::parse(drafted(folder, block("csv"), block("json")));
  CHECK(design["combiners"].size() == 3);
  CHECK(design["box_types"].size() == 1);
  // What it quotes of a wrong cell.
  std::string wrong = block("csv");
  const std::string cell = "30,4X,20,";
  wrong.replace(wrong.find(cell), cell.size(), "30,4X,twenty,");
  const Called c =
      call({"draft", folder.put("boxes.csv", wrong), "--site", folder.put("site.json", block("json"))});
  const std::string told = c.err.substr(folder.path("").size());
  CHECK(readme.find("\n" + told.substr(0, told.find(" a decimal point")) + " …\n") != std::string::npos);
}
