// Each rule once in each edition: it speaks where the edition has the rule and its own data asks for what is
// missing, and names the edition's section.
#include <set>
#include <string>

#include "boxproof/rule.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/rule_case.hpp"

using namespace boxproof;
using namespace boxproof::test;

TEST_CASE("every rule has a case, and every case a rule") {
  std::set<std::string, std::less<>> tried;
  for (const RuleCase& c : every_rule_case()) {
    CAPTURE(c.rule);
    CHECK(find_rule(c.rule) != nullptr);
    tried.insert(c.rule);
  }
  for (const Rule* rule : all_rules()) {
    CAPTURE(std::string(rule->id));
    CHECK(tried.contains(rule->id));
  }
}

TEST_CASE("every rule speaks in every edition that has it, under the section it has there") {
  for (const RuleCase& c : every_rule_case())
    for (const std::string_view name : edition_names) {
      const auto judged = c.judged(name, true);
      CAPTURE(c.rule, c.part, std::string(name), judged->summary());
      const Finding* f = judged->find(c.rule, c.part);
      CHECK((f == nullptr ? "-" : f->section) == c.expected(edition_of(name)));
    }
}

// With the exceptions of the cases, each rule still has an edition in which some case of it speaks, and none
// speaks in an edition that has it not.
TEST_CASE("a rule that an edition has speaks there in one of its cases, and no rule speaks elsewhere") {
  const std::vector<RuleCase> cases = every_rule_case();
  for (const Rule* rule : all_rules())
    for (const std::string_view name : edition_names) {
      const bool there = edition_of(name).rules.contains(rule->id);
      bool speaks = false;
      for (const RuleCase& c : cases)
        if (c.rule == rule->id) speaks = speaks || c.expected(edition_of(name)) != "-";
      CAPTURE(std::string(rule->id), std::string(name));
      CHECK(speaks == there);
    }
}

TEST_CASE("without its fault the rule has nothing to say, in any edition") {
  for (const RuleCase& c : every_rule_case())
    for (const std::string_view name : edition_names) {
      const auto judged = c.judged(name, false);
      CAPTURE(c.rule, c.part, std::string(name), judged->summary());
      CHECK(judged->find(c.rule, c.part) == nullptr);
      for (const Finding& f : judged->findings()) CHECK((f.rule->id != c.rule || f.part != c.part));
    }
}
