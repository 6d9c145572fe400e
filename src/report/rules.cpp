#include "src/report/rules.hpp"

#include <fmt/format.h>

#include "src/report/layout.hpp"

namespace boxproof::report {

void write_rule_list(const Write& write) {
  std::string_view topic;
  for (const Rule* rule : all_rules()) {
    const std::string_view here = rule->id.substr(0, rule->id.find('/'));
    if (here != topic && !topic.empty()) write("\n");
    topic = here;
    write(fmt::format("{}{}{}\n", left(rule->id, 31),
                      left(severity_names[static_cast<std::size_t>(rule->severity)], 12), rule->title));
  }
  write("\nOne rule's page: boxproof rules ID\n");
}

void write_rule(const Rule& rule, std::span<const Edition> editions, const Write& write) {
  write(fmt::format("{}\n{}, at its gravest a {}\n\n", rule.title, rule.id,
                    severity_names[static_cast<std::size_t>(rule.severity)]));
  constexpr std::string_view headings[] = {"WHAT IT FINDS", "WHY IT MATTERS", "HOW IT IS COMPUTED"};
  for (std::size_t i = 0; i < rule.explain.size(); ++i)
    write(fmt::format("{}\n{}\n", headings[i], wrap(rule.explain[i], 2, "  ")));
  write(fmt::format("WHAT TO DO\n{}\n", wrap(rule.remedy, 2, "  ")));
  write("SECTION BY EDITION\n");
  bool unverified = false;
  for (const Edition& e : editions) {
    const auto found = e.rules.find(rule.id);
    if (found == e.rules.end()) {
      write(fmt::format("  {}  –\n", e.name));
      continue;
    }
    unverified = unverified || found->second.unverified;
    write(fmt::format("  {}  {}{}\n", e.name, found->second.section, found->second.unverified ? " *" : ""));
  }
  if (unverified) write("  * from memory, unverified\n");
  write("\n" + wrap("Hold the section against the adopted book: nothing here is the text of the code.", 0));
}

}  // namespace boxproof::report
