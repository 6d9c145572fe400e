// The label schedule as CSV (RFC 4180: lines end with CRLF, quotes doubled inside quotes).
#include <map>

#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"
#include "tests/support/labels.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/rfc4180.hpp"
#include "tests/support/said.hpp"
#include "tests/support/schedule.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::string csv_of(const Json& design, std::string_view edition = {}) {
  return schedule_of(report::write_labels_csv, design, edition);
}
Json json_of(const Json& design, std::string_view edition = {}) {
  return Json::parse(schedule_of(report::write_labels_json, design, edition));
}

const Cells header{"box",   "sheet", "kind",  "where", "needed",  "text",   "max_v",  "max_a",
                   "isc_a", "vmp_v", "imp_a", "look",  "section", "source", "caution"};

// Rows as maps, behind the header.
std::vector<std::map<std::string, std::string>> records(const std::string& csv) {
  const auto rows = read_csv(csv);
  REQUIRE_FALSE(rows.empty());
  REQUIRE(rows[0] == header);
  std::vector<std::map<std::string, std::string>> out;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].size() != header.size()) FAIL("row " << i << " has " << rows[i].size() << " cells");
    auto& record = out.emplace_back();
    for (std::size_t k = 0; k < header.size(); ++k) record[header[k]] = rows[i][k];
  }
  return out;
}

std::map<std::string, std::string> record_of(const std::string& csv, const std::string& kind) {
  for (auto& r : records(csv))
    if (r["kind"] == kind) return r;
  FAIL("no row of this kind: " << kind);
  return {};
}

}  // namespace

TEST_CASE("CSV: the header, then a row for each label and box") {
  Json design = with_second_box(sound_design());
  const auto rows = records(csv_of(design));
  std::vector<std::string> is;
  for (const auto& r : rows) is.push_back(r.at("box") + " " + r.at("kind") + " " + r.at("needed"));
  CHECK(is == std::vector<std::string>{
                  " rapid-shutdown yes", "A-01 box-identification yes", "A-01 max-voltage yes",
                  "A-01 shock-both-sides yes", "A-01 raceway-power-source yes", "A-01 disconnect yes",
                  "A-01 dc-power-source plan", "A-01 ground-fault plan", "B-02 box-identification yes",
                  "B-02 max-voltage yes", "B-02 shock-both-sides yes", "B-02 raceway-power-source yes",
                  "B-02 disconnect yes", "B-02 dc-power-source plan", "B-02 ground-fault plan"});
  for (const auto& r : rows) CHECK(r.at("sheet") == (r.at("box").empty() ? "" : "E-1"));
}

TEST_CASE("CSV: values as printed, in the columns that the edition asks for") {
  const auto now = record_of(csv_of(sound_design()), "max-voltage");
  CHECK(now.at("max_v") == "597");
  CHECK(now.at("max_a") == "108");
  for (const char* key : {"isc_a", "vmp_v", "imp_a"}) CHECK(now.at(key).empty());
  const auto before = record_of(csv_of(sound_design(), "2008"), "dc-power-source");
  CHECK(before.at("max_v") == "597");
  CHECK(before.at("max_a").empty());
  CHECK(before.at("isc_a") == "86.4");
  CHECK(before.at("vmp_v") == "450");
  CHECK(before.at("imp_a") == "81");
  CHECK(record_of(csv_of(without(sound_design(), "/site/low_c")), "max-voltage").at("max_v").empty());
  CHECK(before.at("section") == "690.53");
  CHECK(before.at("source").empty());
  CHECK(now.at("source") == "from memory, unverified");
}

TEST_CASE("CSV: a label that only the plan calls for has the values of its text") {
  const auto plan = record_of(csv_of(sound_design()), "dc-power-source");
  CHECK(plan.at("needed") == "plan");
  CHECK(plan.at("text") == "PV DC SOURCE: MAXIMUM VOLTAGE 597 V DC, MAXIMUM CURRENT 108 A");
  CHECK(plan.at("max_v") == "597");
  CHECK(plan.at("max_a") == "108");
  for (const char* key : {"isc_a", "vmp_v", "imp_a"}) CHECK(plan.at(key).empty());
  const auto fault = record_of(csv_of(sound_design()), "ground-fault");
  CHECK(fault.at("max_v").empty());
  CHECK(fault.at("max_a").empty());
}

TEST_CASE("CSV: the caution once, in the first row") {
  const auto rows = records(csv_of(with_second_box(sound_design())));
  CHECK(rows[0].at("caution") == std::string(caution()));
  for (std::size_t i = 1; i < rows.size(); ++i) CHECK(rows[i].at("caution").empty());
}

TEST_CASE("CSV: commas, quotes and ends of lines in a name stay in their cell") {
  for (const std::string name : {"A,1", "A\"1", "A\n1", "A\r\n1", "\"", ",\",\n", "A 1"}) {
    CAPTURE(name);
    const Json design = put(put(sound_design(), "/combiners/0/id", name), "/combiners/0/sheet", name);
    const auto rows = records(csv_of(design));
    REQUIRE(rows.size() == 8);
    CHECK(rows[1].at("box") == name);
    CHECK(rows[1].at("sheet") == name);
  }
}

TEST_CASE("CSV: what a spreadsheet would take for a formula stays a text") {
  for (const char first : {'=', '+', '-', '@', '\t', '\r'}) {
    const std::string name = std::string(1, first) + "1+1";
    CAPTURE(name);
    const Json design = put(put(sound_design(), "/combiners/0/id", name), "/combiners/0/sheet", name);
    const auto rows = records(csv_of(design));
    CHECK(rows[1].at("box") == "'" + name);
    CHECK(rows[1].at("sheet") == "'" + name);
  }
  for (const std::string name : {"A-01", "1=1", "'1"})
    CHECK(records(csv_of(put(sound_design(), "/combiners/0/id", name)))[1].at("box") == name);
  // One that has the guard in its name gets another, so that taking one off gives the name.
  CHECK(records(csv_of(put(sound_design(), "/combiners/0/id", "'=1")))[1].at("box") == "''=1");
}

TEST_CASE("CSV: amended words are guarded like names") {
  for (const char* key : {"words", "look", "section"}) {
    CAPTURE(key);
    const Json design = put(sound_design(), "/code/amendments",
                            {{"labels", {{"kinds", {{"raceway-power-source", {{key, "=1+1"}}}}}}}});
    for (const auto& cells : read_csv(csv_of(design)))
      for (const std::string& cell : cells) CHECK_FALSE(cell.starts_with("="));
  }
}

TEST_CASE("JSON and CSV list the same labels, of the example too") {
  for (const char* file : {"saltmarsh.json", "saltmarsh-faults.json"})
    for (const std::string_view edition : edition_names) {
      CAPTURE(file, edition);
      const Json design = example_json(file);
      const auto rows = records(csv_of(design, edition));
      const Json labels = json_of(design, edition)["labels"];
      REQUIRE(rows.size() == labels.size());
      for (std::size_t i = 0; i < rows.size(); ++i) {
        const Json& box = labels[i]["box"];
        if (rows[i].at("box") != (box.is_null() ? "" : box.get<std::string>()) ||
            labels[i]["text"] != rows[i].at("text") || labels[i]["kind"] != rows[i].at("kind"))
          FAIL_CHECK("row " << i);
      }
    }
}

TEST_CASE("a site where no label is needed and none called for") {
  // A solidly grounded array in a field, where an amendment takes the one label away that 2008 asks for.
  const Json none =
      put(with_labels(without(put(sound_design(), "/site/use", "ground"), "/combiners/0/disconnect"),
                      Json::array()),
          "/code/amendments", {{"labels", {{"kinds", {{"ground-fault", nullptr}}}}}});
  CHECK(json_of(none, "2008")["labels"].empty());
  CHECK(read_csv(csv_of(none, "2008")) == std::vector<Cells>{header});
}
