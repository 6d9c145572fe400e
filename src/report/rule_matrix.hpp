// What the pages about the rules share: where a rule stands in each edition, and the rules by topic in the
// order of the work.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "boxproof/rule.hpp"

namespace boxproof::report {

// Stands where an edition does not have the rule.
inline constexpr std::string_view no_section = "–";

// What the star behind a section means.
inline constexpr std::string_view star_means = "from memory, unverified (the whole of it or a part)";

// One cell of the matrix: "690.7(C)*", or the dash.
std::string section_in(const Rule& rule, const Edition& edition);

// Whether the rule has a section in one of the editions at least.
bool stands_in(const Rule& rule, std::span<const Edition> editions);

// A row of the matrix with equal neighbours run together: "2008–2011 690.7(C)*", "2014 690.7(C)", "2017 –".
// Only editions that follow each other are; the editions must be in order.
std::vector<std::string> sections_by_edition(const Rule& rule, std::span<const Edition> editions);

// "2008, 2011 and 2014".
std::string names_of(std::span<const Edition> editions);

// What one rule is answered for: each box, or something larger.
std::string_view asked_of(const Rule& rule);

struct TopicRules {
  std::string_view name;     // the part of the id before the stroke
  std::string_view heading;  // for people
  bool on_roof = false;      // looked at on the roof; else at the desk
  std::vector<const Rule*> rules;
};

// The rules by topic, in the order of the work: the desk first, then the roof. None of the topics is empty.
std::vector<TopicRules> by_topic(std::span<const Rule* const> rules);

}  // namespace boxproof::report
