// What a schedule's rows become.
#include "src/draft/read_schedule.hpp"

#include "tests/support/box_text.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/drafted.hpp"
#include "tests/support/judge.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

// The boxes of the design that a schedule makes, without types.
Json boxes(const std::string& csv) {
  const Folder folder;
  const Json design = Json::parse(drafted(folder, csv, small_site()));
  return design["combiners"];
}

Json box(const std::string& csv) {
  return boxes(csv)[0];
}

}  // namespace

TEST_CASE("every column is its key of a box, or of its circuit") {
  // A cell for each column; the values are what the sound design could have.
  std::string header, row;
  Json expected = Json::object();
  for (const draft::Column& column : draft::columns) {
    if (column.holds == draft::Holds::part) continue;
    std::string cell;
    Json value;
    const std::string name(column.name);
    if (column.holds == draft::Holds::truth) {
      cell = "true";
      value = true;
    } else if (column.holds == draft::Holds::number) {
      cell = name.find("terminal_c") != std::string::npos ? "75"
             : name == "strings"                          ? "6"
             : name == "strings_per_fuse"                 ? "3"
             : name == "fuse_ambient_factor"              ? "0.93"
                                                          : std::to_string(column.name.size());
      value = Json::parse(cell);
    } else if (column.holds == draft::Holds::labels) {
      cell = "\"disconnect; max-voltage(max_v=600, 'a b'='c')\"";
      value =
          Json::parse(R"([{"kind":"disconnect"},{"kind":"max-voltage","values":{"max_v":600,"a b":"c"}}])");
    } else {
      cell = !column.words.empty()                         ? std::string(column.words.back())
             : name == "inverter"                          ? "I"
             : name == "module"                            ? "M"
             : name.find("conductor") != std::string::npos ? "feeder"
                                                           : "x-" + name;
      value = cell;
    }
    header += (header.empty() ? "" : ",") + name;
    row += (row.empty() ? "" : ",") + cell;
    std::string pointer = "/" + std::string(column.path);
    const std::string circuits = "/circuits/";
    if (pointer.starts_with(circuits)) pointer.insert(circuits.size(), "0/");
    if (pointer != "/type") expected[Json::json_pointer(pointer)] = value;
  }
  // The one box of a type: the type states everything but what is each box's own.
  const Folder folder;
  const Json design = Json::parse(drafted(folder, header + "\n" + row + "\n", small_site()));
  Json whole = design["box_types"]["x-type"];
  whole.merge_patch(design["combiners"][0]);
  CHECK(whole["type"] == "x-type");
  whole.erase("type");
  CHECK(whole == expected);
  CHECK(design["combiners"][0] ==
        Json({{"id", "x-id"}, {"type", "x-type"}, {"sheet", "x-sheet"}, {"location", "x-location"}}));
}

TEST_CASE("an empty cell is an absent key") {
  CHECK(box("id,inverter,module,series,strings,fuse_a,fuse,disconnect_rated_v,labels,sheet,run_length_m\n"
            "A,I,M,18,,,,,,,\n") ==
        Json::parse(R"({"id": "A", "inverter": "I", "circuits": [{"module": "M", "series": 18}]})"));
  CHECK(box("id,inverter,module,series,strings\nA,I,M,18, \n") ==
        box("id,inverter,module,series,strings\nA,I,M,18,\" \"\n"));
}

TEST_CASE("rows of one box are its circuits; any of them may state what is of the box") {
  const Json one =
      box("id,inverter,circuit_id,module,series,sheet,fuse_a\n"
          "A,I,x,M,18,,\n"
          "A,,y,M,17,E-1,\n"
          "\n"
          "A,I,,M,16,E-1,20.0\n");
  CHECK(one == Json::parse(R"({"id": "A", "inverter": "I", "sheet": "E-1", "fuse": {"a": 20}, "circuits": [
    {"id": "x", "module": "M", "series": 18}, {"id": "y", "module": "M", "series": 17}, {"module": "M", "series": 16}]})"));
}

TEST_CASE("parts: true alone is a part of which nothing is known, false none") {
  const std::string header = "id,inverter,module,series,fuse,fuse_a,output,output_run,run,labels\n";
  const auto said = [&](const std::string& cells) { return box(header + "A,I,M,18," + cells + "\n"); };
  CHECK(said("true,,,,,")["fuse"] == Json::object());
  CHECK(said("TRUE,20,,,,")["fuse"] == Json({{"a", 20}}));
  CHECK_FALSE(said("false,,,,,").contains("fuse"));
  CHECK(said(",,,true,,")["output"] == Json({{"run", Json::object()}}));
  CHECK(said(",,true,false,,")["output"] == Json::object());
  CHECK(said(",,true,,,")["output"] == Json::object());
  CHECK(said(",,,,true,")["circuits"][0]["run"] == Json::object());
  CHECK(said(",,,,,none")["labels"] == Json::array());
  CHECK_FALSE(said(",,,,,").contains("labels"));
}

TEST_CASE("as spreadsheets save it") {
  const std::string plain =
      "id,inverter,module,series,run_length_m,fuse_dc\n'-A1,I,M,18,2.5,true\nB,I,M,18,,\n";
  const Json expected = boxes(plain);
  CHECK(expected[0]["id"] == "-A1");
  for (
      const std::string text : {
          "\xEF\xBB\xBFid,inverter,module,series,run_length_m,fuse_dc\r\n'-A1,I,M,18,2.5,TRUE\r\nB,I,M,18,,\r\n",
          "fuse_dc,run_length_m,series,module,inverter,id\ntrue,2.5,18,M,I,'-A1\n,,18,M,I,B\n",
          "\"id\",\"inverter\",\"module\",\"series\",\"run_length_m\",\"fuse_dc\"\n\"'-A1\",\"I\",\"M\",\"18\",\"2.50\",\"true\"\n"
          "\"B\",\"I\",\"M\",\"018\",\"\",\"\"",
          "\n,,,,,,\nid,inverter,module,series,run_length_m,fuse_dc,\n,,,,,,\n'-A1, I , M ,1.8e1, 2.5 ,True,\n\n,,,,,,\nB,I,M,18,,,\n,,,,,,\n,,,,,,\n",
      }) {
    CAPTURE(text);
    CHECK(boxes(text) == expected);
  }
}
