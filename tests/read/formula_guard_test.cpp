// The apostrophe that keeps a spreadsheet from running an id as a formula: put on by the field sheet, taken
// off by the reader of field records.
#include <map>

#include "src/report/tally.hpp"
#include "src/text/formula_guard.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::string sheet_of(const DesignFile& file) {
  report::TallySheet sheet{file, edition_of("2017"), {}, {}, {}};
  for (const Combiner& box : file.design.combiners) sheet.boxes.push_back({&box, ""});
  std::string out;
  report::write_tally_csv(sheet, [&](std::string_view piece) { out += piece; });
  return out;
}

std::string first_id(const std::string& csv) {
  const Document document{"visit.csv", csv};
  return read_field_record(document).record.boxes.at(0).id;
}

}  // namespace

TEST_CASE("formula guard: how ids stand in the sheet, and that they come back as they were") {
  const std::map<std::string, std::string> cells{{"A-01", "A-01"},
                                                 {"-A1", "'-A1"},
                                                 {"=1+1", "'=1+1"},
                                                 {"+A", "'+A"},
                                                 {"@A", "'@A"},
                                                 {"\tA", "\"'\tA\""},
                                                 {"\rA", "\"'\rA\""},
                                                 {"'-A1", "''-A1"},
                                                 {"''=A", "'''=A"},
                                                 {"'A", "'A"},
                                                 {"'", "'"},
                                                 {"''", "''"},
                                                 {"-", "'-"},
                                                 {"=A,B", "\"'=A,B\""},
                                                 {"=\"A\"", "\"'=\"\"A\"\"\""},
                                                 {" A", "\" A\""},
                                                 {"A ", "\"A \""},
                                                 {" -A", "\" -A\""},
                                                 {"A\t", "\"A\t\""},
                                                 {"A\r\nB", "\"A\r\nB\""},
                                                 {"1-2", "1-2"},
                                                 {"\xE2\x88\x92"
                                                  "1",
                                                  "\xE2\x88\x92"
                                                  "1"}};
  for (const auto& [id, cell] : cells) {
    CAPTURE(id, cell);
    const Document document{"design.json", with_box({{"id", id}}).dump()};
    const DesignFile file = read_design(document);
    const std::string csv = sheet_of(file);
    const std::string row = cell + ",,,,,,,,,,,\r\n";
    CHECK(csv.substr(csv.find("\r\n") + 2) == row);
    CHECK(first_id(csv) == id);
  }
}

TEST_CASE("formula guard: an id that a spreadsheet saved without the guard is read as it stands") {
  for (const char* id : {"-A1", "=1+1", "+A", "@A", "'A", "A'-1"})
    CHECK(first_id(std::string("id\n") + id + "\n") == id);
}

TEST_CASE("formula guard: the id on a label is read like the id of a box") {
  const Document document{"visit.csv", "id,posted_id\n'-A1,'-A1\n'-A2,''-A2\nA,'A\n"};
  const RecordFile file = read_field_record(document);
  const auto& boxes = file.record.boxes;
  CHECK(boxes[0].posted.id == "-A1");
  CHECK(boxes[1].posted.id == "'-A2");
  CHECK(boxes[2].posted.id == "'A");
}

TEST_CASE("formula guard: numbers have none") {
  const Document document{"visit.csv", "id,positive\nA,'-1\n"};
  CHECK_THROWS_AS(read_field_record(document), InputError);
}
