// Lines and columns of a text. Every expected value is counted by hand.
#include "src/text/place.hpp"

#include <string>
#include <tuple>
#include <vector>

#include "tests/support/catch.hpp"

using namespace boxproof::text;

namespace {

std::string at(std::string_view text, std::size_t offset) {
  const LineColumn place = line_column(text, static_cast<std::uint32_t>(offset));
  return std::to_string(place.line) + ":" + std::to_string(place.column);
}

}  // namespace

TEST_CASE("lines end with LF, and a CR before it is the last column") {
  using Row = std::tuple<std::string, std::size_t, std::string>;
  const std::vector<Row> table{
      {"", 0, "1:1"},       {"", 5, "1:1"},       {"ab", 0, "1:1"},         {"ab", 1, "1:2"},
      {"ab", 2, "1:3"},     {"ab", 9, "1:3"},     {"a\nb", 1, "1:2"},       {"a\nb", 2, "2:1"},
      {"a\n", 2, "2:1"},    {"a\r\nb", 1, "1:2"}, {"a\r\nb", 2, "1:3"},     {"a\r\nb", 3, "2:1"},
      {"\n\n\n", 2, "3:1"}, {"\r\r", 2, "1:3"},   {"a\nbc\n\nd", 6, "4:1"},
  };
  for (const auto& [text, offset, expected] : table) {
    CAPTURE(text, offset);
    CHECK(at(text, offset) == expected);
  }
}

TEST_CASE("a column is a code point, of one byte or four") {
  // ä 2 bytes, € 3, 🌞 4: offsets 0, 2, 5, 9.
  const std::string text = "ä€🌞x\nä€🌞x";
  REQUIRE(text.size() == 21);
  CHECK(at(text, 0) == "1:1");
  CHECK(at(text, 2) == "1:2");
  CHECK(at(text, 5) == "1:3");
  CHECK(at(text, 9) == "1:4");
  CHECK(at(text, 10) == "1:5");
  CHECK(at(text, 11) == "2:1");
  CHECK(at(text, 20) == "2:4");
  CHECK(at(text, 21) == "2:5");
}

TEST_CASE("a byte-order mark takes no column, and only at the start is it one") {
  const std::string mark = "\xEF\xBB\xBF";
  CHECK(at(mark + "ab", 3) == "1:1");
  CHECK(at(mark + "ab", 4) == "1:2");
  CHECK(at(mark, 0) == "1:1");
  CHECK(at("a\n" + mark + "b", 5) == "2:2");
}

TEST_CASE("a long text, asked for out of order") {
  // 300,000 lines "x\n": more than one block of the index; the offset of line n is 2 (n − 1).
  std::string text;
  for (int i = 0; i < 300'000; ++i) text += "x\n";
  LineIndex index(text);
  for (const std::uint32_t line : {300'000U, 1U, 32'768U, 32'769U, 32'770U, 65'537U, 299'999U, 2U}) {
    const LineColumn place = index.at(2 * (line - 1));
    CHECK(place.line == line);
    CHECK(place.column == 1);
    CHECK(index.at(2 * line - 1).column == 2);
  }
  CHECK(index.at(600'000).line == 300'001);
  CHECK(index.at(4'000'000'000U).line == 300'001);
}

TEST_CASE("a line longer than a block") {
  const std::string text = "a\n" + std::string(200'000, 'b') + "\nc";
  LineIndex index(text);
  CHECK(index.at(200'002).line == 2);
  CHECK(index.at(200'002).column == 200'001);
  CHECK(index.at(200'003).line == 3);
  // The same in characters of two bytes behind a byte-order mark: the n-th (from 0) starts at byte 3 + 2 n.
  std::string wide = "\xEF\xBB\xBF";
  for (int i = 0; i < 100'000; ++i) wide += "ä";
  LineIndex wide_index(wide);
  for (const std::uint32_t n : {99'999U, 0U, 8'190U, 8'191U, 8'192U, 50'000U}) {
    CHECK(wide_index.at(3 + 2 * n).line == 1);
    CHECK(wide_index.at(3 + 2 * n).column == n + 1);
  }
}
