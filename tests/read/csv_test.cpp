// Rows and cells of CSV texts after RFC 4180, with the place of each cell.
#include "src/read/csv.hpp"

#include <fmt/format.h>

#include "src/text/place.hpp"
#include "src/text/utf8.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;
using read::Cell;
using read::CsvRows;

namespace {

using Lines = std::vector<std::string>;

// Each cell as "row line:column <text>".
Lines cells_of(std::string_view source) {
  read::Problems problems("x.csv", source);
  CsvRows rows(source, problems);
  Lines out;
  while (rows.next())
    for (const Cell& cell : rows.cells()) {
      const text::LineColumn at = text::line_column(source, cell.offset);
      out.push_back(fmt::format("{} {}:{} <{}>", rows.row(), at.line, at.column, cell.text));
    }
  CHECK_FALSE(problems.any());
  return out;
}

}  // namespace

TEST_CASE("cells and their places, as RFC 4180 section 2 writes them") {
  const Lines three{"1 1:1 <aaa>", "1 1:5 <bbb>", "2 2:1 <zzz>", "2 2:5 <yyy>"};
  CHECK(cells_of("aaa,bbb\r\nzzz,yyy\r\n") == three);
  CHECK(cells_of("aaa,bbb\r\nzzz,yyy") == three);  // rule 2: the last line end may be missing
  CHECK(cells_of("aaa,bbb\nzzz,yyy\n") == three);
  CHECK(cells_of("\"aaa\",\"bbb\"\r\nzzz,yyy") ==
        Lines{"1 1:1 <aaa>", "1 1:7 <bbb>", "2 2:1 <zzz>", "2 2:5 <yyy>"});
  // rule 6: a line end within quotes; the row behind it is the second, on the third line
  CHECK(cells_of("\"aaa\",\"b\r\nbb\"\r\nzzz,yyy") ==
        Lines{"1 1:1 <aaa>", "1 1:7 <b\r\nbb>", "2 3:1 <zzz>", "2 3:5 <yyy>"});
  CHECK(cells_of("\"aaa\",\"b\"\"bb\"") == Lines{"1 1:1 <aaa>", "1 1:7 <b\"bb>"});  // rule 7
  CHECK(cells_of("\"\"\"\",\"\"\"a\"\"\"") == Lines{"1 1:1 <\">", "1 1:6 <\"a\">"});
}

TEST_CASE("empty cells, empty rows and the end of the text") {
  CHECK(cells_of("").empty());
  CHECK(cells_of("\n\r\n\n").empty());
  CHECK(cells_of("\xEF\xBB\xBF").empty());
  CHECK(cells_of(",a,") == Lines{"1 1:1 <>", "1 1:2 <a>", "1 1:4 <>"});
  CHECK(cells_of("a,\"\"\n") == Lines{"1 1:1 <a>", "1 1:3 <>"});
  // Rows of nothing but empty cells are passed over, and counted.
  CHECK(cells_of("a\n\n,,\n \t\n\"\"\nb\n\n") == Lines{"1 1:1 <a>", "6 6:1 <b>"});
}

TEST_CASE("spaces around an unquoted cell are no part of it, within quotes they are") {
  CHECK(cells_of(" a b ,\t7 ,  ") == Lines{"1 1:2 <a b>", "1 1:8 <7>", "1 1:11 <>"});
  CHECK(cells_of("\" a \"") == Lines{"1 1:1 < a >"});
}

TEST_CASE("columns are counted in code points, without the byte-order mark") {
  CHECK(cells_of("\xEF\xBB\xBFid,b") == Lines{"1 1:1 <id>", "1 1:4 <b>"});
  CHECK(cells_of("é€𝄞,b") == Lines{"1 1:1 <é€𝄞>", "1 1:5 <b>"});
}

TEST_CASE("the place of a part of a cell") {
  const std::string_view source = "a,\"18;19\",\"1\"\"8;19\"\n";
  read::Problems problems("x.csv", source);
  CsvRows rows(source, problems);
  REQUIRE(rows.next());
  const Cell plain = rows.cells()[1], decoded = rows.cells()[2];
  CHECK(plain.offset_of(plain.text.substr(3), source) == 6);
  CHECK(decoded.offset_of(decoded.text.substr(4), source) == 10);  // its start: the text stands nowhere
}

TEST_CASE("what is UTF-8") {
  // RFC 3629 section 4: the ends of each range, and what lies just outside.
  for (std::string_view good :
       {"", "a", "\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xEC\xBF\xBF", "\xED\x9F\xBF",
        "\xEE\x80\x80", "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    CAPTURE(std::string(good));
    CHECK(text::invalid_utf8(good) == std::string_view::npos);
  }
  for (std::string_view bad : {"\x80", "\xBF", "\xC0\x80", "\xC1\xBF", "\xC2", "\xC2\x7F", "\xC2\xC0",
                               "\xE0\x9F\xBF", "\xE1\x80", "\xE1\x80\x7F", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
                               "\xF4\x90\x80\x80", "\xF1\x80\x80\xC0", "\xF5\x80\x80\x80", "\xFF"}) {
    CAPTURE(std::string(bad));
    CHECK(text::invalid_utf8(bad) == 0);
    CHECK(text::invalid_utf8("ab€" + std::string(bad)) == 5);
  }
}
