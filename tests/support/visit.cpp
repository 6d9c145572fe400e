#include "tests/support/visit.hpp"

#include "tests/support/catch.hpp"

#include "src/rules/notes.hpp"
#include "tests/support/editions.hpp"

namespace {

constexpr std::string_view design_head = R"({
  "format": "boxproof-design/1",
  "site": { "name": "Trial Field", "use": "ground", "low_c": -9, "high_c": 36, "temperature_source": "invented" },
  "code": { "edition": "2017" },
  "modules": {
    "M": { "voc_v": 49.3, "isc_a": 11.6, "voc_coeff_pct_per_c": -0.27, "max_fuse_a": 25, "max_system_v": 1500 },
    "M-13": { "voc_v": 49.3, "isc_a": 13, "voc_coeff_pct_per_c": -0.27, "max_fuse_a": 30, "max_system_v": 1500 },
    "M-900": { "voc_v": 49.3, "isc_a": 11.6, "voc_coeff_pct_per_c": -0.27, "max_fuse_a": 25, "max_system_v": 900 }
  },
  "inverters": { "I": { "max_dc_v": 1000, "grounding": "functional" } },
  "conductors": {
    "pv-10": { "size": "10 AWG", "material": "copper", "insulation": "PV wire", "insulation_c": 90,
               "rated_v": 2000, "stranding": "coarse" },
    "pv-12": { "size": "12 AWG", "material": "copper", "insulation": "PV wire", "insulation_c": 90,
               "rated_v": 2000, "stranding": "coarse" },
    "pv-900": { "size": "10 AWG", "material": "copper", "insulation": "PV wire", "insulation_c": 90,
                "rated_v": 900, "stranding": "coarse" },
    "rhw-300": { "size": "300 kcmil", "material": "copper", "insulation": "RHW-2", "insulation_c": 90,
                 "rated_v": 2000, "stranding": "coarse" }
  },
  "box_types": { "T": {
    "inverter": "I",
    "mounting": { "place": "ground", "cover": "side", "air_gap_mm": 10, "wet": true },
    "enclosure": { "type": "4X", "rated_v": 1500, "rated_a": 250, "inputs": 12, "listed": true, "metal": true },
    "fuse": { "a": 20, "v": 1500, "dc": true, "pv_listed": true, "poles": "one" },
    "output": { "run": { "conductor": "rhw-300", "method": "raceway", "terminal_c": 75 }, "ocpd_a": 225 },
    "disconnect": { "rated_v": 1500, "rated_a": 250, "load_break": true, "distance_m": 1.5 },
    "egc": { "size": "4 AWG", "material": "copper" },
    "circuits": [ { "id": "rows", "module": "M", "series": 18, "strings": 12,
                    "run": { "conductor": "pv-10", "method": "free-air" } } ] } },
  "combiners": [)";

std::string record_of(std::string_view seen) {
  return R"({ "format": "boxproof-asbuilt/1", "boxes": [ { "id": "A-04")" +
         (seen.empty() ? std::string() : ", " + std::string(seen)) + " } ] }";
}

std::string design_of(std::string_view box) {
  return design_with(R"({ "id": "A-04", "type": "T")" +
                     (box.empty() ? std::string() : ", " + std::string(box)) + " }");
}

}  // namespace

std::string design_with(std::string_view combiners) {
  return std::string(design_head) + std::string(combiners) + "] }";
}

VisitedPlan::VisitedPlan(std::string_view box, std::string_view seen, std::string_view edition_name)
    : design_text{"design.json", design_of(box)},
      record_text{"record.json", record_of(seen)},
      edition(edition_of(edition_name)),
      design(boxproof::read_design(design_text)),
      record(boxproof::read_field_record(record_text)),
      plan(design.design.combiners.front()),
      visited(record.record.boxes.front()),
      found(boxproof::as_built(plan, visited, own)) {}

std::vector<boxproof::Finding> judge_visit(const boxproof::Rule& rule, const VisitedPlan& visit) {
  boxproof::BoxFacts facts;
  boxproof::box_facts(visit.design.design, visit.found, visit.edition, facts);
  boxproof::Notes notes(visit.edition, true);
  notes.about(0, visit.plan.id, boxproof::Basis::as_built);
  notes.speak(rule, visit.edition.rules.find(rule.id)->second);
  rule.judge_visit({visit.design.design, visit.edition, visit.plan, 0, visit.visited, 0, facts}, notes);
  notes.close();
  return std::move(notes.findings());
}

std::vector<boxproof::Finding> judge_visit(const boxproof::Rule& rule, std::string_view box,
                                           std::string_view seen) {
  return judge_visit(rule, VisitedPlan(box, seen));
}

const boxproof::Finding& only(const std::vector<boxproof::Finding>& findings) {
  REQUIRE(findings.size() == 1);
  return findings.front();
}

std::vector<std::string> parts(const boxproof::Rule& rule, std::string_view box, std::string_view seen) {
  std::vector<std::string> out;
  for (const boxproof::Finding& f : judge_visit(rule, box, seen)) out.push_back(f.part);
  return out;
}
