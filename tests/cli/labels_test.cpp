// The command labels: formats, choice of boxes, editions, and the exit status.
#include <algorithm>

#include "boxproof/report.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/page.hpp"
#include "tests/support/said.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

const std::string clean = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh.json";
const std::string faults = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-faults.json";

std::vector<std::string> boxes_in(const Json& schedule) {
  std::vector<std::string> out;
  for (const Json& label : schedule["labels"])
    if (!label["box"].is_null() && (out.empty() || label["box"] != out.back())) out.push_back(label["box"]);
  return out;
}

}  // namespace

TEST_CASE("labels: text unless another format is asked for, and status 0 whatever is wrong with the plan") {
  const Called text = call({"labels", clean});
  CHECK(text.status == 0);
  CHECK(text.err.empty());
  CHECK(text.says("label schedule, NEC 2017"));
  CHECK(text.says("Saltmarsh Packing Halls"));
  CHECK(text.says("ON THE SITE"));
  CHECK(too_wide(text.out).empty());
  CHECK(call({"labels", clean, "--format", "text"}).out == text.out);
  CHECK(call({"labels", faults}).status == 0);
  const Called json = call({"labels", clean, "--format", "json"});
  CHECK(json.status == 0);
  CHECK(Json::parse(json.out)["format"] == "boxproof-labels/1");
  const Called csv = call({"labels", clean, "--format", "csv"});
  CHECK(csv.status == 0);
  CHECK(csv.out.starts_with("box,sheet,kind,"));
  // Fifty boxes of five labels each, the site's one, the plan's own besides, and the header.
  CHECK(boxes_in(Json::parse(json.out)).size() == 50);
  CHECK(std::count(csv.out.begin(), csv.out.end(), '\n') ==
        static_cast<std::ptrdiff_t>(Json::parse(json.out)["labels"].size() + 1));
}

TEST_CASE("labels: the same input gives the same bytes") {
  for (const char* format : {"text", "csv", "json"})
    CHECK(call({"labels", clean, "--format", format}).out == call({"labels", clean, "--format", format}).out);
}

TEST_CASE("labels: a choice of boxes leaves out the others and the site") {
  const Called some = call({"labels", clean, "--box", "A-0[12]", "--box", "B-22", "--format", "json"});
  CHECK(some.status == 0);
  CHECK(boxes_in(Json::parse(some.out)) == std::vector<std::string>{"A-01", "A-02", "B-22"});
  const Json schedule = Json::parse(some.out);
  for (const Json& label : schedule["labels"]) CHECK_FALSE(label["box"].is_null());
  CHECK_FALSE(call({"labels", clean, "--box", "A-01"}).says("ON THE SITE"));
  const Called none = call({"labels", clean, "--box", "C-01"});
  CHECK(none.status == 2);
  CHECK(none.out.empty());
  CHECK(none.complains("C-01"));
}

TEST_CASE("labels: by another edition than the file's") {
  for (const std::string_view edition : edition_names) {
    const Called c = call({"labels", clean, "--edition", std::string(edition), "--format", "json"});
    CHECK(c.status == 0);
    const Json j = Json::parse(c.out);
    CHECK(j["code"]["edition"] == std::string(edition));
    const bool source = std::any_of(j["labels"].begin(), j["labels"].end(), [](const Json& label) {
      return label["kind"] == "dc-power-source" && label["needed"] == "yes";
    });
    CHECK(source == (edition <= "2014"));
  }
  CHECK(call({"labels", clean, "--edition", "2018"}).status == 2);
}

TEST_CASE("labels: temperatures of the command line are computed with") {
  // 18 · 49.3 V · (1 + 0.27 % · (25 − t)): 968.9 V at −9 °C, 920.98 V at 11 °C.
  CHECK(call({"labels", clean, "--box", "A-01"}).says("MAXIMUM VOLTAGE 969 V DC"));
  CHECK(call({"labels", clean, "--box", "A-01", "--low-c", "11"}).says("MAXIMUM VOLTAGE 921 V DC"));
}

TEST_CASE("labels: the schedule says what the command line put in place of the file's values") {
  CHECK(call({"labels", clean, "--low-c", "11"}).says("site.low_c is 11 °C (the file says −9 °C)"));
  CHECK(call({"labels", clean, "--edition", "2020"}).says("code.edition is 2020 (the file says 2017)"));
}

TEST_CASE("labels: to a file, from standard input") {
  const Folder folder;
  const Called c = call({"labels", clean, "--format", "csv", "--output", folder.path("labels.csv")});
  CHECK(c.status == 0);
  CHECK(c.out.empty());
  CHECK(folder.get("labels.csv") == call({"labels", clean, "--format", "csv"}).out);
  const Called piped = call({"labels", "-"}, {sound_design().dump(), false, {}});
  CHECK(piped.status == 0);
  CHECK(piped.says("COMBINER A-01: 9 STRINGS OF 18, FUSES 15 A"));
}

TEST_CASE("labels: a box that was visited is listed as found, the others as planned") {
  const std::string visit = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-visit.json";
  const std::string rows = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh-visit.csv";
  // A-04 has 19 modules in series in place of 18: 19 · 49.3 V · (1 + 0.27 % · 34) = 1022.7 V at −9 °C.
  const Called plan = call({"labels", clean, "--box", "A-04"});
  const Called found = call({"labels", clean, "--box", "A-04", "--asbuilt", visit});
  CHECK(found.status == 0);
  CHECK(found.err.empty());
  CHECK(plan.says("MAXIMUM VOLTAGE 969 V DC"));
  CHECK(found.says("MAXIMUM VOLTAGE 1023 V DC"));
  CHECK(found.says("label schedule, as built, NEC 2017"));
  CHECK_FALSE(plan.says("as built"));
  CHECK(found.says("Of 1 box, 1 as found by the field record, the others as planned."));
  CHECK(call({"labels", clean, "--box", "A-04", "--asbuilt", rows}).out == found.out);
  const Json j = Json::parse(call({"labels", clean, "--asbuilt", visit, "--format", "json"}).out);
  CHECK(j["basis"] == "as-built");
  CHECK(boxes_in(j).size() == 50);
  // A label once for the system has the highest voltage of all boxes, as found.
  const Json later =
      Json::parse(call({"labels", clean, "--asbuilt", visit, "--edition", "2023", "--format", "json"}).out);
  CHECK(later["labels"][0]["kind"] == "max-voltage");
  CHECK(later["labels"][0]["values"]["max_v"]["printed"] == 1023);
  const Json record = {{"format", "boxproof-asbuilt/1"},
                       {"boxes", {{{"id", "B-02"}, {"count", {{"positive", 8}, {"negative", 8}}}}}}};
  const Folder folder;
  folder.put("record.json", record.dump());
  folder.put("design.json", with_second_box(sound_design()).dump());
  const Called two = call(
      {"labels", folder.path("design.json"), "--asbuilt", folder.path("record.json"), "--format", "csv"});
  CHECK(two.says("\"COMBINER A-01: 9 STRINGS OF 18, FUSES 15 A\""));
  CHECK(two.says("\"COMBINER B-02: 8 STRINGS OF 18, FUSES 15 A\""));
}

TEST_CASE("labels: what to have made is what the plan calls for, whatever hangs on the box") {
  const Folder folder;
  const Json record = {{"format", "boxproof-asbuilt/1"},
                       {"boxes", {{{"id", "A-01"}, {"labels", {{{"kind", "directory"}}}}}}}};
  folder.put("record.json", record.dump());
  folder.put("design.json", sound_design().dump());
  const auto labels = [&](bool built) {
    std::vector<std::string> arguments{"labels", folder.path("design.json"), "--format", "json"};
    if (built) arguments.insert(arguments.end(), {"--asbuilt", folder.path("record.json")});
    return Json::parse(call(arguments).out)["labels"];
  };
  CHECK(labels(true) == labels(false));
}

TEST_CASE("labels: wrong use is 2, a bad design 3, and nothing is printed") {
  struct Row {
    std::vector<std::string> arguments;
    std::string in;
    int status;
    std::string complaint;
  };
  for (const Row& r : std::vector<Row>{{{"labels"}, "", 2, "DESIGN is required"},
                                       {{"labels", clean, "--format", "xml"}, "", 2, "xml"},
                                       {{"labels", clean, "--format", "cvs"}, "", 2, "csv"},
                                       {{"labels", clean, "--box", "A-99"}, "", 2, "A-99"},
                                       {{"labels", clean, "--high-c", "30"}, "", 2, "--high-c"},
                                       {{"labels", clean, "--asbuilt", "none.json"}, "", 3, "none.json"},
                                       {{"labels", "-", "--asbuilt", "-"}, "", 2, "standard input"},
                                       {{"labels", clean, "more"}, "", 2, "more"},
                                       {{"labels", "none.json"}, "", 3, "none.json"},
                                       {{"labels", "-"}, "{", 3, "<stdin>:"},
                                       {{"labels", "-"}, "{}", 3, "format"}}) {
    CAPTURE(r.arguments);
    const Called c = call(r.arguments, {r.in, false, {}});
    CHECK(c.status == r.status);
    CHECK(c.out.empty());
    CHECK(c.complains(r.complaint));
  }
  Json unknown_kind = sound_design();
  unknown_kind["combiners"][0]["labels"][0]["kind"] = "box-identificaton";
  const Called c = call({"labels", "-"}, {unknown_kind.dump(), false, {}});
  CHECK(c.status == 3);
  CHECK(c.complains("did you mean \"box-identification\""));
}

TEST_CASE("labels: control characters of a design do not reach the text") {
  const std::string nasty = "a\u001b[31m\u0007\u202eb";
  Json design = put(sound_design(), "/site/name", nasty);
  design["combiners"][0]["id"] = nasty;
  design["inverters"][nasty] = design["inverters"]["I"];
  design["combiners"][0]["inverter"] = nasty;
  const Called c = call({"labels", "-"}, {design.dump(), false, {}});
  CHECK(c.status == 0);
  CHECK(control_characters(c.out) == 0);
  CHECK(c.out.find("\u202e") == std::string::npos);
  CHECK(c.says("\\u{1B}"));
}

TEST_CASE("labels: the schema is one, and the help names the command") {
  const Called c = call({"schema", "labels"});
  CHECK(c.status == 0);
  const Json schema = Json::parse(c.out);
  CHECK(schema["$schema"] == "https://json-schema.org/draft/2020-12/schema");
  CHECK(schema["$id"] == "urn:boxproof:labels:1");
  CHECK(call({"--help"}).says("labels"));
  CHECK(call({"labels", "--help"}).says("Usage: boxproof labels"));
}
