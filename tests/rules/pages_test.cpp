// Every rule says what it is: its id, its explanation, what to do, and where it stands in the code.
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <string>

#include "boxproof/rule.hpp"
#include "src/edition/embedded.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/editions.hpp"

using namespace boxproof;

namespace {

using Json = nlohmann::json;

// The data of an edition as it stands in its files: the base with the edition's patch over it.
const Json& data_of(std::string_view edition) {
  static std::map<std::string, Json, std::less<>> read;
  if (const auto known = read.find(edition); known != read.end()) return known->second;
  Json data = Json::parse(embedded("editions/base.json"));
  data.merge_patch(Json::parse(embedded("editions/" + std::string(edition) + ".json")));
  return read.emplace(std::string(edition), std::move(data)).first->second;
}

// The value at a dotted path, or null.
const Json* at_path(const Json& data, std::string_view path) {
  const Json* here = &data;
  while (here != nullptr && !path.empty()) {
    const auto dot = path.find('.');
    const std::string key(path.substr(0, dot));
    here = here->is_object() && here->contains(key) ? &(*here)[key] : nullptr;
    path = dot == std::string_view::npos ? std::string_view() : path.substr(dot + 1);
  }
  return here;
}

// The rules page of the specification has these topics.
const std::set<std::string, std::less<>> topics{"voltage",    "current",   "fuse",       "conductor",
                                                "disconnect", "enclosure", "protection", "label",
                                                "site",       "tally",     "measured",   "condition"};

}  // namespace

TEST_CASE("every rule has an id of its own, topic/name") {
  std::set<std::string_view> ids;
  static const std::regex form("[a-z]+/[a-z]+(-[a-z0-9]+)*");
  for (const Rule* rule : all_rules()) {
    CAPTURE(std::string(rule->id));
    CHECK(ids.insert(rule->id).second);
    CHECK(std::regex_match(std::string(rule->id), form));
    CHECK(topics.contains(rule->id.substr(0, rule->id.find('/'))));
    CHECK(find_rule(rule->id) == rule);
  }
  CHECK(ids.size() > 30);
  CHECK(find_rule("fuse/no-such-rule") == nullptr);
  CHECK(find_rule("") == nullptr);
}

TEST_CASE("every rule looks at something: a box or the site, a visit, or the record") {
  for (const Rule* rule : all_rules()) {
    CAPTURE(std::string(rule->id));
    const bool plan = rule->judge != nullptr || rule->judge_site != nullptr;
    const int kinds = plan + (rule->judge_visit != nullptr) + (rule->judge_record != nullptr);
    CHECK(kinds == 1);
  }
}

TEST_CASE("every rule has a title, three paragraphs and a remedy") {
  for (const Rule* rule : all_rules()) {
    CAPTURE(std::string(rule->id));
    CHECK(rule->title.size() >= 10);
    CHECK(rule->title.size() <= 72);  // fits a line with its number
    CHECK_FALSE(rule->title.ends_with('.'));
    for (const std::string_view paragraph : rule->explain) {
      CAPTURE(std::string(paragraph));
      CHECK_FALSE(paragraph.empty());
      CHECK(paragraph.ends_with('.'));
      CHECK(paragraph.find("  ") == std::string_view::npos);
    }
    CHECK(rule->explain[0] != rule->explain[1]);
    CHECK(rule->explain[1] != rule->explain[2]);
    CHECK(rule->remedy.size() >= 20);
    CHECK(rule->remedy.ends_with('.'));
  }
}

TEST_CASE("every paragraph of an explanation has at least 40 characters") {
  for (const Rule* rule : all_rules())
    for (const std::string_view paragraph : rule->explain) {
      CAPTURE(std::string(rule->id), std::string(paragraph));
      CHECK(paragraph.size() >= 40);
    }
}

TEST_CASE("every rule in the data is known, and every known rule is in the data") {
  std::set<std::string> known, in_data;
  for (const Rule* rule : all_rules()) known.emplace(rule->id);
  for (const std::string_view edition : edition_names) {
    const Json& data = data_of(edition);
    for (const auto& [id, place] : data["rules"].items()) {
      CAPTURE(std::string(edition), id);
      CHECK(known.contains(id));
      CHECK(place["section"].is_string());
      CHECK_FALSE(place["section"].get<std::string>().empty());
      in_data.insert(id);
    }
  }
  CHECK(in_data == known);
}

TEST_CASE("the editions as read have the rules of the data, with their sections") {
  for (const std::string_view name : edition_names) {
    const Json& data = data_of(name);
    const Edition& edition = edition_of(name);
    CHECK(edition.rules.size() == data["rules"].size());
    for (const auto& [id, place] : edition.rules) {
      CAPTURE(std::string(name), id);
      CHECK(place.section == data["rules"][id]["section"].get<std::string>());
      const auto source = data["rules"][id].value("source", std::string());
      CHECK(place.unverified == (source.find("memory") != std::string::npos));
    }
  }
}

TEST_CASE("the groups of data that a rule names exist in the editions in which it runs") {
  for (const Rule* rule : all_rules())
    for (const std::string_view path : rule->uses) {
      CAPTURE(std::string(rule->id), std::string(path));
      std::size_t there = 0, runs = 0;
      for (const std::string_view name : edition_names) {
        const Json& data = data_of(name);
        if (!data["rules"].contains(rule->id)) continue;
        ++runs;
        there += at_path(data, path) != nullptr;
      }
      CHECK(runs > 0);
      CHECK(there > 0);
      // Some tables came in with an edition; apart from those a group is in all of them.
      if (path.find("pv_wire") == std::string_view::npos) CHECK(there == runs);
    }
}
