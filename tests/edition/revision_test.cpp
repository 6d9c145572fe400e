// The revision of the data: another one for any change of any edition, and the same for the same.
#include "src/edition/revision.hpp"

#include <cctype>
#include <set>

#include "boxproof/edition.hpp"
#include "boxproof/report.hpp"
#include "src/edition/embedded.hpp"
#include "tests/support/catch.hpp"

using namespace boxproof;

namespace {

using Files = std::vector<std::pair<std::string, std::string>>;

std::string revision(const Files& files) {
  std::vector<std::pair<std::string, std::string_view>> views;
  for (const auto& [name, text] : files) views.emplace_back(name, text);
  return revision_of(views);
}

Files editions() {
  Files out{{"editions/base.json", std::string(embedded("editions/base.json"))}};
  for (const std::string_view name : edition_names) {
    const std::string path = "editions/" + std::string(name) + ".json";
    out.emplace_back(path, embedded(path));
  }
  return out;
}

}  // namespace

TEST_CASE("the revision of the data is that of all editions, in 16 digits") {
  // No digits of it stand here: the numbers of the data are pinned one by one, each by the test that knows
  // its source, and this test is to pass on changed data.
  CHECK(data_revision() == revision(editions()));
  CHECK(data_revision() == data_revision());
  CHECK(data_revision().size() == 16);
  CHECK(data_revision().find_first_not_of("0123456789abcdef") == std::string::npos);
}

TEST_CASE("one digit of one edition makes another revision") {
  std::set<std::string> all{revision(editions())};
  for (std::size_t i = 0; i < editions().size(); ++i) {
    Files files = editions();
    std::string& text = files[i].second;
    const auto digit = text.find_first_of("012345678");
    REQUIRE(digit != std::string::npos);
    ++text[digit];
    CHECK(all.insert(revision(files)).second);
    text.pop_back();
    CHECK(all.insert(revision(files)).second);
  }
  CHECK(all.size() == 2 * editions().size() + 1);
}

TEST_CASE("a text that goes over into the next file makes another revision") {
  CHECK(revision({{"a", "12"}, {"b", "3"}}) != revision({{"a", "1"}, {"b", "23"}}));
  CHECK(revision({{"a", "12"}, {"b", ""}}) != revision({{"a", ""}, {"b", "12"}}));
  CHECK(revision({{"ab", "1"}}) != revision({{"a", "b1"}}));
  // FNV-1a of nothing is its offset basis (Fowler, Noll, Vo: 64 bits).
  CHECK(revision({}) == "cbf29ce484222325");
}
