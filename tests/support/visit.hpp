// A plan with one box and a record of a visit to it, and the rules that hold the two against each other.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "boxproof/check.hpp"
#include "boxproof/read.hpp"

// The box is A-04 of this type: 12 strings of 18 modules in one group "rows", a fuse each, on a 1000 V
// inverter of a ground-mounted site. A string reaches 18 · 49.3 V · (1 + 0.27 % · 34) = 968.9 V at −9 °C, one
// of 19 modules 1022.7 V; the box carries 12 · 1.25 · 11.6 A = 174 A. Module M-13 differs in its current
// alone, 13 A.
struct VisitedPlan {
  // `box`: members of the box in the design, a merge patch onto the type; `seen`: members of the box in the
  // record.
  VisitedPlan(std::string_view box, std::string_view seen, std::string_view edition = "2017");
  VisitedPlan(const VisitedPlan&) = delete;
  VisitedPlan& operator=(const VisitedPlan&) = delete;

  boxproof::Document design_text, record_text;
  const boxproof::Edition& edition;
  boxproof::DesignFile design;
  boxproof::RecordFile record;
  boxproof::FoundParts own;
  const boxproof::Combiner& plan;
  const boxproof::VisitedBox& visited;
  boxproof::Combiner found;
};

// The design that VisitedPlan reads, with these combiners.
std::string design_with(std::string_view combiners);

// The one finding of a list that must hold one.
const boxproof::Finding& only(const std::vector<boxproof::Finding>& findings);

// What a rule says of the visit.
std::vector<boxproof::Finding> judge_visit(const boxproof::Rule& rule, const VisitedPlan& visit);
std::vector<boxproof::Finding> judge_visit(const boxproof::Rule& rule, std::string_view box,
                                           std::string_view seen);
// The parts that a rule speaks of.
std::vector<std::string> parts(const boxproof::Rule& rule, std::string_view box, std::string_view seen);
