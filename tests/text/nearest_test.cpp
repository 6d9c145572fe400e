// "Did you mean". Distances are counted by hand: one for a character more, fewer or other, or two neighbours
// swapped.
#include "src/text/nearest.hpp"

#include <array>
#include <tuple>

#include "tests/support/catch.hpp"

using namespace boxproof::text;

namespace {

using Names = std::vector<std::string_view>;

TEST_CASE("Names of any length are held against each other at once") {
  // A full comparison of two names of 100,000 characters takes 10 to the 10th steps: minutes.
  const std::string long_name(100000, 'x'), other = "y" + std::string(99999, 'x'), shorter(99000, 'x');
  const std::vector<std::string_view> candidates{shorter, other, "box"};
  CHECK(nearest(long_name, candidates) == other);
  CHECK(nearest_few(long_name, candidates, 3) == std::vector<std::string_view>{other, shorter, "box"});
}

}  // namespace

TEST_CASE("edit distance") {
  using Row = std::tuple<std::string_view, std::string_view, std::size_t>;
  const std::vector<Row> table{
      {"", "", 0},           {"", "abc", 3},           {"abc", "", 3},      {"abc", "abc", 0},
      {"abc", "abd", 1},     {"abc", "ab", 1},         {"abc", "abcd", 1},  {"abc", "xabc", 1},
      {"abc", "bac", 1},     {"ab", "ba", 1},          {"abcd", "badc", 2}, {"isc_a", "iscc_a", 1},
      {"voc_v", "vco_v", 1}, {"kitten", "sitting", 3}, {"abc", "xyz", 3},   {"A-01", "a-01", 1},
      {"ca", "abc", 3},  // a swapped pair is not edited again: that is what optimal string alignment leaves
                         // out
  };
  for (const auto& [a, b, expected] : table) {
    CAPTURE(std::string(a), std::string(b));
    CHECK(edit_distance(a, b) == expected);
    CHECK(edit_distance(b, a) == expected);
  }
}

TEST_CASE("the nearest name, if it is near enough: a third of the longer one, and one edit always") {
  const Names keys{"strings", "series", "module", "id"};
  CHECK(nearest("string", keys) == "strings");
  CHECK(nearest("sires", keys) == "series");  // 2 of 6
  CHECK(nearest("sire", keys).empty());       // 3 of 6
  CHECK(nearest("ID", keys).empty());         // 2 of 2
  CHECK(nearest("i", keys) == "id");          // 1 is always allowed
  CHECK(nearest("", keys).empty());
  CHECK(nearest("weather", keys).empty());
  CHECK(nearest("strings", keys) == "strings");
  CHECK(nearest("x", Names{}).empty());
}

TEST_CASE("of names equally near the first is taken") {
  CHECK(nearest("b", Names{"a", "c"}) == "a");
  CHECK(nearest("b", Names{"c", "a"}) == "c");
}

TEST_CASE("the nearest few, near or not, nearest first") {
  const Names ids{"A-01", "A-02", "B-01", "A-10"};
  CHECK(nearest_few("A-02", ids, 3) == Names{"A-02", "A-01", "B-01"});  // 0, 1; B-01 and A-10 are 2 off
  CHECK(nearest_few("zzz", ids, 2).size() == 2);
  CHECK(nearest_few("A-01", ids, 9).size() == 4);
  CHECK(nearest_few("A-01", Names{}, 3).empty());
}

TEST_CASE("the sentence") {
  const Names keys{"strings"};
  CHECK(did_you_mean("string", keys) == "; did you mean \"strings\"?");
  CHECK(did_you_mean("weather", keys).empty());
}
