// Whatever a file of agreed exceptions says: no finding is lost, none is made, each that is set aside is
// covered, and counts and verdicts are those of the findings that stand.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <random>

#include "boxproof/exceptions.hpp"
#include "boxproof/rule.hpp"
#include "tests/support/agreed.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/example.hpp"

using namespace boxproof;
using namespace boxproof::test;

namespace {

std::string told(const Finding& f) {
  return fmt::format("{} {} {} {} {}", f.box_id, f.rule->id, f.part, static_cast<int>(f.severity), f.message);
}

Json random_entries(std::mt19937& random, const Judgement& j) {
  const auto below = [&](std::size_t n) { return random() % n; };
  const char* patterns[] = {"*", "A-*", "B-0?", "A-[12]*", "A-03", "A-10", "B-15", "Z-1", "*5", "?-*"};
  const char* days[] = {"2026-06-01", "2027-01-31", "2027-02-01", "2027-02-02", "2028-01-01"};
  Json out = Json::array();
  for (std::size_t n = below(12); n > 0; --n) {
    // Mostly a rule that has findings.
    const auto rules = all_rules();
    const Rule* rule = below(5) > 0 ? j.findings[below(j.findings.size())].rule : rules[below(rules.size())];
    std::size_t from = below(5), until = below(5);
    if (until < from) std::swap(from, until);
    Json entry = an_exception(rule->id, {{"date", days[from]}, {"expires", nullptr}});
    if (below(3) > 0) entry["expires"] = days[until];
    if (below(2) > 0) entry["hazard"] = below(2) > 0;
    entry["boxes"] = {patterns[below(10)]};
    if (below(2) > 0) entry["boxes"].push_back(patterns[below(10)]);
    out.push_back(std::move(entry));
  }
  return out;
}

bool covers(const Exception& e, const Finding& f, Date day) {
  const bool box = std::any_of(e.boxes.begin(), e.boxes.end(), [&](auto& p) { return matches(p, f.box_id); });
  return e.rule == f.rule && box && !f.worse_as_found && e.date <= day && (!e.expires || day <= *e.expires) &&
         (e.hazard || f.severity != Severity::hazard);
}

void check_property(const Judgement& before, const Judgement& after, Date day) {
  std::vector<std::string> was, stand, all;
  for (const Finding& f : before.findings) was.push_back(told(f));
  for (const Finding& f : after.findings) {
    stand.push_back(told(f));
    if (f.also.empty())  // otherwise other rules have a say
      CHECK(std::none_of(after.exceptions.begin(), after.exceptions.end(),
                         [&](const ExceptionResult& r) { return covers(r.entry, f, day); }));
  }
  all = stand;
  std::vector<std::size_t> under(after.exceptions.size());
  for (const AgreedFinding& a : after.agreed) {
    all.push_back(told(a.finding));
    REQUIRE(a.exception < after.exceptions.size());
    ++under[a.exception];
    for (std::size_t i = 0; i <= a.exception; ++i)  // the first that covers it
      CHECK(covers(after.exceptions[i].entry, a.finding, day) == (i == a.exception));
  }
  // The findings that stand keep their order.
  auto at = was.begin();
  for (const std::string& one : stand) {
    at = std::find(at, was.end(), one);
    REQUIRE(at != was.end());
    ++at;
  }
  std::sort(was.begin(), was.end());
  std::sort(all.begin(), all.end());
  CHECK(all == was);
  for (std::size_t i = 0; i < under.size(); ++i) {
    CHECK(after.exceptions[i].findings == under[i]);
    CHECK((after.exceptions[i].state == ExceptionState::applied) == (under[i] > 0));
  }
  // Counts and verdicts, worked out once more.
  std::array<std::size_t, 4> counts{};
  std::map<std::uint32_t, Severity> worst;
  for (const Finding& f : after.findings) {
    ++counts[static_cast<std::size_t>(f.severity)];
    if (f.box) worst[*f.box] = std::min(worst.try_emplace(*f.box, f.severity).first->second, f.severity);
  }
  CHECK(after.counts == counts);
  for (const BoxResult& box : after.boxes) {
    const auto found = worst.find(box.index);
    const bool visited = after.basis == Basis::design || box.visited.has_value();
    if (found == worst.end() || found->second == Severity::advice)
      CHECK(box.verdict == (visited ? Verdict::accept : Verdict::not_visited));
    else if (found->second == Severity::hazard)
      CHECK(box.verdict == Verdict::stop);
    else if (found->second == Severity::correction)
      CHECK(box.verdict == Verdict::correct);
    else
      CHECK(box.verdict == (visited ? Verdict::clarify : Verdict::not_visited));
  }
}

}  // namespace

TEST_CASE("standing and agreed findings together are the findings without the file, whatever it says") {
  std::mt19937 random(20270201);
  const Date day = *parse_date("2027-02-01");
  std::size_t set_aside = 0;
  for (const Example& example : examples) {
    const auto judged = judge_example(example);
    const Judgement before = judged->judgement;
    for (int round = 0; round < 60; ++round) {
      judged->judgement = before;
      agree(*judged, random_entries(random, before));
      check_property(before, judged->judgement, day);
      set_aside += judged->judgement.agreed.size();
    }
  }
  CHECK(set_aside > 200);
}

TEST_CASE("an empty file changes nothing") {
  const auto judged = judge_example(examples[1]);
  const Judgement before = judged->judgement;
  agree(*judged, Json::array());
  CHECK(judged->judgement.counts == before.counts);
  CHECK(judged->judgement.verdict == before.verdict);
  for (std::size_t i = 0; i < before.boxes.size(); ++i)
    CHECK(judged->judgement.boxes[i].verdict == before.boxes[i].verdict);
  CHECK(judged->findings().size() == before.findings.size());
  CHECK(judged->judgement.exceptions_day.has_value());
}
