// Combiner schedules that cannot be read: all that is said, and where.
#include <fmt/format.h>

#include "src/draft/read_schedule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/drafted.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Lines = std::vector<std::string>;

struct Bad {
  std::string_view what;
  std::string text;
  Lines lines;
};

void check_all(const std::vector<Bad>& table) {
  for (const Bad& bad : table) {
    CAPTURE(std::string(bad.what));
    CHECK(schedule_problems(bad.text) == bad.lines);
  }
}

const std::string a_number =
    ", expected a number; write digits, a decimal point where one is needed, and no unit";

}  // namespace

TEST_CASE("a schedule that has nothing wrong in it is read") {
  CHECK(schedule_problems("id,inverter,module,series\nA,I,M,18\n").empty());
  CHECK(schedule_problems("series,module,inverter,id,,\r\n18,M,I,A,,\r\n,,,,,\r\n").empty());
}

TEST_CASE("schedules that are no CSV, or hold nothing") {
  const std::string separator =
      "found the separator {}, expected ,; save the file with commas between the cells and decimal points in "
      "numbers";
  check_all({
      {"empty",
       "",
       {"1:1: found an empty file, expected a row with the names of columns; boxproof draft --columns lists them"}},
      {"blank rows",
       "\n,,\n",
       {"1:1: found an empty file, expected a row with the names of columns; boxproof draft --columns lists them"}},
      {"the header alone",
       "id,inverter,module,series\n",
       {"2:1: found no row below the names of the columns, expected at least one combiner box"}},
      {"semicolons and decimal commas",
       "id;inverter;module;series\nA;I;M;18\n",
       {"1:3: " + fmt::format(fmt::runtime(separator), ";")}},
      {"tabs", "id\tinverter\tmodule\tseries\n", {"1:3: " + fmt::format(fmt::runtime(separator), "tab")}},
      {"UTF-16",
       std::string("\xFF\xFEi\0d\0", 6),
       {"1:1: found text in UTF-16, expected UTF-8; save the file as CSV in UTF-8"}},
      {"JSON",
       "{ }\n",
       {"1:1: found the column \"{ }\", which is not known here; boxproof draft --columns lists them",
        "1:1: found no column \"id\" in the first row, expected it; it is required",
        "1:1: found no column \"inverter\" in the first row, expected it; it is required",
        "1:1: found no column \"module\" in the first row, expected it; it is required",
        "1:1: found no column \"series\" in the first row, expected it; it is required"}},
      {"a byte that is no UTF-8",
       "id,inverter,module,series\nB\xFC,I,M,18\n",
       {"2:2: found the byte 0xFC in row 2, expected text in UTF-8; save the file as CSV in UTF-8"}},
      {"a quote that is not closed",
       "id,inverter,module,series\n\"A,I,M,18\n",
       {"2:1: found a quote that is not closed in row 2, expected another one at the end of the cell"}},
  });
}

TEST_CASE("columns of a schedule") {
  check_all({
      {"misspelt, unknown and twice; the cells are still read",
       "id,inverter,module,series,fuse a,sheets,colour,sheet,sheet\nA,I,M,x,20,1,red,,\n",
       {"1:27: found the column \"fuse a\", which is not known here; did you mean \"fuse_a\"?; boxproof draft --columns lists them",
        "1:34: found the column \"sheets\", which is not known here; did you mean \"sheet\"?; boxproof draft --columns lists them",
        "1:41: found the column \"colour\", which is not known here; boxproof draft --columns lists them",
        "1:54: found the column \"sheet\" a second time (first at line 1, column 48), expected each column once; remove one of the two",
        "2:7: /combiners/0/circuits/0/series: found text \"x\" in row 2, column series" + a_number}},
      {"required ones that are missing: no row can be understood",
       "id,strings\nA,x\n",
       {"1:1: found no column \"inverter\" in the first row, expected it; it is required",
        "1:1: found no column \"module\" in the first row, expected it; it is required",
        "1:1: found no column \"series\" in the first row, expected it; it is required"}},
      {"a row of another length",
       "id,inverter,module,series\nA,I,M\nB,I,M,18,1\nC,I,M,18\n",
       {"2:1: found 3 cells in row 2, expected 4 as in the first row; put quotes around a cell that holds a comma",
        "3:1: found 5 cells in row 3, expected 4 as in the first row; put quotes around a cell that holds a comma"}},
      {"below no name",
       "id,inverter,module,series,\nA,I,M,18,note\n",
       {"2:10: found text \"note\" in row 2, expected nothing in a column without a name"}},
  });
}

TEST_CASE("cells that hold no such value, each at its place") {
  check_all({
      {"numbers, counts, words, sizes, ranges",
       "id,inverter,module,series,strings,strings_per_fuse,fuse_a,fuse_dc,mounting_place,egc_size,run_terminal_c,output_length_m\n"
       "A,I,M,18.5,0,1,-3,yes,Roof,9 AWG,80,\"1,5\"\n"
       "B,I,M,0,8,3,20 A,1,rof,10AWG,75,inf\n",
       {"2:7: /combiners/0/circuits/0/series: found 18.5 in row 2, column series, expected a whole number of at least 1; check the count",
        "2:12: /combiners/0/circuits/0/strings: found 0 in row 2, column strings, expected a whole number of at least 1; check the count",
        "2:16: /combiners/0/fuse/a: found -3 in row 2, column fuse_a, expected a number of amperes above 0; check the unit and the decimal point",
        "2:19: /combiners/0/fuse/dc: found text \"yes\" in row 2, column fuse_dc, expected true or false; leave the cell empty where it is not stated",
        "2:23: /combiners/0/mounting/place: found text \"Roof\" in row 2, column mounting_place, expected one of \"roof\", \"wall\", \"ground\", \"indoor\"; did you mean \"roof\"?",
        "2:28: /combiners/0/egc/size: found text \"9 AWG\" in row 2, column egc_size, expected one of \"14 AWG\", \"12 AWG\", \"10 AWG\", \"8 AWG\", \"6 AWG\", \"4 AWG\", \"3 AWG\", \"2 AWG\", \"1 AWG\", \"1/0 AWG\", \"2/0 AWG\", \"3/0 AWG\", \"4/0 AWG\", \"250 kcmil\", \"300 kcmil\", \"350 kcmil\", \"400 kcmil\", \"500 kcmil\", \"600 kcmil\", \"700 kcmil\", \"750 kcmil\", \"800 kcmil\", \"900 kcmil\", \"1000 kcmil\"; did you mean \"8 AWG\"?",
        "2:34: /combiners/0/circuits/0/run/terminal_c: found 80 in row 2, column run_terminal_c, expected 60, 75 or 90",
        "2:37: /combiners/0/output/run/length_m: found text \"1,5\" in row 2, column output_length_m" +
            a_number,
        "3:7: /combiners/1/circuits/0/series: found 0 in row 3, column series, expected a whole number of at least 1; check the count",
        "3:11: /combiners/1/circuits/0/strings_per_fuse: found 3 strings to a fuse for 8 strings in row 3, column strings_per_fuse, expected a number that divides them; state the odd fuse as a circuit of its own",
        "3:13: /combiners/1/fuse/a: found text \"20 A\" in row 3, column fuse_a" + a_number,
        "3:18: /combiners/1/fuse/dc: found text \"1\" in row 3, column fuse_dc, expected true or false; leave the cell empty where it is not stated",
        "3:20: /combiners/1/mounting/place: found text \"rof\" in row 3, column mounting_place, expected one of \"roof\", \"wall\", \"ground\", \"indoor\"; did you mean \"roof\"?",
        "3:24: /combiners/1/egc/size: found text \"10AWG\" in row 3, column egc_size, expected one of \"14 AWG\", \"12 AWG\", \"10 AWG\", \"8 AWG\", \"6 AWG\", \"4 AWG\", \"3 AWG\", \"2 AWG\", \"1 AWG\", \"1/0 AWG\", \"2/0 AWG\", \"3/0 AWG\", \"4/0 AWG\", \"250 kcmil\", \"300 kcmil\", \"350 kcmil\", \"400 kcmil\", \"500 kcmil\", \"600 kcmil\", \"700 kcmil\", \"750 kcmil\", \"800 kcmil\", \"900 kcmil\", \"1000 kcmil\"; did you mean \"10 AWG\"?",
        "3:33: /combiners/1/output/run/length_m: found text \"inf\" in row 3, column output_length_m" +
            a_number}},
      {"ids that the site does not have",
       "id,inverter,module,series,run_conductor,output_conductor\nA,Q,Modul,18,strng,feder\n",
       {"2:3: /combiners/0/inverter: found the id \"Q\", which is not in /inverters in row 2, column inverter, expected an id from there; did you mean \"I\"?",
        "2:5: /combiners/0/circuits/0/module: found the id \"Modul\", which is not in /modules in row 2, column module, expected an id from there",
        "2:14: /combiners/0/circuits/0/run/conductor: found the id \"strng\", which is not in /conductors in row 2, column run_conductor, expected an id from there; did you mean \"string\"?",
        "2:20: /combiners/0/output/run/conductor: found the id \"feder\", which is not in /conductors in row 2, column output_conductor, expected an id from there; did you mean \"feeder\"?"}},
      {"labels",
       "id,inverter,module,series,labels\nA,I,M,18,disconnect; max-volt(max_v=1); directory\nB,I,M,18,disconnect(max_v=1\nC,I,M,18,\"disconnect; directory(a=x\"\"y)\"\n",
       {"2:22: /combiners/0/labels/1/kind: found text \"max-volt\" in row 2, column labels, expected one of \"box-identification\", \"max-voltage\", \"dc-power-source\", \"shock-both-sides\", \"raceway-power-source\", \"ground-fault\", \"ungrounded-system\", \"rapid-shutdown\", \"disconnect\", \"directory\"; did you mean \"max-voltage\"?",
        "3:28: /combiners/1/labels: found the end of the cell in row 3, column labels, expected , or ) behind a value",
        "4:10: /combiners/2/labels: found \"x\"y\" in row 4, column labels, expected a number, or a text in single quotes"}},
      {"a type that no design can have",
       "id,type,inverter,module,series\nA,note,I,M,18\n",
       {"2:3: /combiners/0/type: found the type \"note\" in row 2, column type, expected another name: in a design file it is a remark"}},
  });
}

TEST_CASE("what each row or each box must state") {
  check_all({
      {"nothing but a sheet",
       "id,inverter,module,series,sheet\n,,,,E-1\n",
       {"2:1: /combiners/0/id: found an empty cell in row 2, column id, expected the id of the box; it is required in each of its rows",
        "2:2: /combiners/0/inverter: found an empty cell in row 2, column inverter, expected the id of the inverter that the box feeds; it is required",
        "2:3: /combiners/0/circuits/0/module: found an empty cell in row 2, column module, expected the id of a module; it is required in each row",
        "2:4: /combiners/0/circuits/0/series: found an empty cell in row 2, column series, expected the number of modules in each string; it is required in each row"}},
      {"merged cells of a spreadsheet: the id in the first row only",
       "id,inverter,module,series\nA,I,M,18\n,,M,17\n",
       {"3:1: /combiners/1/id: found an empty cell in row 3, column id, expected the id of the box; it is required in each of its rows",
        "3:2: /combiners/1/inverter: found an empty cell in row 3, column inverter, expected the id of the inverter that the box feeds; it is required"}},
      {"a cell that is broken is not empty",
       "id,inverter,module,series\nA\"1,I\"I,M\"1,1\"8\n",
       {"2:2: found a quote in the middle of a cell in row 2, expected quotes around the whole of it; write a quote that belongs to the text twice",
        "2:6: found a quote in the middle of a cell in row 2, expected quotes around the whole of it; write a quote that belongs to the text twice",
        "2:10: found a quote in the middle of a cell in row 2, expected quotes around the whole of it; write a quote that belongs to the text twice",
        "2:14: found a quote in the middle of a cell in row 2, expected quotes around the whole of it; write a quote that belongs to the text twice"}},
  });
}

TEST_CASE("several rows of one box") {
  check_all({
      {"they must agree, whichever of them states a value",
       "id,inverter,module,series,sheet,fuse_a,labels,fuse_dc\n"
       "A,I,M,18,,20,none,true\n"
       "A,J,M,17,E-1,20.0,disconnect,\n"
       "A,I,M,16,E-2,25,none,TRUE\n",
       {"3:3: /combiners/0/inverter: found \"J\" in row 3, column inverter, expected an empty cell, or \"I\" as in row 2: both rows are of one box",
        "3:19: /combiners/0/labels: found \"disconnect\" in row 3, column labels, expected an empty cell, or \"none\" as in row 2: both rows are of one box",
        "4:10: /combiners/0/sheet: found \"E-2\" in row 4, column sheet, expected an empty cell, or \"E-1\" as in row 3: both rows are of one box",
        "4:14: /combiners/0/fuse/a: found 25 in row 4, column fuse_a, expected an empty cell, or 20 as in row 2: both rows are of one box"}},
      {"not together",
       "id,inverter,module,series\nA,I,M,18\nB,I,M,18\nA,I,M,17\nA,,M,16\n",
       {"4:1: /combiners/2/id: found the id \"A\" a second time (first in row 2) in row 4, column id, expected the rows of one box together; correct the id, or move its rows together"}},
      {"the same circuit twice, with an id and without",
       "id,inverter,circuit_id,module,series\nA,I,x,M,18\nA,,x,M,17\nB,I,,M,18\nB,,,M,18\nC,I,2,M,18\nC,,,M,17\n",
       {"3:4: /combiners/0/circuits/1: found the circuit id \"x\" a second time in this box in row 3, column circuit_id, expected each once",
        "5:5: /combiners/1/circuits/1/module: found the same circuit as in row 4 in row 5, column module, expected another one; state all its strings in one row, or give each circuit a circuit_id",
        "7:5: /combiners/2/circuits/1: found the circuit id \"2\" a second time in this box in row 7, column module, expected each once"}},
      {"a part that there is not, and what is said of it",
       "id,inverter,module,series,fuse,fuse_a,fuse_v,output,output_run,output_length_m,run,run_length_m\n"
       "A,I,M,18,false,20,1000,false,true,,false,10\n"
       "B,I,M,18,,20,,,false,7,,\n"
       "B,,M,17,false,,,,,,true,\n",
       {"2:16: /combiners/0/fuse/a: found 20 in row 2, column fuse_a, expected an empty cell, as column fuse says false",
        "2:30: /combiners/0/output/run: found true in row 2, column output_run, expected an empty cell, as column output says false",
        "2:42: /combiners/0/circuits/0/run/length_m: found 10 in row 2, column run_length_m, expected an empty cell, as column run says false",
        "3:11: /combiners/1/fuse/a: found 20 in row 3, column fuse_a, expected an empty cell, as column fuse says false",
        "3:22: /combiners/1/output/run/length_m: found 7 in row 3, column output_length_m, expected an empty cell, as column output_run says false"}},
  });
}

TEST_CASE("of very many problems of a schedule the first fifty are shown, and all are counted") {
  std::string text = "id,inverter,module,series,fuse_a\n";
  for (int i = 0; i < 1000; ++i) text += fmt::format("A-{},Q{},M,18,x\n", i, i);
  const Document site{"site.json", small_site()}, schedule{"boxes.csv", text};
  try {
    draft::read_schedule(schedule, read_site(site));
    FAIL("read without a word");
  } catch (const InputError& e) {
    CHECK(e.total() == 2000);
    REQUIRE(e.problems().size() == 50);
    for (std::uint32_t i = 0; i < 50; ++i) CHECK(e.problems()[i].line == 2 + i / 2);
  }
}

TEST_CASE("a schedule cut short anywhere is read or refused, never anything else") {
  const std::string whole =
      "\xEF\xBB\xBFid,inverter,module,series,location,labels,fuse\r\n\"'-A \"\"é\"\"\",I,M,18,\"x,\r\ny\","
      "\"max-voltage(max_v=1, 'a b'='c''d'); disconnect\",true\r\nB,I,M,17,,none,\r\n";
  REQUIRE(schedule_problems(whole).empty());
  std::size_t read = 0;
  for (std::size_t size = 0; size < whole.size(); ++size)
    if (schedule_problems(whole.substr(0, size)).empty()) ++read;
  CHECK(read > 0);
  CHECK(read < whole.size());
}
