// Which boxes a sample takes: findings first, then the thinnest margins, and a random choice that is the same
// everywhere.
#include "src/check/sample.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <random>

#include "boxproof/read.hpp"
#include "src/check/bounded_draw.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge.hpp"
#include "tests/support/random_design.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

using Shares = std::vector<std::optional<double>>;
using Places = std::vector<std::size_t>;

std::vector<Urgency> lot_of(const Shares& shares) {
  std::vector<Urgency> out;
  for (const auto& share : shares) out.push_back({share ? Cause::margin : Cause::not_known, share});
  return out;
}

struct Drawn {
  Places thin, random;
};
Drawn draw(const std::vector<Urgency>& lot, const SampleSize& size) {
  Drawn out;
  for (const Picked& p : draw_sample(lot, size)) (p.at_random ? out.random : out.thin).push_back(p.place);
  return out;
}
Drawn draw(const Shares& shares, const SampleSize& size) {
  return draw(lot_of(shares), size);
}

// Gives these numbers, one after the other.
struct Script {
  std::vector<std::uint32_t> numbers;
  std::size_t at = 0;
  std::uint32_t operator()() { return numbers.at(at++); }
};

// Random shares, one in eight not known, many equal.
Shares random_shares(std::mt19937& engine) {
  Shares out(1 + engine() % 40);
  for (auto& share : out)
    if (engine() % 8 != 0) share = static_cast<double>(engine() % 12) / 10 - 0.2;
  return out;
}

}  // namespace

TEST_CASE("sample: the generator is the one that ISO C++ describes") {
  std::mt19937 generator;  // [rand.predef]: the 10000th number of a default-constructed one
  generator.discard(9999);
  CHECK(generator() == 4123659995U);
}

TEST_CASE("sample: a draw below a bound goes by the remainder, and leaves out what would favour some") {
  // 2^32 = 3 · 1431655765 + 1: the last number is drawn again.
  const auto drawn = [](std::vector<std::uint32_t> numbers, std::uint32_t end) {
    Script script{std::move(numbers)};
    return draw_below(script, end);
  };
  CHECK(drawn({4294967295U, 5}, 3) == 2);
  CHECK(drawn({4294967294U}, 3) == 2);
  CHECK(drawn({4294967295U}, 1) == 0);
  // 2^32 = 1 · 2147483649 + 2147483647: all numbers from 2147483649 on are drawn again.
  CHECK(drawn({4000000000U, 2147483649U, 2147483648U}, 2147483649U) == 2147483648U);
}

TEST_CASE("sample: these seeds choose these boxes on every machine") {
  // Worked out by a program of another language after the description in sample.hpp.
  const Shares equal(20, 0.0);
  CHECK(draw(equal, {6, 0, 0}).random == Places{4, 5, 7, 13, 14, 19});
  CHECK(draw(equal, {6, 0, 1}).random == Places{2, 5, 11, 13, 18, 19});
  CHECK(draw(equal, {6, 0, 2}).random == Places{0, 1, 8, 10, 14, 19});
  CHECK(draw(equal, {6, 0, 4294967295U}).random == Places{0, 7, 8, 10, 11, 15});
  CHECK(draw(Shares(60000, 0.0), {8, 0, 12345}).random ==
        Places{17952, 19972, 27580, 30320, 30690, 47981, 49102, 51624});
  Shares mixed(20);
  for (std::size_t i = 0; i < mixed.size(); ++i)
    if (i % 7 != 3) mixed[i] = static_cast<double>(i * 37 % 20) / 100;
  const Drawn drawn = draw(mixed, {8, 4, 1});
  CHECK(drawn.thin == Places{0, 3, 10, 17});
  CHECK(drawn.random == Places{6, 7, 8, 19});
}

TEST_CASE("sample: the thinnest, by hand") {
  const Shares shares{0.3, std::nullopt, 0.1, 0.1, -0.2, std::nullopt, 0.1};
  CHECK(draw(shares, {1, 1}).thin == Places{1});  // one that cannot be shown safe, the first of two
  CHECK(draw(shares, {2, 2}).thin == Places{1, 5});
  CHECK(draw(shares, {3, 3}).thin == Places{1, 4, 5});        // then the one over its limit
  CHECK(draw(shares, {5, 5}).thin == Places{1, 2, 3, 4, 5});  // of three equal ones the first two
  CHECK(draw(shares, {6, 6}).thin == Places{1, 2, 3, 4, 5, 6});
  const Drawn all = draw(shares, {99, 7});
  CHECK(all.thin == Places{0, 1, 2, 3, 4, 5, 6});
  CHECK(all.random.empty());
  CHECK(draw_sample({}, {3, 2}).empty());
}

TEST_CASE("sample: hazards before corrections before what is not known before thin margins, by hand") {
  const std::vector<Urgency> lot{{Cause::margin, 0.001},
                                 {Cause::not_known, 0.5},
                                 {Cause::correction, 0.9},
                                 {Cause::hazard, 0.9},
                                 {Cause::hazard, 0.3},
                                 {Cause::not_known, std::nullopt},
                                 {Cause::correction, std::nullopt},
                                 {Cause::margin, -0.2}};
  Places order;  // each greater sample takes one more
  for (std::size_t n = 1; n <= lot.size(); ++n) {
    const Places taken = draw(lot, {n, n}).thin;
    for (const std::size_t place : taken)
      if (std::find(order.begin(), order.end(), place) == order.end()) order.push_back(place);
    REQUIRE(order.size() == n);
  }
  CHECK(order == Places{4, 3, 6, 2, 5, 1, 7, 0});
}

TEST_CASE("sample: a box's own findings and what is not stated of it make it urgent") {
  struct Case {
    Json patch;
    Cause cause;
    std::string_view rule;  // of the worst finding; empty: none above advice
  };
  // The module of the sound design allows a 20 A fuse, and its box has 9 inputs in use.
  for (const Case& c : {Case{Json::object(), Cause::margin, ""},
                        {{{"fuse", {{"a", 40}}}}, Cause::hazard, "fuse/over-module-limit"},
                        {{{"enclosure", {{"inputs", 8}}}}, Cause::correction, "current/inputs"},
                        {{{"fuse", {{"dc", nullptr}}}}, Cause::not_known, "fuse/not-dc"},
                        {{{"fuse", {{"a", nullptr}}}}, Cause::not_known, "fuse/"},
                        {{{"enclosure", {{"rated_a", nullptr}}}}, Cause::not_known, "current/box-rating"},
                        {{{"output", {{"run", nullptr}}}}, Cause::not_known, "conductor/"}}) {
    const auto judged = judge(with_box(c.patch));
    const Design& design = judged->design.design;
    const auto all = nearness_of(design, {&design.combiners[0]}, judged->edition, judged->judgement);
    CAPTURE(c.patch.dump());
    CHECK(all.at(0).urgency().cause == c.cause);
    REQUIRE((all.at(0).worst == nullptr) == c.rule.empty());
    if (!c.rule.empty()) CHECK(all.at(0).worst->rule->id.starts_with(c.rule));
    // What is not stated counts without its query, too: an agreed exception may set that aside.
    const auto bare = nearness_of(design, {&design.combiners[0]}, judged->edition, Judgement());
    const bool stated = c.cause != Cause::not_known || c.rule == "fuse/not-dc";
    CHECK(bare.at(0).urgency().cause == (stated ? Cause::margin : Cause::not_known));
  }
}

TEST_CASE("sample: size, no box twice, thinnest first, the same again, in random lots") {
  std::mt19937 engine(7);
  for (int round = 0; round < 500; ++round) {
    const Shares shares = random_shares(engine);
    const std::size_t boxes = 1 + engine() % shares.size(), thinnest = engine() % (boxes + 1);
    const std::uint32_t seed = static_cast<std::uint32_t>(engine());
    const std::vector<Picked> sample = draw_sample(lot_of(shares), {boxes, thinnest, seed});
    CAPTURE(shares.size(), boxes, thinnest, seed);
    REQUIRE(sample.size() == boxes);
    const auto rising = [](const Picked& a, const Picked& b) { return a.place < b.place; };
    REQUIRE(std::adjacent_find(sample.begin(), sample.end(), std::not_fn(rising)) == sample.end());
    REQUIRE(sample.back().place < shares.size());
    const Drawn drawn = draw(shares, {boxes, thinnest, seed});
    REQUIRE(drawn.thin.size() == thinnest);
    for (std::size_t i = 0; i < shares.size(); ++i) {  // no box left aside comes before a thin one
      if (std::count(drawn.thin.begin(), drawn.thin.end(), i) != 0) continue;
      for (const std::size_t thin : drawn.thin)
        if (shares[i] ? shares[thin] && *shares[thin] > *shares[i] : shares[thin].has_value())
          FAIL("box " << i << " is thinner than box " << thin);
    }
    const Drawn again = draw(shares, {boxes, thinnest, seed});
    REQUIRE(again.random == drawn.random);
    if (boxes == shares.size()) continue;
    const Drawn greater = draw(shares, {boxes + 1, thinnest, seed});  // holds the smaller one
    REQUIRE(std::includes(greater.random.begin(), greater.random.end(), drawn.random.begin(),
                          drawn.random.end()));
  }
}

TEST_CASE("sample: over many seeds each box comes up as often as any other") {
  constexpr int seeds = 10000;
  std::array<int, 5> taken{};
  for (std::uint32_t seed = 1; seed <= seeds; ++seed)
    for (const std::size_t place : draw(Shares(5, 0.5), {2, 0, seed}).random) ++taken[place];
  for (const int times : taken) {  // expected 4000 with a standard deviation of 49: six of them each way
    CHECK(times > 3700);
    CHECK(times < 4300);
  }
}

TEST_CASE("sample: how near the boxes of random sites come to a limit") {
  std::size_t unknown = 0, known = 0;
  for (std::uint32_t seed = 1; seed <= 40; ++seed) {
    const Document document{"design.json", RandomSite(seed).design().dump()};
    const DesignFile file = read_design(document);
    const Edition& edition = edition_of(file.design.edition);
    Lot lot;
    for (const Combiner& box : file.design.combiners) lot.push_back(&box);
    const Judgement plan = check(file, edition, nullptr, {});
    const std::vector<Nearness> all = nearness_of(file.design, lot, edition, plan);
    REQUIRE(all.size() == lot.size());
    BoxFacts facts;
    for (std::size_t i = 0; i < lot.size(); ++i) {
      box_facts(file.design, *lot[i], edition, facts);
      std::optional<double> least;
      for (const Margin& m : margins(file.design, facts, edition))
        if (!least || m.share() < *least) least = m.share();
      const bool every = std::all_of(facts.circuits.begin(), facts.circuits.end(),
                                     [](const CircuitFacts& c) { return c.voltage.max.has_value(); });
      const std::optional<double> expected = every ? least : std::nullopt;
      REQUIRE(all[i].share() == expected);
      const Verdict verdict = plan.boxes[i].verdict;
      const Cause cause = all[i].urgency().cause;
      REQUIRE((verdict == Verdict::stop) == (cause == Cause::hazard));
      REQUIRE((verdict == Verdict::correct) == (cause == Cause::correction));
      if (verdict == Verdict::clarify || !expected) REQUIRE(cause <= Cause::not_known);
      ++(expected ? known : unknown);
    }
  }
  CHECK(unknown > 10);
  CHECK(known > 10);
}
