#include "src/report/rule_matrix.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace boxproof::report {
namespace {

// A topic that does not stand here follows behind these, under its own name.
struct TopicOfRules {
  std::string_view name, heading;
  bool on_roof;
};
constexpr TopicOfRules rule_topics[] = {
    {"site", "The site as a whole", false},
    {"voltage", "Voltage", false},
    {"current", "Current", false},
    {"fuse", "Fuses", false},
    {"conductor", "Conductors", false},
    {"disconnect", "Disconnects", false},
    {"enclosure", "Enclosures", false},
    {"protection", "Protection of the array", false},
    {"label", "Labels", false},
    {"tally", "Plan, label and box", true},
    {"measured", "Measurements", true},
    {"condition", "Conditions seen", true},
};

std::ptrdiff_t index_of(const Edition& edition) {
  return std::find(edition_names.begin(), edition_names.end(), edition.name) - edition_names.begin();
}

std::string_view topic_of(const Rule& rule) {
  return rule.id.substr(0, rule.id.find('/'));
}

bool needs_visit(const Rule& rule) {
  return rule.judge_visit != nullptr || rule.judge_record != nullptr;
}

}  // namespace

std::string section_in(const Rule& rule, const Edition& edition) {
  const auto found = edition.rules.find(rule.id);
  if (found == edition.rules.end()) return std::string(no_section);
  return found->second.section + (found->second.unverified ? "*" : "");
}

bool stands_in(const Rule& rule, std::span<const Edition> editions) {
  return std::any_of(editions.begin(), editions.end(),
                     [&](const Edition& e) { return e.rules.find(rule.id) != e.rules.end(); });
}

std::vector<std::string> sections_by_edition(const Rule& rule, std::span<const Edition> editions) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < editions.size();) {
    const std::string section = section_in(rule, editions[i]);
    std::size_t last = i;
    while (last + 1 < editions.size() && index_of(editions[last + 1]) == index_of(editions[last]) + 1 &&
           section_in(rule, editions[last + 1]) == section)
      ++last;
    out.push_back(last == i ? fmt::format("{} {}", editions[i].name, section)
                            : fmt::format("{}–{} {}", editions[i].name, editions[last].name, section));
    i = last + 1;
  }
  return out;
}

std::string names_of(std::span<const Edition> editions) {
  std::string out;
  for (std::size_t i = 0; i < editions.size(); ++i) {
    if (i > 0) out += i + 1 < editions.size() ? ", " : " and ";
    out += editions[i].name;
  }
  return out;
}

std::string_view asked_of(const Rule& rule) {
  if (rule.judge_site != nullptr) return rule.judge != nullptr ? "each box and the site" : "the site";
  if (rule.judge_record != nullptr) return "the visit as a whole";
  return rule.judge_visit != nullptr ? "each visited box" : "each box";
}

std::vector<TopicRules> by_topic(std::span<const Rule* const> rules) {
  std::vector<TopicRules> out;
  for (const TopicOfRules& t : rule_topics) out.push_back({t.name, t.heading, t.on_roof, {}});
  for (const Rule* rule : rules) {
    const std::string_view name = topic_of(*rule);
    auto topic = std::find_if(out.begin(), out.end(), [&](const TopicRules& t) { return t.name == name; });
    if (topic == out.end()) topic = out.insert(out.end(), {name, name, needs_visit(*rule), {}});
    topic->rules.push_back(rule);
  }
  std::erase_if(out, [](const TopicRules& t) { return t.rules.empty(); });
  std::stable_partition(out.begin(), out.end(), [](const TopicRules& t) { return !t.on_roof; });
  return out;
}

}  // namespace boxproof::report
