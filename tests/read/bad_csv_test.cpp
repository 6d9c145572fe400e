// Field records in CSV that cannot be read: all that is said, and where.
#include <fmt/format.h>

#include <algorithm>

#include "tests/support/catch.hpp"
#include "tests/support/csv_input.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

struct Bad {
  std::string_view what, text;
  Lines lines;
};

void check_all(const std::vector<Bad>& table) {
  for (const Bad& bad : table) {
    CAPTURE(std::string(bad.what));
    CHECK(csv_problems(bad.text) == bad.lines);
  }
}

const std::string known =
    "id, positive, negative, fuses, series, fuse_a, fuse_v, fuse_dc, posted_id, posted_strings, "
    "posted_series, seen";

// The part of a message on a wrong word that lists the known ones, cut out.
Lines without_words(Lines lines) {
  for (std::string& line : lines) {
    const auto list = line.find(" one of "), end = line.rfind("; did you mean");
    if (list != std::string::npos) line.erase(list, (end == std::string::npos ? line.size() : end) - list);
  }
  return lines;
}

}  // namespace

TEST_CASE("texts that are no CSV") {
  check_all({
      {"empty",
       "",
       {"1:1: found an empty file, expected a row with the names of columns; they are " + known}},
      {"empty rows",
       "\n,,\n",
       {"1:1: found an empty file, expected a row with the names of columns; they are " + known}},
      {"zero byte",
       std::string_view("id\nA\0\n", 6),
       {"2:2: found a byte of value zero, expected CSV text in UTF-8; is this the right file?"}},
      {"UTF-16",
       std::string_view("\xFF\xFEi\0d\0\n\0", 8),
       {"1:1: found text in UTF-16, expected UTF-8; save the file as CSV in UTF-8"}},
      {"UTF-16, the other way round",
       std::string_view("\xFE\xFF\0i\0d\0\n", 8),
       {"1:1: found text in UTF-16, expected UTF-8; save the file as CSV in UTF-8"}},
      {"semicolons",
       "id;fuses;fuse_a\nA-1;4;7,5\n",
       {"1:3: found the separator ;, expected ,; save the file with commas between the cells and decimal "
        "points in numbers"}},
      {"semicolons and quotes",
       "\"id\";\"fuses\"\n\"A-1\";4\n",
       {"1:5: found the separator ;, expected ,; save the file with commas between the cells and decimal "
        "points in numbers"}},
      {"tabs",
       "id\tfuses\nA-1\t4\n",
       {"1:3: found the separator tab, expected ,; save the file with commas between the cells and decimal "
        "points in numbers"}},
      {"carriage returns alone, told once",
       "id,fuses\rA-1,4\rA-2,x\r",
       {"1:9: found a carriage return without a line feed in row 1, expected lines that end in LF or CRLF; "
        "save the file as CSV in UTF-8",
        "1:20: /boxes/1/count/fuses: found text \"x\" in row 3, column fuses, expected a number; write "
        "digits, a decimal point where one is needed, and no unit"}},
  });
}

TEST_CASE("quotes, line ends and bytes where none belong") {
  check_all({
      {"a quote in the middle of a cell",
       "id,fuses\nA-1,4\nA\"2,5\n",
       {"3:2: found a quote in the middle of a cell in row 3, expected quotes around the whole of it; write "
        "a quote that belongs to the text twice"}},
      {"a quote behind a space",
       "id,fuses\nA-1, \"4\"\n",
       {"2:6: found a quote in the middle of a cell in row 2, expected quotes around the whole of it; write "
        "a quote that belongs to the text twice"}},
      {"text behind a closing quote",
       "id,fuses\n\"A\"-1,4\n\"A-2\" ,5\n",
       {"2:4: found text behind the closing quote of a cell in row 2, expected a comma or the end of the "
        "line; write a quote that belongs to the text twice",
        "3:6: found text behind the closing quote of a cell in row 3, expected a comma or the end of the "
        "line; write a quote that belongs to the text twice"}},
      {"a quote that is not closed, told at the quote",
       "id,fuses\nA-1,4\n\"A-2,5\nA-3,6\n",
       {"3:1: found a quote that is not closed in row 3, expected another one at the end of the cell"}},
      {"a doubled quote does not close",
       "id\n\"A-1\"\"\n",
       {"2:1: found a quote that is not closed in row 2, expected another one at the end of the cell"}},
      {"Latin-1",
       "id,seen\nB\xFCro,arc-marks\n\"B\xFC\",\xE4\n",
       {"2:2: found the byte 0xFC in row 2, expected text in UTF-8; save the file as CSV in UTF-8",
        "3:3: found the byte 0xFC in row 3, expected text in UTF-8; save the file as CSV in UTF-8",
        "3:6: found the byte 0xE4 in row 3, expected text in UTF-8; save the file as CSV in UTF-8"}},
      {"a wrong cell hides no other",
       "id,fuses,fuse_a\nA\"1,-4,0\n",
       {"2:2: found a quote in the middle of a cell in row 2, expected quotes around the whole of it; write "
        "a quote that belongs to the text twice",
        "2:5: /boxes/0/count/fuses: found -4 in row 2, column fuses, expected a whole number of at least 0; "
        "check the count",
        "2:8: /boxes/0/fuse/a: found 0 in row 2, column fuse_a, expected a number of amperes above 0; check "
        "the unit and the decimal point"}},
  });
}

TEST_CASE("rows of another length than the first") {
  check_all({
      {"too few and too many; the boxes behind keep their numbers",
       "id,fuses,fuse_a\nA-1,4\nA-2\nA-3,4,7,5\nA-4,x,20\n",
       {"2:1: found 2 cells in row 2, expected 3 as in the first row; put quotes around a cell that holds a "
        "comma",
        "3:1: found 1 cell in row 3, expected 3 as in the first row; put quotes around a cell that holds a "
        "comma",
        "4:1: found 4 cells in row 4, expected 3 as in the first row; put quotes around a cell that holds a "
        "comma",
        "5:5: /boxes/3/count/fuses: found text \"x\" in row 5, column fuses, expected a number; write digits, "
        "a decimal point where one is needed, and no unit"}},
      {"something below no name",
       "id,fuses,\nA-1,4,five\n",
       {"2:7: found text \"five\" in row 2, expected nothing in a column without a name"}},
  });
}

TEST_CASE("columns") {
  check_all({
      {"unknown, nearly known, and twice",
       "id,max_v,fuses_a,Fuse DC,fuses,fuses\nA-1,x,x,x,4,x\n",
       {"1:4: found the column \"max_v\", which is not known here; known columns are " + known,
        "1:10: found the column \"fuses_a\", which is not known here; did you mean \"fuse_a\"?; known "
        "columns are " +
            known,
        "1:18: found the column \"Fuse DC\", which is not known here; did you mean \"fuse_dc\"?; known "
        "columns are " +
            known,
        "1:32: found the column \"fuses\" a second time (first at line 1, column 26), expected each column "
        "once; remove one of the two"}},
      {"no id, and what else is wrong",
       "fuses\n-1\n",
       {"1:1: found no column \"id\" in the first row, expected it; it is required",
        "2:1: /boxes/0/count/fuses: found -1 in row 2, column fuses, expected a whole number of at least 0; "
        "check the count"}},
      {"an id in capitals",
       "ID\nA-1\n",
       {"1:1: found the column \"ID\", which is not known here; did you mean \"id\"?; known columns are " +
            known,
        "1:1: found no column \"id\" in the first row, expected it; it is required"}},
  });
}

TEST_CASE("ids") {
  check_all({
      {"none",
       "fuses,id\n4,\n",
       {"2:3: /boxes/0: found no \"id\" in row 2, column id, expected it here; it is required"}},
      {"twice",
       "id,fuses\nA-1,4\n\nA-2,4\n\"A-1\",4\n",
       {"5:1: /boxes/2/id: found the id \"A-1\" a second time (first at row 2) in row 5, column id, expected "
        "an id for each box"}},
  });
}

TEST_CASE("cells with no such value") {
  const std::string hint =
      ", expected a number; write digits, a decimal point where one is needed, and no unit";
  check_all({
      {"as the README of the format shows it",
       "id,positive,fuse_a\nA-1,4,20\nA-2,4,20\nA-3,4,twenty\n",
       {"4:7: /boxes/2/fuse/a: found text \"twenty\" in row 4, column fuse_a" + hint}},
      {"numbers",
       "id,fuse_a,fuse_v\nA-1,\"7,5\",1000 V\nA-2,inf,0x10\nA-3,1e400,+5\nA-4,--1,-\n",
       {"2:5: /boxes/0/fuse/a: found text \"7,5\" in row 2, column fuse_a" + hint,
        "2:11: /boxes/0/fuse/v: found text \"1000 V\" in row 2, column fuse_v" + hint,
        "3:5: /boxes/1/fuse/a: found text \"inf\" in row 3, column fuse_a" + hint,
        "3:9: /boxes/1/fuse/v: found text \"0x10\" in row 3, column fuse_v" + hint,
        "4:5: /boxes/2/fuse/a: found text \"1e400\" in row 4, column fuse_a" + hint,
        "4:11: /boxes/2/fuse/v: found text \"+5\" in row 4, column fuse_v" + hint,
        "5:5: /boxes/3/fuse/a: found text \"--1\" in row 5, column fuse_a" + hint,
        "5:9: /boxes/3/fuse/v: found text \"-\" in row 5, column fuse_v" + hint}},
      {"out of range, in the words of JSON",
       "id,positive,series,fuse_v,posted_strings\nA-1,4.25,0,-1000, -1\n",
       {"2:5: /boxes/0/count/positive: found 4.25 in row 2, column positive, expected a whole number of at "
        "least 0; check the count",
        "2:10: /boxes/0/count/series: found 0 in row 2, column series, expected a whole number of at least "
        "1; check the count",
        "2:12: /boxes/0/fuse/v: found -1000 in row 2, column fuse_v, expected a number of volts above 0; "
        "check the unit and the decimal point",
        "2:19: /boxes/0/posted/strings: found -1 in row 2, column posted_strings, expected a whole number of "
        "at least 0; check the count"}},
      {"truth",
       "id,fuse_dc\nA-1,yes\nA-2,1\nA-3,truee\n",
       {"2:5: /boxes/0/fuse/dc: found text \"yes\" in row 2, column fuse_dc, expected true or false; leave "
        "the cell empty where it was not seen",
        "3:5: /boxes/1/fuse/dc: found text \"1\" in row 3, column fuse_dc, expected true or false; leave the "
        "cell empty where it was not seen",
        "4:5: /boxes/2/fuse/dc: found text \"truee\" in row 4, column fuse_dc, expected true or false; leave "
        "the cell empty where it was not seen"}},
      {"series of each string, each at its place",
       "id,series\nA-1,18;x;0;18.5;\n",
       {"2:8: /boxes/0/count/series/1: found text \"x\" in row 2, column series" + hint,
        "2:10: /boxes/0/count/series/2: found 0 in row 2, column series, expected a whole number of at least "
        "1; check the count",
        "2:12: /boxes/0/count/series/3: found 18.5 in row 2, column series, expected a whole number of at "
        "least 1; check the count",
        "2:17: /boxes/0/count/series/4: found text \"\" in row 2, column series" + hint}},
      {"a cell that speaks as a message does",
       "id,fuses\nA-1,\"1, expected 2\"\n",
       {"2:5: /boxes/0/count/fuses: found text \"1, expected 2\" in row 2, column fuses" + hint}},
  });
  CHECK(without_words(csv_problems("id,seen\nA-1,arc-marks; burnt-bus\nA-2,fine\n")) ==
        Lines{"2:16: /boxes/0/seen/1/what: found text \"burnt-bus\" in row 2, column seen, expected; did you "
              "mean \"burned-bus\"?",
              "3:5: /boxes/1/seen/0/what: found text \"fine\" in row 3, column seen, expected"});
}

TEST_CASE("of very many problems the first fifty by place are shown, and all are counted") {
  std::string text = "seen,fuse_a,id\n";
  for (int i = 0; i < 1000; ++i) text += fmt::format("nothing,x,A-{}\n", i);
  const Document document{"visit.csv", text};
  try {
    read_field_record(document);
    FAIL("read without a word");
  } catch (const InputError& e) {
    CHECK(e.total() == 2000);
    REQUIRE(e.problems().size() == 50);
    for (std::uint32_t i = 0; i < 50; ++i) {  // two a row, from the second row on
      CHECK(e.problems()[i].line == 2 + i / 2);
      CHECK(e.problems()[i].column == (i % 2 == 0 ? 1 : 9));
    }
  }
}

TEST_CASE("a record cut short anywhere is read or refused, never anything else") {
  const std::string whole =
      "\xEF\xBB\xBFid,series,fuse_a,seen\r\n\"A \"\"é\"\"\",18;19,20.5,arc-marks\r\nA-2,\"18;\r\n18\",20,\r\n";
  REQUIRE(csv_problems(whole).empty());
  std::size_t read = 0;
  for (std::size_t size = 0; size < whole.size(); ++size)
    if (csv_problems(whole.substr(0, size)).empty()) ++read;
  CHECK(read > 0);
  CHECK(read < whole.size());
}
