// The values of a field record in CSV are found with the bytes of their cells.
#include <fmt/format.h>

#include "src/read/field_csv.hpp"
#include "src/read/source_map.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/random_json.hpp"
#include "tests/support/region.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

Region region_of(const read::SourceMap::Found& found) {
  return {found.at.line, found.at.column, found.end.line, found.end.column};
}

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? "\"\"" : std::string(1, c);
  return out + "\"";
}

// Cells as spreadsheets and people write them: with and without quotes, with spaces around.
class RandomCsv {
 public:
  explicit RandomCsv(std::uint32_t seed) : random_(seed) {}

  std::string text() {
    const std::string end = random_.below(2) == 0 ? "\n" : "\r\n";
    std::string out = random_.below(2) == 0 ? "\xEF\xBB\xBF" : "";
    out += "id,positive,negative,fuses,series,fuse_a,fuse_dc,posted_id,posted_strings,seen" + end;
    const std::size_t rows = 1 + random_.below(5);
    for (std::size_t i = 0; i < rows; ++i) {
      if (random_.below(5) == 0) out += ",,,,,,,,," + end;  // nothing in it
      out += id(i) + "," + cell(number()) + "," + cell(number()) + "," + cell("") + "," + cell(series()) +
             "," + cell(number()) + "," + cell(random_.below(2) == 0 ? "true" : "") + "," + id(i + 50) + "," +
             cell(number()) + "," + cell(seen());
      if (i + 1 < rows || random_.below(2) == 0) out += end;
    }
    return out;
  }

 private:
  std::string number() { return random_.below(5) == 0 ? "" : std::to_string(1 + random_.below(30)); }
  std::string series() {
    if (random_.below(3) == 0) return number();
    std::string out = std::to_string(1 + random_.below(20));
    for (std::size_t n = random_.below(4); n-- > 0;) out += "; " + std::to_string(1 + random_.below(20));
    return out;
  }
  std::string seen() {
    static constexpr const char* cells[] = {"", "none", "water-inside", "water-inside; arc-marks",
                                            "arc-marks;burned-bus ; debris-inside;"};
    return cells[random_.below(5)];
  }
  std::string cell(const std::string& text) {
    switch (random_.below(4)) {
      case 0: return quoted(text);
      case 1: return " " + text + "\t";
      default: return text;
    }
  }
  std::string id(std::size_t i) {
    static constexpr const char* ids[] = {"A",  "Größe ",      "𝟙, ",          "A \"x\" ",
                                          "'-", "two\nlines ", "two\r\nlines "};
    const std::string text = ids[random_.below(7)] + std::to_string(i);
    const bool must = text.find_first_of(",\"\n") != std::string::npos;
    return must || random_.below(2) == 0 ? quoted(text) : text;
  }

  RandomJson random_;
};

// What a program for spreadsheets reads out of the cell; of one that goes on below only the first line is
// left.
std::string decoded(std::string cell) {
  if (!cell.starts_with('"')) return cell;
  const bool closed = cell.size() > 1 && cell.ends_with('"');
  cell = cell.substr(1, cell.size() - (closed ? 2 : 1));
  for (auto at = cell.find('"'); at != std::string::npos; at = cell.find('"', at + 1)) cell.erase(at, 1);
  return cell;
}

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t");
  return first == std::string::npos ? "" : text.substr(first, text.find_last_not_of(" \t") + 1 - first);
}

void check_value(const std::string& cell, const std::string& pointer, const Json& value) {
  CAPTURE(cell, pointer, value.dump());
  if (value.is_number()) {
    CHECK(trimmed(decoded(cell)) == value.dump());
  } else if (value.is_boolean()) {
    CHECK(trimmed(decoded(cell)) == (value.get<bool>() ? "true" : "false"));
  } else if (pointer.ends_with("/what")) {
    CHECK(cell == value.get<std::string>());
  } else {
    std::string text = value.get<std::string>();
    if (text.starts_with('-')) text = "'" + text;
    CHECK(decoded(cell) == text.substr(0, text.find_first_of("\r\n")));
  }
}

}  // namespace

TEST_CASE("a value in CSV has the bytes of its cell") {
  std::size_t looked_at = 0, lists = 0;
  for (std::uint32_t seed = 1; seed <= 150; ++seed) {
    const std::string text = RandomCsv(seed).text();
    CAPTURE(text);
    const Document document{"visit.csv", text};
    const RecordFile file = read_field_record(document);
    read::Problems problems("visit.csv", text);
    const Json made = Json::parse(read::json_of_field_csv(text, problems)->text);
    for (const auto& [pointer, value] : all_values(made)) {
      if (pointer == "/format" || pointer == "/boxes") continue;
      const auto found = file.places->find(pointer);
      REQUIRE(found.pointer == pointer);
      CHECK(found.stated);
      const std::string cell = cut(text, region_of(found));
      CHECK(found.at.line == found.end.line);
      CHECK_FALSE(cell.empty());
      ++looked_at;
      if (!value.is_structured()) {
        check_value(cell, pointer, value);
      } else if (value.is_array()) {
        ++lists;
        std::string whole = decoded(cell);
        if (value.empty()) CHECK(trimmed(whole) == "none");
        for (const Json& one : value)
          CHECK(whole.find(one.is_object() ? one["what"].get<std::string>() : one.dump()) !=
                std::string::npos);
      } else if (pointer.find('/', 7) == std::string::npos) {  // a box, told at its id
        check_value(cell, pointer, value["id"]);
      }
    }
  }
  CHECK(looked_at > 3'000);
  CHECK(lists > 200);
}

TEST_CASE("the bytes of some cells") {
  const std::string sound =
      "id,series,seen,posted_id\r\n"
      "\"A, 1\", 18;17 ;16,water-inside; arc-marks ,\"two\r\nlines\"\r\n"
      "A-2,\"18; 17\",none,'=1\r\n";
  const Document document{"visit.csv", sound};
  const RecordFile file = read_field_record(document);
  const auto bytes = [&](const char* pointer) { return cut(sound, region_of(file.places->find(pointer))); };
  CHECK(bytes("/boxes/0") == "\"A, 1\"");
  CHECK(bytes("/boxes/0/id") == "\"A, 1\"");
  CHECK(bytes("/boxes/0/count") == "18;17 ;16");
  CHECK(bytes("/boxes/0/count/series") == "18;17 ;16");
  CHECK(bytes("/boxes/0/count/series/1") == "17");
  CHECK(bytes("/boxes/0/seen") == "water-inside; arc-marks");
  CHECK(bytes("/boxes/0/seen/1") == "arc-marks");
  CHECK(bytes("/boxes/0/posted/id") == "\"two");
  CHECK(bytes("/boxes/1/count/series") == "\"18; 17\"");
  CHECK(bytes("/boxes/1/count/series/1") == "17");
  CHECK(bytes("/boxes/1/seen") == "none");
  CHECK(bytes("/boxes/1/posted/id") == "'=1");
  CHECK(bytes("/boxes") == "id,series,seen,posted_id");
  CHECK_FALSE(file.places->find("/boxes/1/fuse/a").stated);
}
