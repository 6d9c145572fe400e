// One small site for each rule, that makes it speak, with what the editions make of it.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "tests/support/judge.hpp"

namespace boxproof::test {

// A value put in at a JSON Pointer of the design or of the field record; null takes out what is there.
// Without a leading slash the pointer starts at the one box: "fuse/a".
struct Change {
  std::string at;
  Json value;
};
using Changes = std::vector<Change>;
Json changed(Json file, std::string_view boxes, const Changes& changes);  // boxes: "/combiners/0"

struct RuleCase {
  std::string rule, part;
  bool visited = false;  // what is wrong stands in the field record, not in the design
  Changes fault;         // what is wrong
  Changes scene;         // of the sound design, with and without the fault
  Changes record;        // of a record that has the box's id and nothing else, likewise
  // Editions whose answer is not the rule's section in that edition: a finer section, or "-" where the data
  // asks for nothing.
  std::vector<std::pair<std::string_view, std::string_view>> but;

  RuleCase&& with_scene(Changes changes) && { return scene = std::move(changes), std::move(*this); }
  RuleCase&& with_record(Changes changes) && { return record = std::move(changes), std::move(*this); }
  RuleCase&& except(std::vector<std::pair<std::string_view, std::string_view>> editions) && {
    return but = std::move(editions), std::move(*this);
  }

  std::unique_ptr<Judged> judged(std::string_view edition, bool at_fault) const;
  // The section that the finding must have; "-" where the rule must be silent.
  std::string expected(const Edition& edition) const;
};

inline RuleCase plan_case(std::string rule, std::string part, Changes fault) {
  return {std::move(rule), std::move(part), false, std::move(fault), {}, {}, {}};
}
inline RuleCase visit_case(std::string rule, std::string part, Changes fault) {
  return {std::move(rule), std::move(part), true, std::move(fault), {}, {}, {}};
}

std::vector<RuleCase> cases_of_currents_and_voltages();
std::vector<RuleCase> cases_of_equipment();
std::vector<RuleCase> cases_of_visits();
std::vector<RuleCase> every_rule_case();

}  // namespace boxproof::test
