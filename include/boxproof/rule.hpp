// A rule is a plain value: what it is called, how grave it is, what it says of itself, and a function that
// looks.
//
// The sections by edition are data (data/editions, "rules"); a rule without a section in an edition does not
// run.
#pragma once

#include <array>
#include <span>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "boxproof/asbuilt.hpp"
#include "boxproof/calculate.hpp"
#include "boxproof/design.hpp"
#include "boxproof/edition.hpp"
#include "boxproof/finding.hpp"

namespace boxproof {

class LikeBoxes;
class Notes;

// The whole site: every box's facts, summed.
struct SiteTotals {
  std::size_t combiners = 0;
  double strings = 0, modules = 0;
  std::optional<double> dc_kilowatts;        // nothing: a module's power is not stated
  std::vector<const Module*> without_power;  // those modules, each once
  struct PerInverter {
    const Inverter* inverter = nullptr;
    Amps output_max;  // sum over its boxes
    std::size_t boxes = 0;
    bool fused = false;  // whether any of its boxes has fuses
    double strings = 0;  // in parallel on it, over all its boxes
  };
  std::vector<PerInverter> inverters;  // in the order in which boxes name them
  std::unordered_map<const Inverter*, std::size_t> position;

  const PerInverter& of(const Inverter* inverter) const { return inverters[position.at(inverter)]; }
};

// One box with everything known of it, as planned or as built.
struct BoxCase {
  const Design& design;
  const Edition& edition;
  const Combiner& box;
  std::uint32_t index;  // in the design
  const BoxFacts& facts;
  const SiteTotals& totals;
  Basis basis = Basis::design;
  const VisitedBox* visited = nullptr;  // as built: the record that changed the box
};

struct SiteCase {
  const Design& design;
  const Edition& edition;
  const SiteTotals& totals;
  Basis basis = Basis::design;
};

// A visited box held against its plan.
struct VisitCase {
  const Design& design;
  const Edition& edition;
  const Combiner& plan;
  std::uint32_t index;  // of the box in the design
  const VisitedBox& visited;
  std::uint32_t record_index;       // of the box in the field record
  const BoxFacts& as_built;         // facts of the box as found
  const LikeBoxes* like = nullptr;  // the plan's boxes by type; null: not known
  bool on_plan = true;  // false: `plan` has an id and nothing else; only what was seen can be judged
};

// The field record against the plan as a whole.
struct RecordCase {
  const Design& design;
  const Edition& edition;
  const FieldRecord& record;
};

struct Rule {
  std::string_view id;  // topic/name
  Severity severity;    // the gravest it reports
  std::string_view title;
  std::array<std::string_view, 3> explain;  // what it compares; why it matters; how it is computed
  std::string_view remedy;                  // what to do, in the imperative
  // Groups of the edition's data behind it, as dotted paths: an amendment below one of them touches its
  // findings.
  std::vector<std::string_view> uses = {};
  // What it looks at; the others are null.
  void (*judge)(const BoxCase&, Notes&) = nullptr;
  void (*judge_site)(const SiteCase&, Notes&) = nullptr;
  void (*judge_visit)(const VisitCase&, Notes&) = nullptr;
  void (*judge_record)(const RecordCase&, Notes&) = nullptr;
};

// Every rule once, in the order of the rules page.
std::span<const Rule* const> all_rules();

// The rule with this id, or null.
const Rule* find_rule(std::string_view id);

}  // namespace boxproof
