// The text reports of the three examples, byte by byte against a stored copy, so that no change of wording or
// layout goes unseen.
//
// After a change that is meant, run the tests once with the environment variable BOXPROOF_ACCEPT=1: the
// copies in tests/report/expected are written anew, and the difference is there to be read before it is
// committed.
#include <cstdlib>
#include <fstream>

#include "tests/support/catch.hpp"
#include "tests/support/command.hpp"
#include "tests/support/example.hpp"
#include "tests/support/page.hpp"

using namespace boxproof::test;

namespace {

bool accepts() {
  const char* wish = std::getenv("BOXPROOF_ACCEPT");
  return wish != nullptr && std::string_view(wish) == "1";
}

void compare(const std::string& name, const std::string& page) {
  const std::string path = BOXPROOF_SOURCE "/tests/report/expected/" + name + ".txt";
  if (accepts()) {
    std::ofstream out(path, std::ios::binary);
    out << page;
    REQUIRE(out.good());
  }
  const std::string stored = read_file(path);
  const auto is = lines_of(page), was = lines_of(stored);
  for (std::size_t i = 0; i < std::min(is.size(), was.size()); ++i) {
    CAPTURE(name, i + 1);
    REQUIRE(is[i] == was[i]);  // the first line that differs says the most
  }
  CAPTURE(name);
  CHECK(page == stored);
}

}  // namespace

TEST_CASE("the reports of the examples are the stored ones") {
  for (const Example& example : examples)
    compare(std::string(example.name), text_report(*judge_example(example)));
}

TEST_CASE("the arithmetic of the faulty example is the stored one") {
  compare("saltmarsh-faults-work", text_report(*judge_example(examples[1], {{}, true}), {true, false}));
}

TEST_CASE("the screen of one box is the stored one") {
  compare("saltmarsh-visit-box-a-04", box_report(*judge_example(examples[2]), 3));
}

// A topic of three rules shows all the parts of the pages; what the rules say has its own tests.
TEST_CASE("the list and the checklist of a topic are the stored ones") {
  compare("rules-current", call({"rules", "--topic", "current"}).out);
  compare("checklist-current", call({"rules", "--topic", "current", "--format", "markdown"}).out);
}
