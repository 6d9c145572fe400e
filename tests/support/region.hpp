// Stretches of a file as reports name them: cut out of it by line and column.
#pragma once

#include <cstddef>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/finding.hpp"

namespace boxproof::test {

using Json = nlohmann::json;

// From 1, columns in code points; the end is behind the last one.
struct Region {
  std::size_t line = 0, column = 0, end_line = 0, end_column = 0;
};
Region region_of(const FilePlace& place);
Region region_of(const Json& sarif_region);

// The bytes of the region. Fails the test where the file has no such place.
std::string cut(std::string_view text, const Region& region);

// Checks that the region has the bytes of this value, or of its first line where it has several. What follows
// the region must then be the end of the line, and the text from its start on the value.
void check_region(std::string_view text, const Region& region, const Json& value);

// Pointers to the document's values, each with the value; the document itself is not among them.
std::vector<std::pair<std::string, Json>> all_values(const Json& document);

// The document in every layout that an editor or a program leaves behind: indented, on one line, with tabs,
// with CRLF, with a byte-order mark, with escapes for all that is not ASCII, with odd spaces.
std::vector<std::string> layouts(const Json& document);

}  // namespace boxproof::test
