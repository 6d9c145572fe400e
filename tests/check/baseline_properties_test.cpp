// Baselines of random sites: a file laid out anew is no news; what changed is told, neither more nor less.
#include <algorithm>
#include <map>

#include "boxproof/rule.hpp"
#include "tests/support/baseline.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge_text.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

constexpr std::uint32_t seeds = 40;

std::unique_ptr<Judged> judge_site(const std::string& text, const Json& design) {
  return judge_text(text, edition_of(design["code"]["edition"].get<std::string>()));
}

// How many of each fingerprint and severity, by another way than that of the program.
using Counts = std::map<std::string, std::vector<Severity>>;

// Of one fingerprint: the most findings that entries can cover, tried out.
std::size_t most_covered(std::vector<Severity> findings, std::vector<Severity> entries) {
  if (findings.empty()) return 0;
  const Severity f = findings.back();
  findings.pop_back();
  std::size_t best = most_covered(findings, entries);
  if (f == Severity::hazard) return best;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (entries[i] > f) continue;
    std::vector<Severity> left = entries;
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
    best = std::max(best, 1 + most_covered(findings, left));
  }
  return best;
}

// Takes a part of a random box away.
bool change(RandomSite& random, Json& design) {
  Json& box = design["combiners"][random.below(design["combiners"].size())];
  std::vector<std::string> parts;
  for (const char* part : {"fuse", "disconnect", "enclosure", "labels", "output", "egc"})
    if (box.contains(part)) parts.emplace_back(part);
  if (parts.empty()) return false;
  box.erase(random.one_of(parts));
  return true;
}

}  // namespace

TEST_CASE("random sites: a baseline survives another layout and another order", "[slow]") {
  std::size_t covered = 0;
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    RandomSite random(seed);
    Json design = random.design();
    const auto before = judge_site(design.dump(1), design);
    const Baseline baseline = baseline_of(before->judgement);
    random.shuffle(design["combiners"]);
    const auto after = judge_site(random.any_order(design), design);
    hold_beside(*after, baseline);
    CAPTURE(seed);
    for (const Finding& f : after->findings()) {
      CAPTURE(f.message);
      CHECK(f.known == (f.severity != Severity::hazard));
      covered += f.known;
    }
    CHECK(names_of(after->judgement.baseline->stale).empty());
    CHECK(names_of(after->judgement.baseline->graver).empty());
    CHECK(after->judgement.counts == before->judgement.counts);
  }
  CHECK(covered > 1000);  // the property was tried on something
}

TEST_CASE("random sites: what a change brings is news, what it mends is stale", "[slow]") {
  std::size_t news = 0, gone = 0;
  for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
    RandomSite random(seed);
    Json one = random.design(), other = one;
    if (!change(random, other)) continue;
    for (const auto& [was, is] : {std::pair{&one, &other}, std::pair{&other, &one}}) {
      const auto before = judge_site(was->dump(), *was), after = judge_site(is->dump(2), *is);
      hold_beside(*after, baseline_of(before->judgement));
      Counts entries, findings;
      for (const Finding& f : before->findings())
        if (f.severity != Severity::hazard) entries[fingerprint(f)].push_back(f.severity);
      std::map<std::string, std::size_t> known_now;
      for (const Finding& f : after->findings()) {
        findings[fingerprint(f)].push_back(f.severity);
        known_now[fingerprint(f)] += f.known;
        news += !f.known && f.severity != Severity::hazard;
        if (f.severity == Severity::hazard) CHECK_FALSE(f.known);
      }
      std::size_t left = 0;
      for (const auto& [print, of_entries] : entries) {
        const std::size_t covered = most_covered(findings[print], of_entries);
        CHECK(known_now[print] == covered);
        left += of_entries.size() - covered;
      }
      for (const auto& [print, n] : known_now)
        if (!entries.contains(print)) CHECK(n == 0);
      const BaselineUse& use = *after->judgement.baseline;
      CAPTURE(seed, names_of(use.stale), names_of(use.graver));
      CHECK(use.stale.size() + use.graver.size() == left);
      for (const BaselineEntry& e : use.stale) {
        const std::size_t standing = findings[e.fingerprint].size() - known_now[e.fingerprint];
        CHECK(standing == 0);
      }
      gone += use.stale.size();
    }
  }
  CHECK(news > 50);
  CHECK(gone > 50);
}
