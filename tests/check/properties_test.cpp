// What must hold for any site, tried on random ones: seeds 1 to 40. Every edition, use, kind of module and
// grounding comes up many times, and every optional key is absent now and then.
#include <algorithm>
#include <map>
#include <set>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge_text.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::uint32_t seeds = 40;

std::unique_ptr<Judged> judge_site(const Json& design) {
  return judge_text(design.dump(1), edition_of(design["code"]["edition"].get<std::string>()));
}

// Calls `look` with what is computed of each box.
template <class Look>
void each_box(const Json& json, Look&& look) {
  const Document document{"design.json", json.dump(1)};
  const DesignFile file = read_design(document);
  BoxFacts facts;
  for (std::size_t i = 0; i < file.design.combiners.size(); ++i) {
    box_facts(file.design, file.design.combiners[i], edition_of(file.design.edition), facts);
    look(i, facts);
  }
}

// In-use ampacities of all runs of the site, where they are known.
std::map<std::string, Amps> ampacities(const Json& design) {
  std::map<std::string, Amps> out;
  each_box(design, [&](std::size_t, const BoxFacts& facts) {
    const std::string id = facts.box->id;
    if (facts.output_run.in_use) out[id + " output"] = *facts.output_run.in_use;
    for (const CircuitFacts& f : facts.circuits)
      if (f.run.in_use) out[id + " " + f.circuit->id] = *f.run.in_use;
  });
  return out;
}

std::set<std::string> parts_of(const Judged& judged, std::string_view rule) {
  std::set<std::string> out;
  for (const Finding& f : judged.findings())
    if (f.rule->id == rule && !f.lacking) out.insert(f.box_id + " " + f.part);
  return out;
}

}  // namespace

TEST_CASE("random sites: more cold never lowers the highest voltage of a box", "[slow]") {
  std::size_t compared = 0;
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    Json design = RandomSite(seed).design();
    std::map<std::size_t, Volts> warmer;
    for (const int low : {30, 20, 5, -9, -22, -40}) {
      design["site"]["low_c"] = low;
      each_box(design, [&](std::size_t i, const BoxFacts& facts) {
        if (!facts.max_voltage || !facts.every_voltage_known) return;
        CAPTURE(seed, low, i);
        CHECK(*facts.max_voltage >= warmer[i]);
        compared += warmer[i] > Volts(0);
        warmer[i] = *facts.max_voltage;
      });
    }
  }
  CHECK(compared > 400);
}

TEST_CASE("random sites: a larger fuse never turns up another fuse/too-small", "[slow]") {
  std::size_t gone = 0;
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    Json design = with_types_resolved(RandomSite(seed).design());
    std::set<std::string> smaller;
    for (const int rating : {8, 10, 15, 20, 33}) {
      for (Json& box : design["combiners"])
        if (box.contains("fuse")) box["fuse"]["a"] = rating;
      const std::set<std::string> now = parts_of(*judge_site(design), "fuse/too-small");
      CAPTURE(seed, rating, now, smaller);
      if (rating > 8) CHECK(std::includes(smaller.begin(), smaller.end(), now.begin(), now.end()));
      if (rating > 8) gone += smaller.size() - now.size();
      smaller = now;
    }
  }
  CHECK(gone > 100);
}

TEST_CASE("random sites: a hotter site or roof never raises an ampacity", "[slow]") {
  std::size_t lower = 0;
  const auto compare = [&](const std::map<std::string, Amps>& cooler,
                           const std::map<std::string, Amps>& hotter) {
    for (const auto& [run, in_use] : hotter) {
      CAPTURE(run);
      const auto before = cooler.find(run);
      REQUIRE(before != cooler.end());
      CHECK(in_use <= before->second);
      lower += in_use < before->second;
    }
  };
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    CAPTURE(seed);
    Json design = with_types_resolved(RandomSite(seed).design());
    design["site"]["high_c"] = 10;
    auto cooler = ampacities(design);
    for (const int high : {26, 31, 45, 59}) {
      design["site"]["high_c"] = high;
      auto hotter = ampacities(design);
      compare(cooler, hotter);
      cooler = std::move(hotter);
    }
    design["site"]["high_c"] = 36;
    for (const double height : {2000.0, 901.0, 500.0, 100.0, 19.0, 13.0, 0.0}) {  // nearer to the roof
      for (Json& box : design["combiners"]) {
        for (Json& circuit : box["circuits"])
          if (circuit.contains("run")) circuit["run"]["above_roof_mm"] = height;
        if (box.contains("output") && box["output"].contains("run"))
          box["output"]["run"]["above_roof_mm"] = height;
      }
      auto hotter = ampacities(design);
      if (height < 2000) compare(cooler, hotter);
      cooler = std::move(hotter);
    }
  }
  CHECK(lower > 500);
}

TEST_CASE("random sites: the order of the boxes changes nothing that is said", "[slow]") {
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    RandomSite random(seed);
    Json design = random.design();
    const auto before = judge_site(design);
    random.shuffle(design["combiners"]);
    CAPTURE(seed);
    CHECK(differences(said(judge_site(design)->findings()), said(before->findings())) == no_difference);
  }
}

TEST_CASE("random sites: the order of keys changes nothing that is said", "[slow]") {
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    RandomSite random(seed);
    const Json design = random.design();
    const auto before = judge_site(design);
    CAPTURE(seed);
    CHECK(differences(said(judge_text(random.any_order(design), before->edition)->findings()),
                      said(before->findings())) == no_difference);
  }
}

TEST_CASE("random sites: a box type and its boxes written out say the same", "[slow]") {
  std::size_t typed = 0;
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    const Json design = RandomSite(seed).design();
    for (const Json& box : design["combiners"]) typed += box.contains("type");
    CAPTURE(seed);
    CHECK(differences(said(judge_site(with_types_resolved(design))->findings()),
                      said(judge_site(design)->findings())) == no_difference);
  }
  CHECK(typed > 100);
}

// Sums of thousandths differ in their last digit with the order, and a total that lies between two printed
// values then goes either way; whole watts would not.
TEST_CASE("the DC power of a site is printed alike in whatever order its boxes stand", "[slow]") {
  for (const std::uint32_t seed : {118U, 146U}) {
    RandomSite random(seed);
    Json design = random.design();
    const auto before = judge_site(design);
    random.shuffle(design["combiners"]);
    CAPTURE(seed);
    CHECK(differences(said(judge_site(design)->findings()), said(before->findings())) == no_difference);
  }
}
