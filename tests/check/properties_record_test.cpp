// Random sites with random field records (seeds 1 to 40): what a record may and may not do to the findings of
// the plan.
#include <algorithm>

#include "boxproof/rule.hpp"
#include "tests/support/as_planned.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge_text.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::uint32_t seeds = 40;

struct Visit {
  RandomSite random;
  Json design;
  std::unique_ptr<Judged> plan;

  explicit Visit(std::uint32_t seed) : random(seed), design(random.design()) {
    plan = judge_text(design.dump(1), edition_of(design["code"]["edition"].get<std::string>()));
  }
  std::unique_ptr<Judged> with(const std::string& record) const {
    return judge_text(design.dump(1), plan->edition, record);
  }
};

// The plan's own findings, standing or gone.
std::vector<Finding> of_plan(const Judgement& j) {
  std::vector<Finding> out = j.gone;
  std::copy_if(j.findings.begin(), j.findings.end(), std::back_inserter(out),
               [](const Finding& f) { return f.basis == Basis::design; });
  return out;
}

}  // namespace

TEST_CASE("random sites: without the record the plan's findings are left, standing or gone", "[slow]") {
  std::size_t gone = 0, found = 0;
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    Visit v(seed);
    const auto built = v.with(v.random.visit(record_as_planned(*v.plan, Posted::as_listed)).dump(1));
    CAPTURE(seed);
    CHECK(differences(said(of_plan(built->judgement), false), said(v.plan->findings())) == no_difference);
    gone += built->judgement.gone.size();
    found += built->findings().size() + built->judgement.gone.size() - v.plan->findings().size();
  }
  CHECK(gone > 100);
  CHECK(found > 500);
}

TEST_CASE("random sites: a record equal to the plan adds nothing and takes nothing away", "[slow]") {
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    Visit v(seed);
    Json record = record_as_planned(*v.plan, Posted::as_listed);
    for (Json& box : record["boxes"]) box.erase("labels");
    const auto built = v.with(record.dump(1));
    CAPTURE(seed);
    CHECK(differences(said(built->findings()), said(v.plan->findings())) == no_difference);
    CHECK(built->judgement.gone.empty());
    CHECK(built->judgement.verdict == v.plan->judgement.verdict);
    for (std::size_t i = 0; i < built->judgement.boxes.size(); ++i)
      CHECK(built->judgement.boxes[i].verdict == v.plan->judgement.boxes[i].verdict);
  }
}

// Where the plan calls for no label that is needed, the finding goes on to say that none was found.
TEST_CASE("random sites: labels listed as the plan calls for them add nothing and take nothing away",
          "[slow]") {
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    Visit v(seed);
    const auto built = v.with(record_as_planned(*v.plan, Posted::as_listed).dump(1));
    const auto besides_raceways = [](std::vector<Finding> findings) {
      std::erase_if(findings, [](const Finding& f) { return f.part == "label raceway-power-source"; });
      return said(findings, false);
    };
    CAPTURE(seed);
    CHECK(differences(besides_raceways(built->findings()), besides_raceways(v.plan->findings())) ==
          no_difference);
    CHECK(besides_raceways(built->judgement.gone).empty());
  }
}

// The plan calls for no label on raceways that need one: a correction. A list of labels without it, which is
// no word on raceways, must not make a query of that.
TEST_CASE("labels listed as planned leave the plan's finding on raceways as it is", "[slow]") {
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    Visit v(seed);
    const auto built = v.with(record_as_planned(*v.plan, Posted::as_listed).dump(1));
    CAPTURE(seed);
    CHECK(built->judgement.gone.empty());
    CHECK(differences(said(built->findings(), false), said(v.plan->findings())) == no_difference);
  }
}

TEST_CASE("random sites: the order of boxes and keys in the record changes nothing that is said", "[slow]") {
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    Visit v(seed);
    Json record = v.random.visit(record_as_planned(*v.plan, Posted::as_listed));
    const auto before = v.with(record.dump(1));
    v.random.shuffle(record["boxes"]);
    const auto after = v.with(v.random.any_order(record));
    CAPTURE(seed);
    CHECK(differences(said(after->findings()), said(before->findings())) == no_difference);
    CHECK(differences(said(after->judgement.gone), said(before->judgement.gone)) == no_difference);
  }
}

TEST_CASE("random sites: the order of boxes in the plan changes nothing that is said of a visit", "[slow]") {
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    Visit v(seed);
    Json record = v.random.visit(record_as_planned(*v.plan, Posted::as_listed));
    // Like boxes, and ids near that of a stranger, are named in the order of the plan.
    Json planned = Json::array();
    for (Json& box : record["boxes"]) {
      if (box.contains("seen"))
        for (Json& seen : box["seen"]) seen.erase("origin");
      if (!box["id"].get<std::string>().starts_with("B-1")) planned.push_back(box);
    }
    record["boxes"] = planned;
    const auto before = v.with(record.dump(1));
    v.random.shuffle(v.design["combiners"]);
    const auto after = v.with(record.dump(1));
    CAPTURE(seed);
    CHECK(differences(said(after->findings()), said(before->findings())) == no_difference);
  }
}
