#include "src/edition/sampling_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "src/edition/data.hpp"
#include "src/edition/embedded.hpp"
#include "src/edition/group.hpp"

namespace boxproof {

const SamplingPlan::Band* SamplingPlan::band(std::uint32_t lot) const {
  if (lot < least_lot) return nullptr;
  for (const Band& b : bands)
    if (!b.up_to || lot <= *b.up_to) return &b;
  return nullptr;
}

SamplingPlan load_sampling_plan(std::string_view name) {
  if (std::find(sampling_plan_names.begin(), sampling_plan_names.end(), name) == sampling_plan_names.end())
    throw std::out_of_range(fmt::format("no sampling plan {}", name));
  const std::string file = fmt::format("sampling/{}.json", name);
  read::Problems problems(file, embedded(file));
  const read::Tree tree = parsed_data(file);
  const read::Reading reading{problems};
  const read::Group g(read::Field(read::Value(tree, 0)), reading);

  constexpr int most = 1'000'000'000;
  SamplingPlan plan;
  plan.standard = g.text("standard");
  plan.tables = g.text("tables");
  plan.scheme = g.text("scheme");
  plan.source = g.text("source");
  plan.unverified = read::from_memory(g);
  plan.least_lot = static_cast<std::uint32_t>(g.whole("least_lot", 1, most));
  for (const read::Value& v : g.items("bands")) {
    const read::Group band(read::Field(v), reading);
    SamplingPlan::Band& b = plan.bands.emplace_back();
    if (band.has("up_to")) b.up_to = static_cast<std::uint32_t>(band.whole("up_to", 1, most));
    b.letter = band.text("letter");
    b.size = static_cast<std::uint32_t>(band.whole("size", 1, most));
  }
  problems.raise();
  return plan;
}

}  // namespace boxproof
