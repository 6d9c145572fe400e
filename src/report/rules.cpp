// The rules as text for a terminal.
#include "src/report/rules.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "src/report/layout.hpp"
#include "src/report/rule_matrix.hpp"

namespace boxproof::report {
namespace {

// Pieces side by side; a line is broken between two of them, and within one only where it is wider than the
// page.
std::string side_by_side(const std::vector<std::string>& pieces, std::size_t indent) {
  std::string out, line;
  const auto end_line = [&] { out += wrap(line, indent + 2, std::string(indent, ' ')); };
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const std::string piece = pieces[i] + (i + 1 < pieces.size() ? ";" : "");
    if (!line.empty() && indent + width_of(line) + 1 + width_of(piece) > page_width) {
      end_line();
      line.clear();
    }
    line += (line.empty() ? "" : " ") + piece;
  }
  end_line();
  return out;
}

}  // namespace

void write_rule_list(std::span<const Rule* const> rules, std::span<const Edition> editions,
                     const Write& write) {
  std::size_t widest = 0;
  for (const Rule* rule : rules) widest = std::max(widest, width_of(rule->id));
  write(wrap(fmt::format("The rules of boxproof {}, and the section of NFPA 70 (NEC) {} under which each "
                         "stands. The severity is the gravest that a rule reports.",
                         version(), names_of(editions)),
             0));
  write(fmt::format("  *  {}\n  {}  the edition does not have the rule\n", star_means, no_section));
  constexpr std::size_t indent = 4;
  for (const TopicRules& topic : by_topic(rules)) {
    write(fmt::format("\n{}\n", upper(topic.heading)));
    for (const Rule* rule : topic.rules)
      write(fmt::format("{}{}\n{}{}", left(rule->id, widest + 2),
                        severity_names[static_cast<std::size_t>(rule->severity)],
                        wrap(rule->title, indent, std::string(indent, ' ')),
                        side_by_side(sections_by_edition(*rule, editions), indent)));
  }
  write("\nOne rule's page: boxproof rules ID\nAs a checklist:  boxproof rules --format markdown\n\n");
  write(wrap(caution(), 0));
}

void write_rule(const Rule& rule, std::span<const Edition> editions, const Write& write) {
  write(fmt::format("{}\n{}, at its gravest a {}\n\n", rule.title, rule.id,
                    severity_names[static_cast<std::size_t>(rule.severity)]));
  for (std::size_t i = 0; i < rule.explain.size(); ++i)
    write(fmt::format("{}\n{}\n", upper(explain_headings[i]), wrap(rule.explain[i], 2, "  ")));
  write(fmt::format("WHAT TO DO\n{}\n", wrap(rule.remedy, 2, "  ")));
  write("SECTION BY EDITION\n");
  bool unverified = false;
  for (const Edition& e : editions) {
    const std::string section = section_in(rule, e);
    unverified = unverified || section.ends_with('*');
    write(wrap(section, 8, fmt::format("  {}  ", e.name)));
  }
  if (unverified) write(fmt::format("  * {}\n", star_means));
  write("\n" + wrap(hold_against_book, 0));
}

}  // namespace boxproof::report
