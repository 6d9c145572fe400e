#include "src/check/record_inputs.hpp"

#include <algorithm>
#include <array>

#include "boxproof/rule.hpp"
#include "src/check/compare_evidence.hpp"

namespace boxproof {
namespace {

struct RuleInputs {
  std::string_view rule;                   // an id, or the beginning of several
  std::string_view part;                   // within the part; empty: any
  std::array<std::string_view, 6> inputs;  // keys of the record, or groups of them
};

// Every row that fits speaks.
constexpr RuleInputs table[] = {
    {"voltage/", "", {"count"}},
    {"voltage/equipment-rating", "fuse", {"fuse"}},
    {"voltage/equipment-rating", "disconnect", {"disconnect"}},
    {"voltage/equipment-rating", "conductor", {"output", "source"}},
    {"voltage/equipment-rating", "as found", {"output", "source"}},
    {"current/", "", {"count"}},
    // An odd fuse is a fuse, too, whether or not anybody counted them.
    {"fuse/", "", {"count", "fuse", "mixed_fuses", "source"}},
    {"conductor/", "", {"count"}},
    {"conductor/", "output", {"output"}},
    {"conductor/", "circuit", {"source", "fuse", "mixed_fuses"}},
    {"conductor/", "as found", {"output", "source"}},
    {"conductor/", "conductors/", {"output", "source"}},
    {"conductor/grounding-size", "", {"egc", "fuse", "mixed_fuses"}},
    {"conductor/unprotected", "", {"fuse", "mixed_fuses", "output", "source"}},
    {"disconnect/", "", {"disconnect", "count"}},
    {"enclosure/type", "", {"enclosure"}},
    {"protection/", "", {"count"}},
    {"label/", "", {"labels", "count", "fuse", "mixed_fuses", "disconnect", "posted"}},
    {"tally/label", "max_v", {"count/series"}},
    {"tally/label", "max_a", {"count"}},
    {"tally/label", "strings", {"count"}},
    {"tally/label", "series", {"count"}},
    {"tally/label", "fuse_a", {"fuse", "mixed_fuses", "count/fuses"}},
    {"tally/series", "", {"count"}},
    {"tally/strings", "", {"count"}},
    {"tally/fuse", "count", {"count", "fuse", "mixed_fuses"}},
    {"tally/part", "disconnect", {"disconnect"}},
    {"tally/part", "output", {"output"}},
    {"tally/part", "source", {"source"}},
    {"tally/mixed-fuses", "", {"fuse/a"}},
    {"measured/", "", {"measured", "count"}},
    // Whether a part of the box is there at all decides whether its values are asked for.
    {"", "fuse/", {"fuse", "mixed_fuses", "count"}},
    {"", "disconnect/", {"disconnect", "count"}},
    {"", "enclosure/", {"enclosure"}},
    // A group of circuits is told apart by its modules in series where not all strings have as many.
    {"", " in series", {"count"}},
};

// Calls visit(key) for each key that was looked at and is the input, or below it.
template <class Visit>
void each_below(std::string_view input, std::string_view looked_at, Visit&& visit) {
  for (std::size_t at = 0; at < looked_at.size();) {
    const std::size_t end = std::min(looked_at.find('\n', at), looked_at.size());
    const std::string_view key = looked_at.substr(at, end - at);
    if (key == input || (key.starts_with(input) && key.substr(input.size()).starts_with('/'))) visit(key);
    at = end + 1;
  }
}

// A reading of a string that the finding, which is of one, does not speak of.
bool of_another_string(const Finding& f, std::string_view key) {
  constexpr std::string_view lead = "string ", measured = "measured/";
  if (!f.part.starts_with(lead) || !key.starts_with(measured)) return false;
  key.remove_prefix(measured.size());
  const auto slash = key.find('/');
  return slash != std::string_view::npos && key.substr(0, slash) != f.part.substr(lead.size());
}

}  // namespace

std::vector<std::string> record_inputs(const Finding& f, std::string_view looked_at) {
  std::vector<std::string> keys;
  for (const RuleInputs& row : table) {
    if (!f.rule->id.starts_with(row.rule) || f.part.find(row.part) == std::string::npos) continue;
    for (const std::string_view input : row.inputs)
      if (!input.empty())
        each_below(input, looked_at, [&](std::string_view key) {
          // These only change how the rules on aluminum and on fine strands say it.
          if (key == "output/antioxidant" || key == "output/lug_for_fine_strand") return;
          if (of_another_string(f, key)) return;
          // Nothing is computed from the modules counted on the box.
          if (key == "count/modules" && !f.rule->id.starts_with("tally/")) return;
          // A list that left strings out: what the others have may show it now.
          if (key.starts_with("count/series/")) key = "count/series";
          if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.emplace_back(key);
        });
  }
  return keys;
}

std::vector<std::string> not_again(std::string_view group, std::string_view looked_at,
                                   std::string_view later) {
  std::vector<std::string> keys;
  each_below(group, looked_at, [&](std::string_view key) {
    if (!states(later, key)) keys.emplace_back(key);
  });
  return keys;
}

}  // namespace boxproof
