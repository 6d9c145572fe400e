// What gets onto a terminal, a page, a letter or into a spreadsheet: every text of the files that are read
// has something in it that does harm where it is shown as it is, and no report shows it so.
#include <algorithm>

#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/hostile.hpp"
#include "tests/support/page.hpp"
#include "tests/support/rfc4180.hpp"
#include "tests/support/xml.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Strings = std::vector<std::string>;

enum class Form { page_of_80, text, html, xml, json, csv };

// A command on the files: D stands for the design, D2 for a copy of it, R for the record, E for the
// exceptions, B for a box, P for a report on the three, K for a baseline of the design with one more fault, F
// for the folder of all, S and T for the schedule and the site file of the design.
struct Shown {
  Form form;
  Strings arguments;
};
const std::vector<Shown> commands{
    {Form::page_of_80, {"check", "D"}},
    {Form::page_of_80, {"check", "D", "--asbuilt", "R", "--show-work"}},
    {Form::page_of_80, {"check", "D", "--exceptions", "E", "--on", "2027-03-18"}},
    {Form::page_of_80, {"check", "D", "--baseline", "K"}},
    {Form::page_of_80, {"check", "F"}},
    {Form::page_of_80, {"check", "F", "--show-work", "--exceptions", "E", "--on", "2027-03-18"}},
    {Form::text, {"check", "F", "--format", "markdown"}},
    {Form::page_of_80, {"box", "D", "B"}},
    {Form::page_of_80, {"box", "D", "B", "--asbuilt", "R", "--exceptions", "E", "--on", "2027-03-18"}},
    {Form::page_of_80, {"labels", "D"}},
    {Form::page_of_80, {"labels", "D", "--asbuilt", "R", "--edition", "2011"}},
    {Form::page_of_80, {"tally", "D"}},
    {Form::page_of_80, {"tally", "D", "--sample", "1"}},
    {Form::page_of_80, {"compare", "P", "P"}},
    {Form::text, {"compare", "P", "P", "--format", "markdown"}},
    {Form::json, {"compare", "P", "P", "--format", "json"}},
    {Form::text, {"check", "D", "--format", "markdown", "--show-work"}},
    {Form::text,
     {"check", "D", "--asbuilt", "R", "--exceptions", "E", "--on", "2027-03-18", "--format", "markdown"}},
    {Form::html, {"check", "D", "--format", "html", "--show-work"}},
    {Form::html,
     {"check", "D", "--asbuilt", "R", "--exceptions", "E", "--on", "2027-03-18", "--format", "html"}},
    {Form::text, {"check", "D", "--baseline", "K", "--format", "markdown"}},
    {Form::html, {"check", "D", "--baseline", "K", "--format", "html"}},
    {Form::json, {"check", "D", "--baseline", "K", "--format", "json"}},
    {Form::json, {"baseline", "D", "--reason", "known", "--on", "2027-03-18"}},
    {Form::html, {"tally", "D", "--format", "html"}},
    {Form::json,
     {"check", "D", "--asbuilt", "R", "--exceptions", "E", "--on", "2027-03-18", "--show-work", "--format",
      "json"}},
    {Form::json,
     {"check", "D", "--asbuilt", "R", "--exceptions", "E", "--on", "2027-03-18", "--show-work", "--format",
      "sarif"}},
    {Form::json, {"check", "D", "D2", "--format", "json"}},
    {Form::xml,
     {"check", "D", "--asbuilt", "R", "--exceptions", "E", "--on", "2027-03-18", "--format", "junit"}},
    {Form::text, {"check", "D", "--asbuilt", "R", "--format", "annotations"}},
    {Form::json, {"labels", "D", "--format", "json"}},
    {Form::csv, {"labels", "D", "--format", "csv"}},
    {Form::csv, {"tally", "D", "--format", "csv"}},
    {Form::csv, {"schedule", "D"}},
    {Form::json, {"draft", "S", "--site", "T"}},
};

struct Files {
  Json design, record, exceptions;
};

// The faulty plan with the visit of the clean one; one finding is amended.
Files of_examples() {
  Files f{example_json("saltmarsh-faults.json"), example_json("saltmarsh-visit.json"),
          example_json("saltmarsh-exceptions.json")};
  f.design["code"]["amendments"] = {{"rules", {{"voltage/site-limit", {{"section", "ordinance"}}}}}};
  return f;
}

// One small box with faults, for texts so long that a whole site of them would take minutes.
Files small() {
  Files f{with_box({{"fuse", {{"a", 30}, {"dc", false}}}, {"disconnect", nullptr}}), nullptr, nullptr};
  f.design["combiners"][0]["labels"][1]["values"] = {{"max_v", 500}, {"id", "A-02"}, {"colour", "red"}};
  f.design["site"].erase("low_c");
  f.record =
      Json::parse(R"({"format": "boxproof-asbuilt/1", "visit": {"by": "two", "weather": "dry"}, "boxes": [
    {"id": "A-01", "posted": {"id": "A-02"}, "count": {"positive": 9, "negative": 8, "series": 19},
     "source": {"insulation": "THHN"}, "labels": [{"kind": "max-voltage", "values": {"max_v": "high"}}],
     "seen": [{"what": "burned-bus", "where": "left", "photo": "p-1", "note": "black"}]},
    {"id": "A-03", "seen": [{"what": "arc-marks", "where": "lid"}]}]})");
  f.exceptions = Json::parse(R"({"format": "boxproof-exceptions/1", "exceptions": [
    {"rule": "disconnect/missing", "boxes": ["A-01", "A-0?"], "reason": "in sight", "agreed_by": "office",
     "date": "2020-01-01"}]})");
  return f;
}

// A baseline of the design with one more fault, so that an entry of it occurs no more.
std::string put_baseline(const Folder& folder, Json design, const std::string& text) {
  design["combiners"][0]["fuse"]["pv_listed"] = false;
  const std::string path = folder.path("baseline.json");
  REQUIRE(call({"baseline", folder.put("design.json", design.dump()), "--reason", text + "kept", "--on",
                "2027-03-18", "--output", path})
              .status == 0);
  return path;
}

Called shown(const Folder& folder, const Files& files, Strings arguments, const std::string& text) {
  const Json design = hostile_design(files.design, text);
  const bool with_baseline = std::find(arguments.begin(), arguments.end(), "K") != arguments.end();
  const std::string baseline_path = with_baseline ? put_baseline(folder, design, text) : "";
  const std::string design_path = folder.put("design.json", design.dump());
  const std::string record_path = folder.put("record.json", hostile_record(files.record, text).dump());
  const std::string agreed_path =
      folder.put("exceptions.json", hostile_exceptions(files.exceptions, text).dump());
  const std::string report_path = folder.path("report.json");
  const std::string schedule_path = folder.path("boxes.csv"), site_path = folder.path("site.json");
  if (arguments.front() == "draft")
    REQUIRE(call({"schedule", design_path, "--site", site_path, "--output", schedule_path}).status == 0);
  if (std::find(arguments.begin(), arguments.end(), "P") != arguments.end())
    REQUIRE(
        call({"check", design_path, "--asbuilt", record_path, "--format", "json", "--output", report_path})
            .status < 2);
  for (std::string& a : arguments) {
    if (a == "D") a = design_path;
    if (a == "D2") a = folder.put("design-2.json", design.dump());
    if (a == "R") a = record_path;
    if (a == "E") a = agreed_path;
    if (a == "F") a = folder.root();
    if (a == "P") a = report_path;
    if (a == "K") a = baseline_path;
    if (a == "S") a = schedule_path;
    if (a == "T") a = site_path;
    if (a == "B") a = design["combiners"][0]["id"];
  }
  return call(arguments, {"", false, {}});
}

// A text within the quotes of a cell.
std::string doubled(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out;
}

// A cell that no program for spreadsheets takes for a formula.
void check_cells(const std::string& csv) {
  for (const Cells& row : read_csv(csv))
    for (const std::string& cell : row) {
      CAPTURE(cell.substr(0, 100));
      CHECK((cell.empty() || std::string_view("=+-@\t\r").find(cell.front()) == std::string_view::npos));
    }
}

void check_shown(Form form, const std::string& page) {
  if (form == Form::csv) return check_cells(page);
  CHECK(harm_in(page) == "");
  CHECK(page.find("\nboxproof: accept") == std::string::npos);  // a line of ours that a file wrote
  if (form == Form::json) CHECK(Json::accept(page));
  if (form == Form::xml) CHECK(read_xml(page).name == "testsuites");
  if (form == Form::page_of_80) CHECK(too_wide(page) == Strings{});
  if (form == Form::html) {
    CHECK(page.find("<script>hostile") == std::string::npos);
    CHECK(page.find("<img src=x") == std::string::npos);
  }
}

void check_all(const Files& files, const Hostile& hostile) {
  const Folder folder;
  for (const Shown& command : commands) {
    CAPTURE(std::string(hostile.what), command.arguments);
    const Called c = shown(folder, files, command.arguments, hostile.text);
    INFO(c.err.substr(0, 2000));
    CHECK(harm_in(c.err) == "");
    CHECK(c.status < 2);
    check_shown(command.form, c.out);
  }
}

}  // namespace

TEST_CASE("no text of a file does harm on a terminal, a page, in a letter or in a spreadsheet") {
  for (const Hostile& hostile : hostile_texts()) check_all(small(), hostile);
}

TEST_CASE("nor does any on a whole site") {
  std::string all;
  for (const Hostile& hostile : hostile_texts())
    if (hostile.text.size() < 1000) all += hostile.text;
  check_all(of_examples(), {"all at once", all});
}

// The walk over the files reaches what reports show: a text that does no harm comes out of each command.
TEST_CASE("the texts stand where reports show them") {
  const Folder folder;
  for (const Shown& command : commands) {
    const Called c = shown(folder, small(), command.arguments, "Zq");
    CAPTURE(command.arguments, c.err);
    CHECK(c.says("Zq"));
  }
  const std::string known = shown(folder, small(), {"check", "D", "--baseline", "K"}, "Zq").out;
  for (const std::string_view text :
       {"(Zqkept)", "No longer occurs", "correction fuse/not-pv-listed on ZqA-01"}) {
    CAPTURE(std::string(text), known);
    CHECK(known.find(text) != std::string::npos);
  }
  const std::string letter = shown(folder, small(),
                                   {"check", "D", "--asbuilt", "R", "--exceptions", "E", "--on", "2027-03-18",
                                    "--format", "markdown"},
                                   "Zq")
                                 .out;
  for (const std::string_view text : {"ZqTest site", "ZqA-01", "ZqE-1", "Zqtwo", "Zqdry", "Zqleft", "Zqp-1",
                                      "Zqblack", "ZqTHHN", "Zqin sight", "Zqoffice", "Zqnorth"}) {
    CAPTURE(std::string(text), letter);
    CHECK(letter.find(text) != std::string::npos);
  }
}

TEST_CASE("JSON holds the texts as they are") {
  const Folder folder;
  for (const Hostile& hostile : hostile_texts()) {
    const Called c = shown(folder, small(), {"check", "D", "--format", "json"}, hostile.text);
    CAPTURE(std::string(hostile.what));
    const Json report = Json::parse(c.out);
    CHECK(report["site"]["name"] == hostile.text + "Test site");
    CHECK(report["boxes"][0]["id"] == hostile.text + "A-01");
  }
}

TEST_CASE("what is wrong with an input is told without harm, a line a problem") {
  const Json sound = sound_design();
  const Folder folder;
  for (const Hostile& hostile : hostile_texts()) {
    const std::string& h = hostile.text;
    std::vector<Json> bad;
    for (const char* where : {"/site", "/code", "/modules/M", "/inverters/I", "/conductors/string",
                              "/combiners/0", "/combiners/0/fuse", "/combiners/0/circuits/0", ""}) {
      bad.push_back(sound);
      bad.back()[Json::json_pointer(where)][h + "key"] = 1;
    }
    for (const char* where :
         {"/format", "/site/use", "/site/low_c", "/code/edition", "/modules/M/voc_v", "/modules/M/cell",
          "/conductors/string/size", "/combiners/0/inverter", "/combiners/0/circuits/0/module",
          "/combiners/0/circuits/0/run/conductor", "/combiners/0/fuse/dc", "/combiners/0/labels/0/kind"}) {
      bad.push_back(sound);
      bad.back()[Json::json_pointer(where)] = h + "value";
    }
    bad.push_back(with({{"code", {{"amendments", {{h + "key", 1}}}}}}));
    bad.push_back(with({{"code", {{"amendments", h + "file"}}}}));
    bad.push_back(hostile_design(sound, h));
    bad.back()["combiners"].push_back(bad.back()["combiners"][0]);  // one id twice
    for (const Json& design : bad) {
      CAPTURE(std::string(hostile.what));
      const Called c = call({"check", folder.put("design.json", design.dump())});
      CHECK(c.status == 3);
      CHECK(c.out.empty());
      CHECK(harm_in(c.err) == "");
      for (const std::string& line : lines_of(c.err)) CHECK_FALSE(line.starts_with("boxproof: accept"));
    }
    const Called broken = call({"check", folder.put("broken.json", "{\"site\": " + h)});
    CHECK(broken.status == 3);
    CHECK(harm_in(broken.err) == "");
    Json site = sound;
    site.erase("combiners");
    site["format"] = "boxproof-site/1";
    for (const std::string& csv :
         {"id,inverter,module,series,\"" + doubled(h) + "\"\r\n",
          "id,inverter,module,series\r\n\"" + doubled(h) + "\",x,y,z\r\n",
          "id,inverter,module,series,labels,sheet\r\nA,\"" + doubled(h) + "\",\"" + doubled(h) + "\",\"" +
              doubled(h) + "\",\"" + doubled(h) + "\",1\r\nA,I,M,18,\"x(" + doubled(h) + "\",\"" +
              doubled(h) + "\"\r\n"}) {
      const Called draft =
          call({"draft", folder.put("boxes.csv", csv), "--site", folder.put("site.json", site.dump())});
      CHECK(draft.status == 3);
      CHECK(draft.out.empty());
      CHECK(harm_in(draft.err) == "");
      for (const std::string& line : lines_of(draft.err)) CHECK_FALSE(line.starts_with("boxproof: accept"));
    }
    const Called table = call({"check", folder.put("design.json", sound.dump()), "--asbuilt",
                               folder.put("record.csv", "id,\"" + h + "\"\r\n" + "A-01,x\r\n")});
    CHECK(table.status == 3);
    CHECK(harm_in(table.err) == "");
  }
}

TEST_CASE("wrong use is told without harm") {
  const std::string design = BOXPROOF_EXAMPLES "/ferry-shed.json";
  for (const Hostile& hostile : hostile_texts()) {
    if (hostile.text.size() > 1000) continue;  // the system takes no such name of a file
    const std::string& h = hostile.text;
    for (const Strings& arguments :
         std::vector<Strings>{{h + "x"},
                              {"check", h + "x"},
                              {"check", design, h + "x"},
                              {"check", design, "--x" + h},
                              {"check", design, "--format", h + "x"},
                              {"check", design, "--edition", h + "x"},
                              {"check", design, "--low-c", h + "x"},
                              {"check", design, "--box", h + "x"},
                              {"check", design, "--asbuilt", h + "x"},
                              {"check", design, "--exceptions", design, "--on", h + "x"},
                              {"check", design, "--output", "/nowhere/" + h + "x"},
                              {"box", design, h + "x"},
                              {"rules", h + "x"},
                              {"rules", "--topic", h + "x"},
                              {"tables", h + "x"},
                              {"schema", h + "x"}}) {
      CAPTURE(std::string(hostile.what), arguments);
      const Called c = call(arguments);
      CHECK(c.status >= 2);
      CHECK(harm_in(c.err) == "");
      for (const std::string& line : lines_of(c.err)) CHECK_FALSE(line.starts_with("boxproof: accept"));
    }
  }
}
