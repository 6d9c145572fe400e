// Pages about the rules and the tables behind them.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "boxproof/report.hpp"
#include "boxproof/rule.hpp"

namespace boxproof::report {

// The editions, wherever they are asked for, are in order.

// Rules by topic: id, severity, title, and the section in each edition.
void write_rule_list(std::span<const Rule* const> rules, std::span<const Edition> editions,
                     const Write& write);

// The same as a checklist for plan review and inspection, in Markdown, with the matrix rule × edition.
void write_checklist(std::span<const Rule* const> rules, std::span<const Edition> editions,
                     const Write& write);

// The same for programs: the format boxproof-rules/1.
void write_rules_json(std::span<const Rule* const> rules, std::span<const Edition> editions,
                      const Write& write);

// One rule: what it finds, why it matters, how it is computed, what to do, its section in each edition.
void write_rule(const Rule& rule, std::span<const Edition> editions, const Write& write);
void write_rule_markdown(const Rule& rule, std::span<const Edition> editions, const Write& write);

// Headings of the three paragraphs of an explanation.
inline constexpr std::string_view explain_headings[] = {"What it finds", "Why it matters",
                                                        "How it is computed"};

// Stands below the sections of a rule.
inline constexpr std::string_view hold_against_book =
    "Hold the section against the adopted book: nothing here is the text of the code.";

// Topics of write_tables.
std::span<const std::string_view> table_topics();

// What an edition holds, to be held against the book: the chosen topics, or all.
void write_tables(const Edition& edition, const std::vector<std::string>& topics, const Write& write);

}  // namespace boxproof::report
