// Pages about the rules and the tables behind them.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "boxproof/report.hpp"
#include "boxproof/rule.hpp"

namespace boxproof::report {

// Every rule: id, severity, title.
void write_rule_list(const Write& write);

// One rule: what it finds, why it matters, how it is computed, what to do, its section in each edition.
void write_rule(const Rule& rule, std::span<const Edition> editions, const Write& write);

// Topics of write_tables.
std::span<const std::string_view> table_topics();

// What an edition holds, to be held against the book: the chosen topics, or all.
void write_tables(const Edition& edition, const std::vector<std::string>& topics, const Write& write);

}  // namespace boxproof::report
