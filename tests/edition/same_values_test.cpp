// Patches that say nothing new: an empty one on the base, an amendment that repeats the edition's own values.
#include <nlohmann/json.hpp>

#include <algorithm>
#include <optional>

#include "src/edition/embedded.hpp"
#include "src/edition/read_edition.hpp"
#include "src/read/object.hpp"
#include "src/read/tree.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge_text.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::uint32_t seeds = 20;

struct NoProblems : read::Sink {
  void problem(std::uint32_t, std::string, std::string message) override { FAIL(message); }
};

// The base, with a patch over it if there is one.
Edition on_base(std::optional<std::string_view> patch_text = {}) {
  const std::string_view base_text = embedded("editions/base.json");
  NoProblems sink;
  const auto base = read::parse_whole(base_text, sink);
  const auto patch = read::parse_whole(patch_text.value_or("{}"), sink);
  read::Problems problems("base.json", base_text);
  const read::Field whole(read::Value(*base, 0));
  Edition out = read::read_edition(patch_text ? read::Field(read::Value(*patch, 0), whole) : whole, problems);
  problems.raise();
  return out;
}

std::vector<std::string> said_under(const Edition& edition, std::uint32_t seed) {
  return said(judge_text(RandomSite(seed).design().dump(1), edition)->findings());
}

// Without what is said of amendments.
std::vector<std::string> plainly(std::vector<std::string> lines) {
  for (std::string& line : lines) line.erase(std::min(line.size(), line.find(" Amended locally: ")));
  return lines;
}

void erase_kinds(Edition& edition, const std::vector<std::string>& kinds) {
  std::erase_if(edition.labels.kinds, [&](const LabelRule& rule) {
    return std::find(kinds.begin(), kinds.end(), rule.kind) != kinds.end();
  });
}

}  // namespace

TEST_CASE("an edition whose patch is empty is its base") {
  const Edition base = on_base(), empty = on_base("{}");
  CHECK(empty.title == base.title);
  CHECK(empty.labels.kinds.size() == base.labels.kinds.size());
  REQUIRE(empty.rules.size() == base.rules.size());
  for (const auto& [id, place] : base.rules) CHECK(empty.rules.find(id)->second.section == place.section);
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    CAPTURE(seed);
    CHECK(differences(said_under(empty, seed), said_under(base, seed)) == no_difference);
  }
}

// The patch of 2017: its own name and title, and four kinds of label that it does not ask for.
TEST_CASE("2017 is the base but for what its patch says") {
  const nlohmann::json patch = nlohmann::json::parse(embedded("editions/2017.json"));
  std::vector<std::string> keys, kinds;
  for (const auto& [key, value] : patch.items()) keys.push_back(key);
  REQUIRE(keys == std::vector<std::string>{"edition", "labels", "title"});
  for (const auto& [kind, value] : patch["labels"]["kinds"].items()) {
    CHECK(value.is_null());
    kinds.push_back(kind);
  }
  Edition base = on_base();
  std::size_t other = 0;
  for (std::uint32_t seed = 1; seed <= seeds; ++seed)
    other += said_under(base, seed) != said_under(edition_of("2017"), seed);
  CHECK(other > 0);  // the labels
  erase_kinds(base, kinds);
  base.name = "2017";
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    CAPTURE(seed);
    CHECK(differences(said_under(base, seed), said_under(edition_of("2017"), seed)) == no_difference);
  }
}

TEST_CASE("an amendment that repeats the edition's own values amends nothing") {
  for (const std::string_view name : edition_names) {
    nlohmann::json own = nlohmann::json::parse(embedded("editions/base.json"));
    own.merge_patch(nlohmann::json::parse(embedded("editions/" + std::string(name) + ".json")));
    const Document document{"local.json", own.dump(1)};
    const Amendments amendments{&document, std::nullopt};
    const Edition repeated = load_edition(name, &amendments);
    CHECK(repeated.amended.empty());
    for (std::uint32_t seed = 1; seed <= seeds / 4; ++seed) {
      const auto judged = judge_text(RandomSite(seed).design().dump(1), repeated);
      CAPTURE(std::string(name), seed);
      CHECK(differences(plainly(said(judged->findings())), said_under(edition_of(name), seed)) ==
            no_difference);
    }
  }
}
