// The field sheet on paper and for a spreadsheet.
#include "src/report/tally.hpp"

#include <algorithm>

#include "boxproof/asbuilt.hpp"
#include "src/read/field_columns.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/example.hpp"
#include "tests/support/limit_case.hpp"
#include "tests/support/page.hpp"
#include "tests/support/random_design.hpp"
#include "tests/support/rfc4180.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Writer = void (*)(const report::TallySheet&, const Write&);

std::string sheet_of(Writer writer, const Json& design, std::string why = {},
                     std::vector<std::string> how = {}) {
  const Document document{"design.json", design.dump()};
  const DesignFile file = read_design(document);
  const Edition& edition = edition_of(file.design.edition);
  report::TallySheet sheet{file, edition, {}, std::move(how), {}};
  for (const Combiner& box : file.design.combiners) sheet.boxes.push_back({&box, why});
  std::string out;
  writer(sheet, [&](std::string_view piece) { out += piece; });
  return out;
}

const std::string rule(80, '-');

// What the sheet has of each box.
std::vector<std::vector<std::string>> boxes_in(const std::string& page) {
  std::vector<std::vector<std::string>> out;
  bool inside = false;
  for (const std::string& line : lines_of(page)) {
    if (line == rule)
      out.emplace_back(), inside = true;
    else if (line.empty())
      inside = false;
    else if (inside)
      out.back().push_back(line);
  }
  REQUIRE_FALSE(out.empty());
  out.pop_back();  // the words
  return out;
}

// The lines of the one box.
std::vector<std::string> box_of(const Json& design, const std::string& why = {}) {
  const auto boxes = boxes_in(sheet_of(report::write_tally_text, design, why));
  REQUIRE(boxes.size() == 1);
  return boxes[0];
}

bool has(const std::vector<std::string>& lines, const std::string& line) {
  return std::find(lines.begin(), lines.end(), line) != lines.end();
}

}  // namespace

TEST_CASE("tally text: one box, whole") {
  // 18 · 30 V · (1 + 0.3 % · 35) = 596.7 V; 9 · 1.25 · 9.6 A = 108 A.
  const std::vector<std::string> expected{
      "A-01, sheet E-1, feeds I; row 1",
      "  chosen  at random",
      "  PLAN    9 positives, 9 negatives, 9 fuses",
      "          circuit 1: 9 strings of 18 modules M",
      "          fuses 15 A, 1000 V, DC, listed for PV, one pole",
      "          box type 4X; disconnect in the box, load-break, 1000 V, 200 A",
      "          output 4/0 AWG copper XHHW-2, coarse strands",
      "          label A-01; 9 strings of 18; 597 V, 108 A; fuses 15 A",
      "  THERE   positives ____  negatives ____  fuses ____  series ___________________",
      "          fuses ____ A _____ V  DC yes / no  type _____  switch _____ V _____ A",
      "          label ____________ strings ____ of ____  _____ V _____ A  fuses ____ A",
      "          output ______________________  seen __________________________________",
      "          notes ________________________________________________________________"};
  CHECK(box_of(sound_design(), "at random") == expected);
  CHECK(box_of(sound_design()).size() == expected.size() - 1);  // all boxes: no reason
}

TEST_CASE("tally text: fuses in both poles, in poles that nobody states, none") {
  CHECK(has(box_of(put(sound_design(), "/combiners/0/fuse/poles", "both")),
            "  PLAN    9 positives, 9 negatives, 18 fuses"));
  CHECK(has(box_of(without(sound_design(), "/combiners/0/fuse/poles")),
            "  PLAN    9 positives, 9 negatives, 9 fuses (or 18, in both poles)"));
  const auto none = box_of(without(sound_design(), "/combiners/0/fuse"));
  CHECK(has(none, "  PLAN    9 positives, 9 negatives, no fuses"));
  CHECK(has(none, "          label A-01; 9 strings of 18; 597 V, 108 A"));
}

TEST_CASE("tally text: several groups, strings joined ahead of a fuse, one string") {
  Json design = put(sound_design(), "/combiners/0/circuits/0/strings_per_fuse", 3);
  Json second = design["combiners"][0]["circuits"][0];
  second.merge_patch({{"id", "2"}, {"series", 17}, {"strings", 1}, {"strings_per_fuse", 1}});
  design["combiners"][0]["circuits"].push_back(second);
  const auto lines = box_of(design);
  CHECK(has(lines, "  PLAN    4 positives, 4 negatives, 4 fuses"));
  CHECK(has(lines, "          circuit 1: 9 strings of 18 modules M, 3 joined on each fuse"));
  CHECK(has(lines, "          circuit 2: 1 string of 17 modules M"));
  CHECK(has(lines, "          label A-01; 1 string of 17, 9 strings of 18; 597 V, 120 A; fuses 15 A"));
}

TEST_CASE("tally text: what the plan does not state is a question mark, and what it does not have is said") {
  Json design = without(sound_design(), "/site/low_c");
  design["combiners"][0]["fuse"] = {{"a", nullptr}};
  design["combiners"][0]["fuse"].erase("a");
  for (const char* key : {"output", "enclosure", "disconnect", "sheet", "location"})
    design["combiners"][0].erase(key);
  const auto lines = box_of(design);
  CHECK(lines[0] == "A-01, feeds I");
  CHECK(has(lines, "          fuses ? A, ? V, ?, ?, poles ?"));
  CHECK(has(lines, "          box type ?; no disconnect"));
  CHECK(has(lines, "          output not stated"));
  CHECK(has(lines, "          label A-01; 9 strings of 18; ? V, 108 A; fuses ? A"));
}

TEST_CASE("tally text: head, words and caution") {
  const std::string page = sheet_of(report::write_tally_text, sound_design(), "", {"All of them."});
  const auto lines = lines_of(page);
  CHECK(lines[0].starts_with("boxproof " + std::string(version()) + "  "));
  CHECK(lines[0].ends_with("  field sheet, NEC 2017"));
  CHECK(columns_of(lines[0]) == 80);
  CHECK(lines[1] == "Test site");
  CHECK(lines[2] == "  All of them.");
  for (const char* blank : {"date ____", "visit: first / again", "  by ____", "weather ____"}) {
    CAPTURE(blank);
    CHECK(page.find(blank) != std::string::npos);
  }
  CHECK(page.find("A box stays energised from the array with its switch open.") < page.find(rule));
  const auto words = page.find("WORDS FOR \"SEEN\"");
  REQUIRE(words != std::string::npos);
  for (const std::string_view word : condition_words) {
    CAPTURE(std::string(word));
    CHECK(page.find(" " + std::string(word) + " ", words) != std::string::npos);
  }
  CHECK(page.find("\n  ! water-inside           Water inside the box\n", words) != std::string::npos);
  CHECK(page.find("\n    gasket-damaged         Gasket damaged or not in place\n", words) !=
        std::string::npos);
  CHECK(page.find("from the array with its switch open.\n", words) == page.size() - 37);
}

TEST_CASE("tally text: changes to edition and plan stand in the head") {
  Json design =
      put(sound_design(), "/code/amendments", {{"conductor", {{"voltage_drop", {{"max_pct", 1}}}}}});
  const Document document{"design.json", design.dump()};
  const DesignFile file = read_design(document);
  const Amendments amendments{&document, file.design.amendments_offset};
  const Edition edition = load_edition("2017", &amendments);
  std::string page;
  report::write_tally_text({file, edition, {}, {}, {"site.low_c is -30 °C (the file says -10 °C)"}},
                           [&](std::string_view piece) { page += piece; });
  CHECK(page.find("Changed on the command line: site.low_c is -30 °C (the file says -10 °C)") !=
        std::string::npos);
  CHECK(page.find("Amended locally: conductor.voltage_drop.max_pct (1 in place of 2)") != std::string::npos);
}

TEST_CASE("tally text: the example's boxes are 12 to 14 lines each, none wider than the page") {
  const std::string page = sheet_of(report::write_tally_text, example_json("saltmarsh.json"), "at random");
  CHECK(too_wide(page).empty());
  const auto boxes = boxes_in(page);
  CHECK(boxes.size() == 50);
  for (const auto& lines : boxes) {
    CAPTURE(lines[0]);
    CHECK(lines.size() >= 12);
    CHECK(lines.size() <= 14);
  }
}

TEST_CASE("tally text: random sites fit the page, with every box on it") {
  for (std::uint32_t seed = 1; seed <= 40; ++seed) {
    const Json design = RandomSite(seed).design();
    const std::string page = sheet_of(report::write_tally_text, design, "at random");
    CAPTURE(seed);
    CHECK(too_wide(page).empty());
    CHECK(boxes_in(page).size() == design["combiners"].size());
  }
}

TEST_CASE("tally text: nothing in a name moves the cursor or leaves the page") {
  const std::string bad = "A\x1b[2J\nB\r\t" + std::string(200, 'x') + "\xE2\x80\xAE";
  Json design = sound_design();
  for (const char* where :
       {"/site/name", "/combiners/0/id", "/combiners/0/sheet", "/combiners/0/location",
        "/combiners/0/enclosure/type", "/combiners/0/circuits/0/id", "/conductors/feeder/insulation"})
    design = put(design, where, bad);
  const std::string page = sheet_of(report::write_tally_text, design, "thin: " + bad, {"of --box " + bad});
  CHECK(control_characters(page) == 0);
  CHECK(too_wide(page).empty());
  CHECK(page.find("\xE2\x80\xAE") == std::string::npos);
}

TEST_CASE("tally CSV: the columns of a field record, a row a box with its id alone") {
  for (std::uint32_t seed = 1; seed <= 10; ++seed) {
    const Json design = RandomSite(seed).design();
    const std::string csv = sheet_of(report::write_tally_csv, design, "at random", {"All."});
    const auto rows = read_csv(csv);
    REQUIRE(rows.size() == design["combiners"].size() + 1);
    CHECK(rows[0] == Cells(read::field_column_names.begin(), read::field_column_names.end()));
    for (std::size_t i = 1; i < rows.size(); ++i) {
      REQUIRE(rows[i].size() == read::field_column_names.size());
      CHECK(design["combiners"][i - 1]["id"] == rows[i][0]);
      CHECK(std::all_of(rows[i].begin() + 1, rows[i].end(),
                        [](const std::string& cell) { return cell.empty(); }));
    }
    const Document document{"visit.csv", csv};
    CHECK(read_field_record(document).record.boxes.size() == design["combiners"].size());
  }
}
