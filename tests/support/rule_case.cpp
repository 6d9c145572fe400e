#include "tests/support/rule_case.hpp"

#include <iterator>

#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"
#include "tests/support/judge_text.hpp"

namespace boxproof::test {

Json changed(Json file, std::string_view boxes, const Changes& changes) {
  for (const Change& c : changes) {
    const Json::json_pointer at(c.at.starts_with('/') ? c.at : std::string(boxes) + "/" + c.at);
    CAPTURE(at.to_string());
    if (!c.value.is_null()) {
      file[at] = c.value;
      continue;
    }
    REQUIRE(file.contains(at));
    Json& parent = file[at.parent_pointer()];
    if (parent.is_array())
      parent.erase(std::stoul(at.back()));
    else
      parent.erase(at.back());
  }
  return file;
}

std::unique_ptr<Judged> RuleCase::judged(std::string_view edition, bool at_fault) const {
  Json design = changed(sound_design(), "/combiners/0", scene), found = nullptr;
  if (visited)
    found = changed(
        Json::parse(
            R"({"format": "boxproof-asbuilt/1", "boxes": [{"id": "A-01", "enclosure": {"listed": true}}]})"),
        "/boxes/0", record);
  if (at_fault && visited) found = changed(found, "/boxes/0", fault);
  if (at_fault && !visited) design = changed(design, "/combiners/0", fault);
  return judge_text(design.dump(1), edition_of(edition), found.is_null() ? "" : found.dump(1));
}

std::string RuleCase::expected(const Edition& edition) const {
  for (const auto& [name, section] : but)
    if (name == edition.name) return std::string(section);
  const auto found = edition.rules.find(rule);
  return found == edition.rules.end() ? "-" : found->second.section;
}

std::vector<RuleCase> every_rule_case() {
  std::vector<RuleCase> out;
  for (auto* cases : {cases_of_currents_and_voltages, cases_of_equipment, cases_of_visits}) {
    std::vector<RuleCase> some = cases();
    std::move(some.begin(), some.end(), std::back_inserter(out));
  }
  return out;
}

}  // namespace boxproof::test
