// The command tally on the clean example.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/rfc4180.hpp"

namespace boxproof::test {

inline const std::string clean_example = std::string(BOXPROOF_EXAMPLES) + "/saltmarsh.json";

inline Called tally(std::vector<std::string> more) {
  more.insert(more.begin(), {"tally", clean_example});
  return call(more);
}

// Whether the text has the sentence, however it is laid out on lines.
inline bool tells(const std::string& text, std::string_view sentence) {
  std::string flowing;
  for (const char c : text)
    if (c != ' ' && c != '\n')
      flowing += c;
    else if (!flowing.ends_with(' '))
      flowing += ' ';
  return flowing.find(sentence) != std::string::npos;
}

// The ids on a sheet in CSV, in its order.
inline std::vector<std::string> ids_in(const std::string& csv) {
  std::vector<std::string> out;
  for (const Cells& row : read_csv(csv)) out.push_back(row.front());
  REQUIRE_FALSE(out.empty());
  out.erase(out.begin());
  return out;
}
inline std::vector<std::string> ids_of(std::vector<std::string> more) {
  more.insert(more.end(), {"--format", "csv"});
  const Called c = tally(more);
  REQUIRE(c.status == 0);
  return ids_in(c.out);
}

// All of the plan, in its order.
inline std::vector<std::string> all_ids() {
  std::vector<std::string> out;
  const Json design = example_json("saltmarsh.json");
  for (const Json& box : design["combiners"]) out.push_back(box["id"]);
  return out;
}

}  // namespace boxproof::test
