// Words that mean the same, and the names of a dual print.
#include "src/text/words.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof::text;
using Names = std::vector<std::string_view>;

TEST_CASE("the same word in capitals or not") {
  CHECK(same_word("4x", "4X"));
  CHECK(same_word("", ""));
  CHECK_FALSE(same_word("4X", "4"));
  CHECK_FALSE(same_word("4X", "4Y"));
}

TEST_CASE("the names of a print") {
  CHECK(printed_names("PV wire") == Names{"PV wire"});
  CHECK(printed_names("USE-2/RHW-2") == Names{"USE-2", "RHW-2"});
  CHECK(printed_names(" RHW-2 or USE-2, RHH ") == Names{"RHW-2", "USE-2", "RHH"});
  CHECK(printed_names("USE-2/") == Names{"USE-2"});
  CHECK(printed_names("/") == Names{"/"});
  CHECK(printed_names("") == Names{""});
  CHECK(printed_names("cord") == Names{"cord"});  // no "or" inside a word
  CHECK(prints("USE-2/rhw-2", "RHW-2"));
  CHECK_FALSE(prints("USE-2/RHW-2", "RHW"));
}
