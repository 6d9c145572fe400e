// The design that the rules' tests change one thing in is sound under every edition: whatever a test finds,
// it planted.
#include "tests/support/catch.hpp"
#include "tests/support/judge.hpp"

TEST_CASE("the sound design gives no finding in any edition") {
  for (std::string_view edition : boxproof::edition_names) {
    CAPTURE(std::string(edition));
    const auto judged = boxproof::test::judge(boxproof::test::sound_design(), edition);
    CHECK(judged->summary() == std::vector<std::string>{});
    CHECK(judged->judgement.verdict == boxproof::Verdict::accept);
  }
}
