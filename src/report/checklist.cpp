// The rules in Markdown: a checklist for the desk and the roof, and one rule's page.
//
// A paragraph or an item's line is one line of the file, however long: a line broken by us could start with
// what Markdown takes for a list or a heading ("= 1.5625 times …").
#include <fmt/format.h>

#include "src/report/markdown_text.hpp"
#include "src/report/rule_matrix.hpp"
#include "src/report/rules.hpp"

namespace boxproof::report {
namespace {

std::string_view meaning(Severity severity) {
  switch (severity) {
    case Severity::hazard: return "stop, unsafe as it stands";
    case Severity::correction: return "does not meet the adopted code or the approved plan; to be corrected";
    case Severity::query: return "cannot be judged; more information is needed";
    case Severity::advice: return "good practice or performance; no approval hangs on it";
  }
  return {};
}

std::string row(const std::vector<std::string>& cells) {
  std::string out = "|";
  for (const std::string& cell : cells) out += " " + cell + " |";
  return out + "\n";
}

void write_checklist_head(std::span<const Edition> editions, const Write& write) {
  write("# DC combiner boxes: checklist for plan review and inspection\n\n");
  write(fmt::format(
      "The rules by which boxproof {} judges the DC combiner boxes of a photovoltaic array, in the order of "
      "the work: at the desk on the plans, then on the roof at the boxes. Beside each stands its section in "
      "NFPA 70 (NEC) {}; the words are ours and not those of the code.\n\n",
      version(), names_of(editions)));
  write(fmt::format("> **Caution.** {}\n\n", markdown(caution())));
  write(row({"For", "Entry"}) + row({"---", "---"}));
  for (const std::string_view line : {"Site", "Permit or plan set", "Adopted edition and local amendments",
                                      "Plans reviewed by, on", "Boxes inspected by, on"})
    write(row({std::string(line), "&nbsp;"}));
}

void write_directions(const Write& write) {
  write("\n## How to use it\n\n");
  write(
      "- Each item names a fault. Tick it when all that it is asked of has been looked at, and the fault is "
      "not there or has been dealt with. Write down the boxes that had it.\n");
  write(
      "- In brackets: the gravest severity that the fault can have, what the item is asked of, and the id of "
      "the rule.\n");
  write(fmt::format(
      "- The section stands behind the editions that have it: \\* {}; {} the edition does not have the rule. "
      "Where no section of a code is named, the words say what the item rests on.\n",
      star_means, no_section));
  write("- A fact that is needed and not stated is a query, never a pass.\n\n");
  write(row({"Severity", "What it means"}) + row({"---", "---"}));
  for (std::size_t i = 0; i < severity_names.size(); ++i)
    write(row({fmt::format("**{}**", severity_names[i]), std::string(meaning(static_cast<Severity>(i)))}));
}

std::string legend() {
  return fmt::format("\\* {}; {} the edition does not have the rule. {}\n\n", star_means, no_section,
                     hold_against_book);
}

std::string sections(const Rule& rule, std::span<const Edition> editions) {
  std::string out;
  for (const std::string& piece : sections_by_edition(rule, editions))
    out += (out.empty() ? "" : "; ") + markdown(piece);
  return out;
}

void write_item(const Rule& rule, std::span<const Edition> editions, const Write& write) {
  write(fmt::format("- [ ] **{}** ({}, {}, {})\n", markdown(rule.title),
                    severity_names[static_cast<std::size_t>(rule.severity)], asked_of(rule),
                    markdown_name(rule.id)));
  write(fmt::format("  - *Check:* {}\n", markdown(rule.explain[0])));
  write(fmt::format("  - *Why:* {}\n", markdown(rule.explain[1])));
  write(fmt::format("  - *How:* {}\n", markdown(rule.explain[2])));
  write(fmt::format("  - *Do:* {}\n", markdown(rule.remedy)));
  write(fmt::format("  - *Section:* {}\n", sections(rule, editions)));
}

void write_topic(const TopicRules& topic, std::span<const Edition> editions, const Write& write) {
  write(fmt::format("\n### {}\n\n", markdown(topic.heading)));
  std::string elsewhere;
  for (const Rule* rule : topic.rules) {
    if (stands_in(*rule, editions))
      write_item(*rule, editions, write);
    else
      elsewhere += (elsewhere.empty() ? "" : ", ") + markdown_name(rule->id);
  }
  if (!elsewhere.empty()) write(fmt::format("\nNot asked for in {}: {}.\n", names_of(editions), elsewhere));
}

void write_matrix(const std::vector<TopicRules>& topics, std::span<const Edition> editions,
                  const Write& write) {
  write("\n## Sections by edition\n\n");
  write(legend());
  std::vector<std::string> head{"Rule"}, rule_off{"---"};
  for (const Edition& e : editions) {
    head.push_back(e.name);
    rule_off.emplace_back("---");
  }
  write(row(head) + row(rule_off));
  for (const TopicRules& topic : topics)
    for (const Rule* rule : topic.rules) {
      std::vector<std::string> cells{markdown_name(rule->id)};
      for (const Edition& e : editions) cells.push_back(markdown(section_in(*rule, e)));
      write(row(cells));
    }
}

}  // namespace

void write_checklist(std::span<const Rule* const> rules, std::span<const Edition> editions,
                     const Write& write) {
  const std::vector<TopicRules> topics = by_topic(rules);
  write_checklist_head(editions, write);
  write_directions(write);
  for (const bool on_roof : {false, true}) {
    bool begun = false;
    for (const TopicRules& topic : topics) {
      if (topic.on_roof != on_roof) continue;
      if (!begun)
        write(on_roof ? "\n## On the roof, at the boxes\n\nEach box as it is found, against its plan and the "
                        "label on it. Where it differs from its plan, the items of the desk are asked again "
                        "of the box as found.\n"
                      : "\n## At the desk, on the plans\n\nEach box as it is drawn, and the site once.\n");
      begun = true;
      write_topic(topic, editions, write);
    }
  }
  write_matrix(topics, editions, write);
}

void write_rule_markdown(const Rule& rule, std::span<const Edition> editions, const Write& write) {
  write(fmt::format("# {}\n\n{}, at its gravest a {}; asked of {}.\n", markdown(rule.title),
                    markdown_name(rule.id), severity_names[static_cast<std::size_t>(rule.severity)],
                    asked_of(rule)));
  for (std::size_t i = 0; i < rule.explain.size(); ++i)
    write(fmt::format("\n## {}\n\n{}\n", explain_headings[i], markdown(rule.explain[i])));
  write(fmt::format("\n## What to do\n\n{}\n\n## Section by edition\n\n", markdown(rule.remedy)));
  write(row({"Edition", "Section"}) + row({"---", "---"}));
  for (const Edition& e : editions) write(row({e.name, markdown(section_in(rule, e))}));
  write("\n" + legend());
  write(fmt::format("> **Caution.** {}\n", markdown(caution())));
}

}  // namespace boxproof::report
